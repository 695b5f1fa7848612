import type { ReactNode } from 'react';
import { ShareChapter, type SharePart } from '../notebook/share/ShareChapter';
import { sayApp } from '../words/app';
import { PicturesPane } from './PicturesPane';
import { HoldPane } from './HoldPane';
import { OfflinePane } from './OfflinePane';
import { ShareFilePane } from './ShareFilePane';
import { ShareLinkPane } from './ShareLinkPane';
import { sayShare } from '../words/share';
import { sayHold } from '../words/hold';
import { sayPictures } from '../words/pictures';

/** The parts in the order in which they stand; each takes what it needs from the session by itself. */
const parts = (): readonly SharePart[] => [
  { id: 'share-link', heading: sayShare('linkHeading'), content: <ShareLinkPane /> },
  { id: 'share-file', heading: sayShare('fileHeading'), content: <ShareFilePane /> },
  { id: 'pictures', heading: sayPictures('heading'), content: <PicturesPane /> },
  { id: 'hold', heading: sayHold('heading'), content: <HoldPane /> },
  { id: 'offline', heading: sayApp('withoutNetwork'), content: <OfflinePane /> },
];

/** The chapter with all the ways in which the picture leaves this page. */
export function SharePane(): ReactNode {
  return <ShareChapter parts={parts()} />;
}

import type { ReactNode } from 'react';
import { ShareChapter, type SharePart } from '../notebook/share/ShareChapter';
import { FILE_HEADING, LINK_HEADING } from '../notebook/share/words';
import { PICTURES_HEADING } from '../notebook/share/pictureWords';
import { HOLD_HEADING } from '../notebook/share/holdWords';
import { PicturesPane } from './PicturesPane';
import { HoldPane } from './HoldPane';
import { ShareFilePane } from './ShareFilePane';
import { ShareLinkPane } from './ShareLinkPane';

/** The parts in the order in which they stand; each takes what it needs from the session by itself. */
const PARTS: readonly SharePart[] = [
  { id: 'share-link', heading: LINK_HEADING, content: <ShareLinkPane /> },
  { id: 'share-file', heading: FILE_HEADING, content: <ShareFilePane /> },
  { id: 'pictures', heading: PICTURES_HEADING, content: <PicturesPane /> },
  { id: 'hold', heading: HOLD_HEADING, content: <HoldPane /> },
];

/** The chapter with all the ways in which the picture leaves this page. */
export function SharePane(): ReactNode {
  return <ShareChapter parts={PARTS} />;
}

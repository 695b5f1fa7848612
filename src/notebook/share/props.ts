/** What the chapter on sharing is given. */
import type { LinkCodeAnswer } from '../../print/linkCode';
import type { ShareChoice, ShareExtent, ShareTicks } from '../../records/sharedPicture';

export interface WhatGoesProps {
  readonly choice: ShareChoice;
  readonly readings: number;
  readonly tryOuts: number;
  readonly measurings: number;
  onExtent(extent: ShareExtent): void;
  onTicks(ticks: ShareTicks): void;
}

/** The link of what was chosen, or why there is none. */
export type ShownLink =
  | { readonly kind: 'link'; readonly address: string; readonly code: LinkCodeAnswer }
  | { readonly kind: 'too-long'; readonly characters: number }
  /** The page was opened from a disk. */
  | { readonly kind: 'no-address' }
  | { readonly kind: 'refused'; readonly message: string };

export interface LinkPartProps extends WhatGoesProps {
  readonly link: ShownLink;
  /** Hands the link to another program by the system's own list; null where the browser has none. */
  readonly onHandOn: ((address: string) => void) | null;
}

export interface FilePartProps {
  /** What goes into it, in words. */
  readonly goes: string;
  readonly state: 'ready' | 'making' | 'made' | 'failed';
  /** Why it could not be made; null otherwise. */
  readonly failure: string | null;
  /** This page is one file itself. */
  readonly isOneFile: boolean;
  onSave(): void;
}

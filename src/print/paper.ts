import { sayPrint } from '../words/print';

/** The two papers, and what of them the hand-out fills. mm. */
export type Paper = 'a4' | 'letter';

export interface PaperSize {
  name(): string;
  /** As `@page` calls it. */
  readonly cssSize: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly besideMm: number;
  readonly aboveMm: number;
  /** Height of both figures: what is left beside the rest at its largest, under one system of notes and under two. */
  readonly figureHeightMm: { readonly one: number; readonly two: number };
}

/** Both papers are filled to the same width, so that lines break alike. */
export const CONTENT_WIDTH_MM = 180;
/** Two figures and the space between them fill the width; a horn seen from the side needs more of it. */
export const FIGURE_WIDTHS_MM = { side: 100, above: 76 } as const;

export const PAPERS: Readonly<Record<Paper, PaperSize>> = {
  a4: { name: () => 'A4', cssSize: 'A4', widthMm: 210, heightMm: 297, besideMm: 15, aboveMm: 14, figureHeightMm: { one: 92, two: 78 } },
  letter: { name: () => sayPrint('paperLetter'), cssSize: 'letter', widthMm: 215.9, heightMm: 279.4, besideMm: 17.95, aboveMm: 14, figureHeightMm: { one: 78, two: 62 } },
};

export const contentHeightMm = ({ heightMm, aboveMm }: PaperSize): number => heightMm - 2 * aboveMm;

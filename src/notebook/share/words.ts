/** The sentences of the chapter on sharing that are made from numbers and choices. */
import { ROOM_VERSION } from '../../print/linkCode';
import { LONGEST_LINK } from '../../records/pictureLink';
import { sayShare } from '../../words/share';
import type { WhatGoesProps } from './props';

/** "Goes along: teeth, lips, rim and force; 8 readings and 1 try-out; the picture as it is looked at now. No label, no day, no remarks." */
export function whatGoesWords({ choice: { extent, ticks }, readings, tryOuts, measurings }: Omit<WhatGoesProps, 'onExtent' | 'onTicks'>): string {
  const stays = (isLeft: boolean): string => (isLeft ? 'stays' : 'goes');
  const goes = sayShare('goes', { extent, readings, tryOuts: extent === 'lesson' ? tryOuts : 0 });
  const left = sayShare('stays', { label: stays(!ticks.label), remarks: stays(!ticks.remarks), measured: stays(!ticks.measurings && measurings > 0) });
  return left === '' ? goes : `${goes} ${left}`;
}

export const lengthWords = (characters: number): string => sayShare('length', { characters: grouped(characters) });

export const linkTooLongWords = (characters: number): string => sayShare('linkTooLong', { characters: grouped(characters), most: grouped(LONGEST_LINK) });

export const codeTooLongWords = (squaresASide: number | null): string =>
  squaresASide === null ? sayShare('codeTooLong') : sayShare('codeTooFine', { squares: squaresASide, most: 17 + 4 * ROOM_VERSION });

/** 12 345 with a narrow space that does not break. */
const grouped = (value: number): string => String(value).replace(/\B(?=(\d{3})+$)/g, '\u202f');

/** The words of a bite print. */
import { NINETY_FIVE_PERCENT } from '../../../core/bands';
import { FEWEST_PRINT_POINTS, type NoPrintFit, type PrintAsymmetry } from '../../../core/ownArch/fitPrint';
import type { BitePrintSpec } from '../../../core/specs';
import { sayOwnArch } from '../../../words/ownArch';
import { formatFixed } from '../../numberText';
import { type DraftRead, type MarkGroup, type PrintMarkId, type PrintTooth, partsOf } from './printMarks';

export function markWords(id: PrintMarkId): string {
  const { group, at } = partsOf(id);
  return sayOwnArch('printMark', { group, number: at + 1 });
}

export const hintOf = (group: MarkGroup): string => sayOwnArch('printMarkHint', { group });

export const toothOptions = (): readonly { readonly value: PrintTooth | ''; readonly label: string }[] => [
  { value: '', label: sayOwnArch('printNoName') },
  { value: 'midline', label: sayOwnArch('printMidline') },
  { value: 'canine-right', label: sayOwnArch('printCanineRight') },
  { value: 'canine-left', label: sayOwnArch('printCanineLeft') },
];

/** What keeps the marks from millimetres; null: nothing. */
export function readTrouble(read: DraftRead): string | null {
  if (read.kind === 'converted') return null;
  return sayOwnArch(TROUBLES[read.kind === 'refused' ? read.reason : read.what]);
}

/** Each by the message that says what to do. */
const TROUBLES = {
  card: 'lacking-card',
  circle: 'lacking-circle',
  ruler: 'lacking-ruler',
  length: 'lacking-length',
  'corners-line': 'corners-line',
  'corners-crossing': 'corners-crossing',
  'circle-few': 'circle-few',
  'circle-none': 'circle-none',
  'ruler-short': 'ruler-short',
  behind: 'behind',
  unsure: 'unsure',
} as const;

export function fitTrouble({ reason }: NoPrintFit, count: number): string {
  if (reason === 'few') return sayOwnArch('few', { fewest: FEWEST_PRINT_POINTS, count });
  return reason === 'line' || reason === 'one-side' ? sayOwnArch(reason) : sayOwnArch('noForm');
}

const mmOf = (mm: number): string => formatFixed(Math.abs(mm), 1);
const sideOf = (leftMm: number): 'left' | 'right' => (leftMm >= 0 ? 'left' : 'right');

/** `isFree`: of a form that is not the same on both sides. */
export function sidesWords({ leftOutMm, sdMm }: PrintAsymmetry, isFree = false): string {
  const values = { band: mmOf(NINETY_FIVE_PERCENT * sdMm) };
  return isUneven({ leftOutMm, sdMm })
    ? sayOwnArch(isFree ? 'printFollowed' : 'printUneven', { ...values, mm: mmOf(leftOutMm), side: sideOf(leftOutMm) })
    : sayOwnArch('printEven', { ...values, mm: formatFixed(leftOutMm, 1) });
}

export const isUneven = ({ leftOutMm, sdMm }: Pick<PrintAsymmetry, 'leftOutMm' | 'sdMm'>): boolean => Math.abs(leftOutMm) > NINETY_FIVE_PERCENT * sdMm;

export function midlineWords({ leftMm, sdMm }: NonNullable<PrintAsymmetry['midline']>): string {
  return sayOwnArch('printMidlineOff', { mm: mmOf(leftMm), band: mmOf(NINETY_FIVE_PERCENT * sdMm), side: sideOf(leftMm) });
}

/** null: not both canines are named. */
export function canineWords({ points }: BitePrintSpec): string | null {
  const [right, left] = (['canine-right', 'canine-left'] as const).map((name) => points.find(({ tooth }) => tooth === name));
  if (right === undefined || left === undefined) return null;
  return sayOwnArch('printCanines', { mm: mmOf(Math.hypot(right.xMm - left.xMm, right.yMm - left.yMm)) });
}

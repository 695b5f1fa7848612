/** What is marked in the picture of a bite print, and what follows from it: marks put, moved and taken away, with steps back and forward. Pure. */
import type { NoArchFit } from '../../../core/ownArch/fitArch';
import { MOST_PRINT_POINTS } from '../../../core/ownArch/fitPrint';
import { type TwoJaws, withMeasures } from '../../../core/ownArch/ownArch';
import { withoutScanned } from '../../../core/ownArch/scannedArch';
import type { ArchFamily, BitePrintSpec, PlayerRecord, PrintPointSpec, PrintScaleSpec } from '../../../core/specs';
import { type NoPrint, type PrintInMm, type PrintScale, printInMm } from '../../../measure/bitePrint';
import type { Corners } from '../../../measure/homography';
import type { Point } from '../../../measure/picture';
import { measuredOf } from '../measureEdits';

export type PrintTooth = NonNullable<PrintPointSpec['tooth']>;
export type MarkGroup = 'card' | 'circle' | 'ruler' | 'tooth';
export type PrintMarkId = `${MarkGroup}-${number}`;

export interface ToothMark {
  readonly point: Point;
  readonly tooth: PrintTooth | null;
}

export interface PrintDraft {
  readonly jaw: 'upper' | 'lower';
  readonly by: PrintScaleSpec['by'];
  readonly card: readonly Point[];
  readonly circle: readonly Point[];
  readonly ruler: readonly Point[];
  /** From the player's right to the left. */
  readonly teeth: readonly ToothMark[];
  /** null: not typed yet. */
  readonly widthMm: number | null;
  readonly heightMm: number | null;
  readonly diameterMm: number | null;
  readonly lengthMm: number | null;
}

/** A small card of a common paper size, ISO 216: A7. */
const [CARD_WIDTH_MM, CARD_HEIGHT_MM] = [105, 74];

export const NEW_DRAFT: PrintDraft = {
  jaw: 'upper', by: 'card', card: [], circle: [], ruler: [], teeth: [], widthMm: CARD_WIDTH_MM, heightMm: CARD_HEIGHT_MM, diameterMm: null, lengthMm: null,
};

/** Marks that each group asks for before the teeth; a coin takes more. */
export const ASKED: Readonly<Record<PrintScaleSpec['by'], number>> = { card: 4, circle: 8, ruler: 2 };
const MOST: Readonly<Record<MarkGroup, number>> = { card: 4, circle: 24, ruler: 2, tooth: MOST_PRINT_POINTS };

export const placesOf = (draft: PrintDraft, group: MarkGroup): readonly Point[] => (group === 'tooth' ? draft.teeth.map(({ point }) => point) : draft[group]);

export function marksPut(draft: PrintDraft): PrintMarkId[] {
  return [draft.by, 'tooth' as const].flatMap((group) => placesOf(draft, group).map((_, at): PrintMarkId => `${group}-${at}`));
}

export function partsOf(id: PrintMarkId): { readonly group: MarkGroup; readonly at: number } {
  const [group, at] = id.split('-') as [MarkGroup, string];
  return { group, at: Number(at) };
}

export const markAt = (draft: PrintDraft, id: PrintMarkId): Point | null => placesOf(draft, partsOf(id).group)[partsOf(id).at] ?? null;

/** The group that a tap puts a mark of; null: there is room for no more. */
export const groupNow = (draft: PrintDraft, wanted: MarkGroup): MarkGroup | null => (placesOf(draft, wanted).length < MOST[wanted] ? wanted : null);

/** The same group until it has what it asks for, then the teeth. */
export const groupAfter = (draft: PrintDraft, group: MarkGroup): MarkGroup => (group !== 'tooth' && placesOf(draft, group).length >= ASKED[group] ? 'tooth' : group);

/** A tooth between two that are marked takes its place between them: what makes the way over all of them longest by least. */
export function withNew(draft: PrintDraft, group: MarkGroup, point: Point): PrintDraft {
  if (group !== 'tooth') return { ...draft, [group]: [...draft[group], point] };
  const { teeth } = draft;
  const apart = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);
  let [best, least] = [teeth.length, teeth.length === 0 ? 0 : apart(teeth.at(-1)!.point, point)];
  for (let at = 0; at < teeth.length && teeth.length > 1; at++) {
    const next = teeth[at]!.point;
    const before = teeth[at - 1]?.point;
    const longer = before === undefined ? apart(next, point) : apart(before, point) + apart(point, next) - apart(before, next);
    if (longer < least) [best, least] = [at, longer];
  }
  return { ...draft, teeth: [...teeth.slice(0, best), { point, tooth: null }, ...teeth.slice(best)] };
}

export function withMoved(draft: PrintDraft, id: PrintMarkId, point: Point): PrintDraft {
  const { group, at } = partsOf(id);
  if (group === 'tooth') return { ...draft, teeth: draft.teeth.map((one, index) => (index === at ? { ...one, point } : one)) };
  return { ...draft, [group]: draft[group].map((one, index) => (index === at ? point : one)) };
}

/** A tooth that was moved past its neighbours takes its place in the row anew; the very same draft where it stands right. */
export function inRow(draft: PrintDraft, id: PrintMarkId): PrintDraft {
  const { group, at } = partsOf(id);
  const moved = group === 'tooth' ? draft.teeth[at] : undefined;
  if (moved === undefined || draft.teeth.length < 3) return draft;
  const { teeth } = withNew(withoutMark(draft, id), 'tooth', moved.point);
  if (teeth[at]!.point === moved.point) return draft;
  return { ...draft, teeth: teeth.map((one) => (one.point === moved.point ? moved : one)) };
}

export function withoutMark(draft: PrintDraft, id: PrintMarkId): PrintDraft {
  const { group, at } = partsOf(id);
  return { ...draft, [group === 'tooth' ? 'teeth' : group]: (group === 'tooth' ? draft.teeth : draft[group]).filter((_, index) => index !== at) };
}

/** Each name stands at one point only. */
export function withTooth(draft: PrintDraft, at: number, tooth: PrintTooth | null): PrintDraft {
  return { ...draft, teeth: draft.teeth.map((one, index) => (index === at ? { ...one, tooth } : one.tooth === tooth && tooth !== null ? { ...one, tooth: null } : one)) };
}

/** The first marked tooth becomes the last: the player's right was taken for the left. */
export function exchanged(draft: PrintDraft): PrintDraft {
  const other = { 'canine-right': 'canine-left', 'canine-left': 'canine-right', midline: 'midline' } as const;
  return { ...draft, teeth: draft.teeth.map(({ point, tooth }) => ({ point, tooth: tooth && other[tooth] })).reverse() };
}

/** `lacking`: a length is not typed yet, or the marks of the scale are not all put. */
export type DraftRead = PrintInMm | NoPrint | { readonly kind: 'lacking'; readonly what: 'length' | PrintScaleSpec['by'] };

export function readDraft(draft: PrintDraft): DraftRead {
  const lengths = { card: [draft.widthMm, draft.heightMm], circle: [draft.diameterMm], ruler: [draft.lengthMm] }[draft.by];
  const fewest = draft.by === 'circle' ? FEWEST_OF_CIRCLE : ASKED[draft.by];
  if (placesOf(draft, draft.by).length < fewest) return { kind: 'lacking', what: draft.by };
  if (lengths.some((mm) => mm === null)) return { kind: 'lacking', what: 'length' };
  return printInMm(scaleOf(draft), draft.teeth.map(({ point }) => point));
}

const FEWEST_OF_CIRCLE = 5;

function scaleOf({ by, card, circle, ruler, widthMm, heightMm, diameterMm, lengthMm }: PrintDraft): PrintScale {
  switch (by) {
    case 'card':
      return { by, corners: card as unknown as Corners, widthMm: widthMm!, heightMm: heightMm! };
    case 'circle':
      return { by, points: circle, diameterMm: diameterMm! };
    case 'ruler':
      return { by, from: ruler[0]!, to: ruler[1]!, lengthMm: lengthMm! };
  }
}

/** Kept to a micrometre: far below what any mark is known to. */
const PLACES = 3;
/** A share of a size to a millionth. */
const PART_PLACES = 6;
const LEAST_SD_MM = 0.001;

/** The print as a record keeps it. */
export function printOf(draft: PrintDraft, { points, scalePart }: PrintInMm): BitePrintSpec {
  const { by } = draft;
  const scale: PrintScaleSpec =
    by === 'card' ? { by, widthMm: draft.widthMm!, heightMm: draft.heightMm! } : by === 'circle' ? { by, diameterMm: draft.diameterMm! } : { by, lengthMm: draft.lengthMm! };
  const rounded = (value: number, places = PLACES): number => Number(value.toFixed(places));
  return {
    jaw: draft.jaw,
    scale,
    scalePart: rounded(scalePart, PART_PLACES),
    points: points.map(({ xMm, yMm, sdMm }, at) => {
      const { tooth } = draft.teeth[at]!;
      return { xMm: rounded(xMm), yMm: rounded(yMm), sdMm: Math.max(LEAST_SD_MM, rounded(sdMm)), ...(tooth !== null && { tooth }) };
    }),
  };
}

/** The print in the place of an earlier one of its jaw, or of its scan, and the arch fitted anew with its family. */
export function withPrint(record: PlayerRecord, print: BitePrintSpec, family: ArchFamily): { readonly kind: 'record'; readonly record: PlayerRecord } | NoArchFit {
  const { measures, prints = [] } = measuredOf(record);
  const arch = withoutScanned(record.arch as TwoJaws, print.jaw);
  return fittedWith({ ...record, arch }, { family, measures, prints: [...prints.filter(({ jaw }) => jaw !== print.jaw), print] });
}

export function withoutPrint(record: PlayerRecord, jaw: BitePrintSpec['jaw']): { readonly kind: 'record'; readonly record: PlayerRecord } | NoArchFit {
  const { family, measures, prints = [] } = measuredOf(record);
  const left = prints.filter((one) => one.jaw !== jaw);
  return fittedWith(record, { family, measures, ...(left.length > 0 && { prints: left }) });
}

function fittedWith(record: PlayerRecord, measured: Parameters<typeof withMeasures>[1]): { readonly kind: 'record'; readonly record: PlayerRecord } | NoArchFit {
  const made = withMeasures(record.arch as TwoJaws, measured);
  return made.kind === 'arch' ? { kind: 'record', record: { ...record, arch: made.arch } } : (made);
}

/** Steps back and forward; those of one key in a row are one. */
export interface Steps<T> {
  readonly past: readonly T[];
  readonly now: T;
  readonly future: readonly T[];
  readonly key: string | null;
}

const MOST_STEPS = 200;

export const startSteps = <T>(now: T): Steps<T> => ({ past: [], now, future: [], key: null });
export const stepTo = <T>({ past, now, key: before }: Steps<T>, next: T, key: string | null): Steps<T> =>
  key !== null && key === before ? { past, now: next, future: [], key } : { past: [...past, now].slice(-MOST_STEPS), now: next, future: [], key };
export const closed = <T>(steps: Steps<T>): Steps<T> => (steps.key === null ? steps : { ...steps, key: null });
export const stepBack = <T>(steps: Steps<T>): Steps<T> => {
  const { past, now, future } = steps;
  return past.length === 0 ? steps : { past: past.slice(0, -1), now: past.at(-1)!, future: [now, ...future], key: null };
};
export const stepForward = <T>(steps: Steps<T>): Steps<T> => {
  const { past, now, future } = steps;
  return future.length === 0 ? steps : { past: [...past, now], now: future[0]!, future: future.slice(1), key: null };
};

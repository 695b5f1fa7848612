/** The words of the own arch by ruler or caliper. */
import type { AngleBand } from '../../core/analysis';
import { NINETY_FIVE_PERCENT } from '../../core/bands';
import type { BudgetEntry, Candidate, NoteBudget } from '../../core/ownArch/budget';
import type { FittedMeasure } from '../../core/ownArch/fitArch';
import type { ArchFamily, ArchMeasureName } from '../../core/specs';
import { unknownWords } from '../../core/words';
import { sayOwnArch } from '../../words/ownArch';
import { formatFixed, formatNumber } from '../numberText';

export type Way = 'elevationSdDeg' | 'lateralSdDeg';

export const wayOptions = (): readonly { readonly value: Way; readonly label: string }[] => [
  { value: 'elevationSdDeg', label: sayOwnArch('upAndDown') },
  { value: 'lateralSdDeg', label: sayOwnArch('toTheSide') },
];

/** Under which each measure stands in the figures. */
export const LETTERS: Readonly<Record<ArchMeasureName, string>> = {
  'upper-canine-width': 'A',
  'upper-canine-depth': 'B',
  'upper-molar-width': 'C',
  'upper-molar-depth': 'D',
  'lower-canine-width': 'E',
  'lower-canine-depth': 'F',
  'lower-molar-width': 'G',
  'lower-molar-depth': 'H',
  overjet: 'J',
  overbite: 'K',
  'upper-crown-height': 'L',
};

export const UPPER: readonly ArchMeasureName[] = ['upper-canine-width', 'upper-canine-depth', 'upper-molar-width', 'upper-molar-depth'];
export const LOWER: readonly ArchMeasureName[] = ['lower-canine-width', 'lower-canine-depth', 'lower-molar-width', 'lower-molar-depth'];
export const SIDE: readonly ArchMeasureName[] = ['overjet', 'overbite', 'upper-crown-height'];

export const familyOptions = (): readonly { readonly value: ArchFamily; readonly label: string }[] =>
  (['sextic', 'ellipse', 'beta', 'parabola', 'catenary', 'circle'] as const).map((value) => ({ value, label: sayOwnArch(value) }));

export const labelWords = (what: Candidate): string => sayOwnArch(what, { place: 'label' });

/** Where it is taken. */
export function hintWords(name: ArchMeasureName): string {
  const upper = name.startsWith('upper');
  const front = upper ? { frontRight: 11, frontLeft: 21 } : { frontRight: 41, frontLeft: 31 };
  const canines = upper ? { right: 13, left: 23 } : { right: 43, left: 33 };
  const molars = upper ? { right: 16, left: 26 } : { right: 46, left: 36 };
  switch (name) {
    case 'upper-canine-width':
    case 'lower-canine-width':
      return sayOwnArch('canineWidthHint', canines);
    case 'upper-canine-depth':
    case 'lower-canine-depth':
      return sayOwnArch('canineDepthHint', { ...front, ...canines });
    case 'upper-molar-width':
    case 'lower-molar-width':
      return sayOwnArch('molarWidthHint', molars);
    case 'upper-molar-depth':
    case 'lower-molar-depth':
      return sayOwnArch('molarDepthHint', { ...front, ...molars });
    case 'overjet':
      return sayOwnArch('overjetHint');
    case 'overbite':
      return sayOwnArch('overbiteHint');
    case 'upper-crown-height':
      return sayOwnArch('crownHeightHint');
  }
}

export function fittedWords({ fittedMm, sdMm, measured }: FittedMeasure): string {
  const values = { mm: formatFixed(fittedMm, 1), band: formatFixed(sdMm * NINETY_FIVE_PERCENT, 1) };
  return measured === null ? sayOwnArch('takenAs', values) : sayOwnArch('withOthers', values);
}

export function contradictionWords({ name, fittedMm, measured, apartSds }: FittedMeasure): string {
  return sayOwnArch('contradiction', {
    label: labelWords(name),
    mm: formatNumber(measured!.mm, 2),
    sds: formatFixed(Math.abs(apartSds!), 1),
    fitted: formatFixed(fittedMm, 1),
  });
}

/** "± 2.3°": 95 %. */
export const bandWords = (sdDeg: number, places = 1): string => `±\u00a0${formatFixed(sdDeg * NINETY_FIVE_PERCENT, places)}°`;

/** "At B♭5 the swing is sure to ± 2.3° up and down and ± 1.4° to the side …" */
export function sureWords({ now, usual }: NoteBudget, note: string, measured: boolean): string {
  const values = { note, up: bandWords(now.elevationSdDeg), side: bandWords(now.lateralSdDeg) };
  if (!measured) return sayOwnArch('sureAsUsual', values);
  return sayOwnArch('sureMeasured', { ...values, usualUp: bandWords(usual.elevationSdDeg), usualSide: bandWords(usual.lateralSdDeg) });
}

/** By how much a measure narrows, as a part of the band. */
export const narrowing = (entry: BudgetEntry, now: AngleBand, way: Way): number => (now[way] > 0 ? 1 - entry.after[way] / now[way] : 0);

/** Less than this part of a band is not worth a measure: our judgement. */
const WORTH_PART = 0.02;

/** What narrows the band enough to be told by a bar of its own, best first, and the others. */
export function ranked({ now, entries }: NoteBudget, way: Way): { readonly worth: readonly BudgetEntry[]; readonly others: readonly BudgetEntry[] } {
  const sorted = [...entries].sort((a, b) => a.after[way] - b.after[way]);
  const worth = sorted.filter((one) => narrowing(one, now, way) >= SHOWN_PART);
  return { worth, others: sorted.slice(worth.length) };
}

/** Less than this part of a band makes no bar that differs. */
const SHOWN_PART = 0.005;

export const othersWords = (others: readonly BudgetEntry[]): string => sayOwnArch('others', { names: others.map(({ what }) => inSentence(what)).join(', ') });

export function bestWords({ now, entries, largest }: NoteBudget, chosen: Way): string {
  const way = chosen === 'elevationSdDeg' ? 'up' : 'side';
  const sorted = [...entries].sort((a, b) => a.after[chosen] - b.after[chosen]);
  const [best] = sorted;
  const [teeth] = sorted.filter(({ what }) => what !== 'travel' && what !== 'jaw');
  if (best === undefined) return sayOwnArch('allMeasured');
  const part = narrowing(best, now, chosen);
  const name = largest[chosen];
  const most = name === null ? '' : ` ${sayOwnArch('most', { what: unknownWords(name).replaceAll("'", '’') })}`;
  if (part < WORTH_PART) return `${sayOwnArch('nothingNarrows', { way })}${most}`;
  const places = part < 0.1 ? 2 : 1;
  const first = sayOwnArch('narrows', {
    what: best.what,
    name: inSentence(best.what),
    part: partName(part),
    percent: Math.round(100 * part),
    way,
    from: bandWords(now[chosen], places),
    to: bandWords(best.after[chosen], places),
  });
  if (teeth === undefined || teeth === best) return first;
  const ofTeeth = narrowing(teeth, now, chosen);
  return ofTeeth < WORTH_PART
    ? `${first} ${sayOwnArch('noTooth')}${most}`
    : `${first} ${sayOwnArch('bestTooth', { name: inSentence(teeth.what), to: bandWords(teeth.after[chosen], ofTeeth < 0.1 ? 2 : 1) })}`;
}

function partName(part: number): 'most' | 'half' | 'third' | 'some' {
  if (part > 0.6) return 'most';
  if (part > 0.42) return 'half';
  return part > 0.28 ? 'third' : 'some';
}

const inSentence = (what: Candidate): string => sayOwnArch(what, { place: 'sentence' });

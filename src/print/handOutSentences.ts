/** The three sentences of the hand-out: what the rim does, what the horn would do with it and why, and what holding it would mean. Pure. */
import type { Analysis, HalfShares, ReadingAnalysis } from '../core/analysis';
import type { ReadingBand } from '../core/bands';
import { isHome } from '../core/mouthMoves';
import type { Estimate, Finding, Findings, FollowRatio, LineOfTravel, TravelFindings } from '../core/findings/findings';
import { fixed } from '../words/numbers';
import { sayPrint } from '../words/print';
import { type Posture, joined, swingClause, wayOf } from './instrumentWords';
import { marginOf } from './margin';
import { sheetNotes } from './sheetNotes';

export interface SentencesFrom {
  readonly analysis: Analysis;
  /** What the readings say; null where that is not known: then the sentences rest on the readings alone. */
  readonly findings: Findings | null;
  /** In the order of analysis.readings; null: nothing is said of how sure an angle is. */
  readonly bands: readonly ReadingBand[] | null;
  readonly posture: Posture;
  /** A sounding note as the reader sees it. */
  noteLabel(note: string): string;
}

export interface HandOutSentences {
  readonly rim: string;
  readonly horn: string;
  readonly held: string;
}

export function handOutSentences(from: SentencesFrom): HandOutSentences {
  const { told } = sheetNotes(from.analysis);
  if (told === null) return { rim: sayPrint('noTravel'), ...nothingAway(from.posture) };
  if (isHome(from.analysis, told)) return { rim: rimSentence(from, told), ...nothingAway(from.posture) };
  return { rim: rimSentence(from, told), horn: hornSentence(from, told), held: heldSentence(from, told) };
}

/** What can be said before any note away from home was seen. */
const nothingAway = (posture: Posture): Pick<HandOutSentences, 'horn' | 'held'> => ({
  horn: sayPrint('becauseSwings', { posture }),
  held: sayPrint('holdingLater', { posture }),
});

/** Travel below this rounds to 0.0 mm and is not named. */
const NAMED_FROM_MM = 0.05;
/** A line within this of straight up or down is called that. */
const STRAIGHT_WITHIN_DEG = 5;
/** A swing below this rounds to 0.0°. */
const NAMED_FROM_DEG = 0.05;
/** A half that carries less than this over an equal share is called even. */
const EVEN_WITHIN = 0.015;

function rimSentence(from: SentencesFrom, told: ReadingAnalysis): string {
  const way = from.findings?.travel.find(({ line, direction }) => line.kind === 'told' && direction !== 'down')
    ?? from.findings?.travel.find(({ line }) => line.kind === 'told');
  const line = way?.line.kind === 'told' ? lineWords(way.line) : null;
  return `${line ?? travelWords(from, told)}${turnWords(from, way)}`;
}

/** "Going up the range, the rim travels 2.1 ± 0.4 mm an octave, upward and 20° ± 6° toward the player’s right." */
function lineWords({ mmPerOctave, fromUpDeg, upMmPerOctave }: Extract<Finding<LineOfTravel>, { kind: 'told' }>): string {
  const upward = upMmPerOctave.value >= 0;
  const leaning = upward ? fromUpDeg.value : leanFromDown(fromUpDeg.value);
  return sayPrint('line', {
    mm: fixed(mmPerOctave.value, 1),
    giveMm: fixed(half(mmPerOctave), 1),
    way: upward ? 'up' : 'down',
    lean: Math.abs(leaning) < STRAIGHT_WITHIN_DEG ? 'none' : leaning > 0 ? 'right' : 'left',
    degrees: fixed(Math.abs(leaning), 0),
    giveDegrees: fixed(half(fromUpDeg), 0),
  });
}

/** How far a downward line leans from straight down, + toward the player's right. */
const leanFromDown = (fromUpDeg: number): number => (fromUpDeg >= 0 ? 180 - fromUpDeg : -180 - fromUpDeg);

const half = ({ low, high }: Estimate): number => (high - low) / 2;

/** "From home, B♭4, to F5 the rim travels 2.2 mm up and 0.6 mm to the player’s right." */
function travelWords({ analysis, noteLabel }: SentencesFrom, told: ReadingAnalysis): string {
  const { upMm, rightMm } = told.travel;
  const parts = [
    Math.abs(upMm) >= NAMED_FROM_MM && sayPrint('travelUp', { mm: fixed(Math.abs(upMm), 1), way: wayOf(upMm) }),
    Math.abs(rightMm) >= NAMED_FROM_MM && sayPrint('travelSide', { mm: fixed(Math.abs(rightMm), 1), way: wayOf(rightMm) }),
  ].filter((part) => part !== false);
  const { note } = analysis.home;
  if (note !== null && told.midi === analysis.home.midi) {
    return parts.length === 0 ? sayPrint('onlyHome', { note: noteLabel(note) }) : sayPrint('atHome', { note: noteLabel(note), parts: joined(parts) });
  }
  const between = { named: note === null ? 'no' : 'yes', home: note === null ? '' : noteLabel(note), note: noteLabel(told.note) };
  return parts.length === 0 ? sayPrint('rimStays', between) : sayPrint('rimTravels', { ...between, parts: joined(parts) });
}

/** " At F5 it turns and comes back by 1.6 mm." */
function turnWords({ noteLabel }: SentencesFrom, way: TravelFindings | undefined): string {
  if (way?.turnBack.kind !== 'told' || !way.turnBack.found || way.turnBack.at === null) return '';
  const { note, sizeMm, side } = way.turnBack.at;
  return sayPrint(side === 'above' ? 'comesBack' : 'goesOther', { note: noteLabel(note), mm: fixed(sizeMm, 1) });
}

function hornSentence({ analysis, bands, findings, posture, noteLabel }: SentencesFrom, told: ReadingAnalysis): string {
  const band = bands?.[analysis.readings.indexOf(told)];
  const margin = band === undefined ? undefined : marginOf(band.change);
  const clause = swingClause(posture, {
    ...told.changeFromHome,
    elevationMarginDeg: margin?.elevationDeg,
    lateralMarginDeg: margin?.lateralDeg,
  }, 'after');
  const { elevationDeg, lateralDeg } = told.changeFromHome;
  // A direction is not sent home where neither angle is surely other than none.
  if (margin !== undefined && Math.abs(elevationDeg) < margin.elevationDeg && Math.abs(lateralDeg) < margin.lateralDeg) {
    return sayPrint('hornUnsure', { posture, note: noteLabel(told.note) }) + followWords(findings, posture);
  }
  return sayPrint('hornTold', { posture, note: noteLabel(told.note), clause }) + followWords(findings, posture);
}

/** " As measured, it went along with 0.8 ± 0.3 of the swing up and down." */
function followWords(findings: Findings | null, posture: Posture): string {
  const ratio = (finding: Finding<FollowRatio> | undefined, of: 'ratioUp' | 'ratioSide'): string | null =>
    finding?.kind === 'told' && half(finding.ratio) <= SURE_WITHIN ? sayPrint(of, { ratio: fixed(finding.ratio.value, 1), give: fixed(half(finding.ratio), 1) }) : null;
  const parts = [ratio(findings?.follow.elevation, 'ratioUp'), ratio(findings?.follow.lateral, 'ratioSide')].filter((part) => part !== null);
  return parts.length === 0 ? '' : sayPrint('followed', { posture, parts: joined(parts) });
}

/** A ratio less sure than this tells nobody at home anything. */
const SURE_WITHIN = 0.5;

/** Where the force would gather if horn or head stayed as at home. */
function heldSentence({ posture, noteLabel }: SentencesFrom, told: ReadingAnalysis): string {
  const { elevationDeg, lateralDeg } = told.changeFromHome;
  const there = { posture, note: noteLabel(told.note) };
  if (Math.abs(elevationDeg) < NAMED_FROM_DEG && Math.abs(lateralDeg) < NAMED_FROM_DEG) return sayPrint('heldSame', there);
  const share = told.held.load.share;
  const halves: readonly (readonly [keyof HalfShares, number])[] = [
    ['upper', share.upper],
    ['lower', share.lower],
    ['right', share.right],
    ['left', share.left],
  ];
  const [side, part] = halves.reduce((most, one) => (one[1] > most[1] ? one : most));
  if (part - 0.5 < EVEN_WITHIN) return sayPrint('heldEven', there);
  return sayPrint('heldHalf', { ...there, percent: Math.round(part * 100), half: side });
}

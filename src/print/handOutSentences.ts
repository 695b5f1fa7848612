/** The three sentences of the hand-out: what the rim does, what the horn would do with it and why, and what holding it would mean. Pure. */
import type { Analysis, HalfShares, ReadingAnalysis } from '../core/analysis';
import type { ReadingBand } from '../core/bands';
import { isHome } from '../core/mouthMoves';
import type { Estimate, Finding, Findings, FollowRatio, LineOfTravel, TravelFindings } from '../core/findings/findings';
import { type Posture, swingClause } from './instrumentWords';
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
  if (told === null) return { rim: 'No travel has been written down yet.', ...nothingAway(from.posture) };
  if (isHome(from.analysis, told)) return { rim: rimSentence(from, told), ...nothingAway(from.posture) };
  return { rim: rimSentence(from, told), horn: hornSentence(from, told), held: heldSentence(from, told) };
}

/** What can be said before any note away from home was seen. */
const nothingAway = (posture: Posture): Pick<HandOutSentences, 'horn' | 'held'> => ({
  horn: `Because teeth and gums are curved both ways, ${posture === 'lap' ? 'the head' : 'the horn'} swings as the rim travels; how far, the readings of other notes will tell.`,
  held: `What it means to hold ${posture === 'lap' ? 'the head' : 'the horn'} still is told then, too.`,
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
  const lean = Math.abs(leaning) < STRAIGHT_WITHIN_DEG
    ? ''
    : ` and ${Math.abs(leaning).toFixed(0)}°\u00a0±\u00a0${half(fromUpDeg).toFixed(0)}° toward the player’s ${leaning > 0 ? 'right' : 'left'}`;
  return `Going up the range, the rim travels ${mmPerOctave.value.toFixed(1)}\u00a0±\u00a0${half(mmPerOctave).toFixed(1)}\u00a0mm an octave, ${upward ? 'upward' : 'downward'}${lean}.`;
}

/** How far a downward line leans from straight down, + toward the player's right. */
const leanFromDown = (fromUpDeg: number): number => (fromUpDeg >= 0 ? 180 - fromUpDeg : -180 - fromUpDeg);

const half = ({ low, high }: Estimate): number => (high - low) / 2;

/** "From home, B♭4, to F5 the rim travels 2.2 mm up and 0.6 mm to the player’s right." */
function travelWords({ analysis, noteLabel }: SentencesFrom, told: ReadingAnalysis): string {
  const { upMm, rightMm } = told.travel;
  const parts = [
    Math.abs(upMm) >= NAMED_FROM_MM && `${Math.abs(upMm).toFixed(1)}\u00a0mm ${upMm > 0 ? 'up' : 'down'}`,
    Math.abs(rightMm) >= NAMED_FROM_MM && `${Math.abs(rightMm).toFixed(1)}\u00a0mm to the player’s ${rightMm > 0 ? 'right' : 'left'}`,
  ].filter((part) => part !== false);
  const { note } = analysis.home;
  if (note !== null && told.midi === analysis.home.midi) {
    return parts.length === 0 ? `Only home, ${noteLabel(note)}, has been written down so far.` : `At home, ${noteLabel(note)}, the rim stands ${parts.join(' and ')} of its place.`;
  }
  const between = `From home${note === null ? '' : `, ${noteLabel(note)},`} to ${noteLabel(told.note)}`;
  return parts.length === 0 ? `${between} the rim stays where it is.` : `${between} the rim travels ${parts.join(' and ')}.`;
}

/** " At F5 it turns and comes back by 1.6 mm." */
function turnWords({ noteLabel }: SentencesFrom, way: TravelFindings | undefined): string {
  if (way?.turnBack.kind !== 'told' || !way.turnBack.found || way.turnBack.at === null) return '';
  const { note, sizeMm, side } = way.turnBack.at;
  return side === 'above'
    ? ` Above ${noteLabel(note)} it comes back by ${sizeMm.toFixed(1)}\u00a0mm.`
    : ` Below ${noteLabel(note)} it goes the other way by ${sizeMm.toFixed(1)}\u00a0mm.`;
}

function hornSentence({ analysis, bands, findings, posture, noteLabel }: SentencesFrom, told: ReadingAnalysis): string {
  const band = bands?.[analysis.readings.indexOf(told)];
  const margin = band === undefined ? undefined : marginOf(band.change);
  const clause = swingClause(posture, {
    ...told.changeFromHome,
    elevationMarginDeg: margin?.elevationDeg,
    lateralMarginDeg: margin?.lateralDeg,
  });
  const why = posture === 'lap'
    ? 'Because teeth and gums are curved both ways, the rim keeps pressing evenly only if the head goes along'
    : 'Because teeth and gums are curved both ways, the rim keeps pressing evenly only if the horn swings along';
  const { elevationDeg, lateralDeg } = told.changeFromHome;
  // A direction is not sent home where neither angle is surely other than none.
  if (margin !== undefined && Math.abs(elevationDeg) < margin.elevationDeg && Math.abs(lateralDeg) < margin.lateralDeg) {
    return `${why}. At ${noteLabel(told.note)} these readings cannot tell yet how far: more of them, or finer ones, would.${followWords(findings, posture)}`;
  }
  return `${why}: at ${noteLabel(told.note)}, from the angle at home, ${clause}.${followWords(findings, posture)}`;
}

/** " As measured, it went along with 0.8 ± 0.3 of the swing up and down." */
function followWords(findings: Findings | null, posture: Posture): string {
  const it = posture === 'lap' ? 'the head' : 'the horn';
  const ratio = (finding: Finding<FollowRatio> | undefined, of: string): string | null =>
    finding?.kind === 'told' && half(finding.ratio) <= SURE_WITHIN ? `${finding.ratio.value.toFixed(1)}\u00a0±\u00a0${half(finding.ratio).toFixed(1)} of the swing ${of}` : null;
  const parts = [ratio(findings?.follow.elevation, 'up and down'), ratio(findings?.follow.lateral, 'sideways')].filter((part) => part !== null);
  return parts.length === 0 ? '' : ` As measured, ${it} went along with ${parts.join(' and ')}.`;
}

/** A ratio less sure than this tells nobody at home anything. */
const SURE_WITHIN = 0.5;

/** Where the force would gather if horn or head stayed as at home. */
function heldSentence({ posture, noteLabel }: SentencesFrom, told: ReadingAnalysis): string {
  const { elevationDeg, lateralDeg } = told.changeFromHome;
  const start = posture === 'lap' ? 'If the head stayed as at home' : 'If the horn stayed as at home';
  const there = `${start} at ${noteLabel(told.note)}`;
  if (Math.abs(elevationDeg) < NAMED_FROM_DEG && Math.abs(lateralDeg) < NAMED_FROM_DEG) return `${there}, nothing would change on the lips.`;
  const share = told.held.load.share;
  const halves: readonly (readonly [keyof HalfShares, number])[] = [
    ['upper', share.upper],
    ['lower', share.lower],
    ['right', share.right],
    ['left', share.left],
  ];
  const [side, part] = halves.reduce((most, one) => (one[1] > most[1] ? one : most));
  if (part - 0.5 < EVEN_WITHIN) return `${there}, the force on the lips would still be even.`;
  const half = side === 'upper' || side === 'lower' ? `${side} half of the rim` : `half of the rim on the player’s ${side}`;
  return `${there}, ${Math.round(part * 100)}\u00a0% of the force would lie on the ${half}.`;
}

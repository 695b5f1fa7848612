/** Whether the pieces of two sounds, laid over each other, all ask for the same shift. docs/numerics.md §21. */

export interface PieceLag {
  /** How much further the piece would have to be shifted to fit best, steps. */
  readonly lagSteps: number;
  /** What it has to say: the product of its sounds there times their likeness, so that a piece without onsets counts little. */
  readonly weight: number;
}

/** Long enough for an onset, steps: 0.6 s. */
const PIECE_STEPS = 60;
/** So far a piece is looked for to each side, steps: 150 ms. */
const REACH_STEPS = 15;
/** Of a long overlap so many pieces are looked at, evenly spread: a minute in all. */
const MOST_PIECES = 100;

/** The best further shift of each piece, where first[i + shift] stands beside second[i]. Rows as in `likeness`; a piece that fits nowhere is left out. */
export function pieceLags(first: readonly ArrayLike<number>[], second: readonly ArrayLike<number>[], shift: number): PieceLag[] {
  const [from, to] = [Math.max(0, -shift), Math.min(second[0]!.length, first[0]!.length - shift)];
  const pieces = Math.max(1, Math.floor((to - from) / PIECE_STEPS));
  const looked = Math.min(pieces, MOST_PIECES);
  return Array.from({ length: looked }, (_, at) => {
    const which = Math.floor(((at + 0.5) * pieces) / looked);
    const edge = (place: number): number => from + Math.round((place * (to - from)) / pieces);
    return lagOf(first, second, shift, edge(which), edge(which + 1));
  }).filter(({ weight }) => weight > 0);
}

/** Each sound is moved past the other's piece in turn and the two are added: moving only one would prefer a side at the piece's edges. */
function lagOf(first: readonly ArrayLike<number>[], second: readonly ArrayLike<number>[], shift: number, from: number, to: number): PieceLag {
  const products = new Float64Array(2 * REACH_STEPS + 1);
  const squares = new Float64Array(2 * REACH_STEPS + 1);
  const [stillA, stillB] = [energy(first, from + shift, to + shift), energy(second, from, to)];
  for (let lag = -REACH_STEPS; lag <= REACH_STEPS; lag++) {
    const at = lag + REACH_STEPS;
    products[at] = product(first, from + shift + lag, second, from, to - from) + product(first, from + shift, second, from - lag, to - from);
    squares[at] = Math.sqrt(stillB * energy(first, from + shift + lag, to + shift + lag)) + Math.sqrt(stillA * energy(second, from - lag, to - lag));
  }
  const alike = products.map((each, at) => (squares[at]! > 0 ? each / squares[at]! : 0));
  const best = alike.reduce((most, each, at) => (each > alike[most]! ? at : most), 0);
  return { lagSteps: best - REACH_STEPS + peakBetween(alike, best), weight: Math.max(0, products[best]!) * Math.max(0, alike[best]!) };
}

/** Where between its neighbours a peak lies, −½ to ½ steps, by the parabola through the three. */
export function peakBetween(values: ArrayLike<number>, at: number): number {
  const [before, here, after] = [values[at - 1], values[at]!, values[at + 1]];
  if (before === undefined || after === undefined) return 0;
  const bend = before - 2 * here + after;
  return bend < 0 ? Math.max(-0.5, Math.min(0.5, (before - after) / (2 * bend))) : 0;
}

function product(first: readonly ArrayLike<number>[], fromFirst: number, second: readonly ArrayLike<number>[], fromSecond: number, count: number): number {
  const begin = Math.max(0, -fromFirst, -fromSecond);
  const end = Math.min(count, first[0]!.length - fromFirst, second[0]!.length - fromSecond);
  let sum = 0;
  for (let row = 0; row < first.length; row++) {
    const [a, b] = [first[row]!, second[row]!];
    for (let at = begin; at < end; at++) sum += a[fromFirst + at]! * b[fromSecond + at]!;
  }
  return sum;
}

function energy(rows: readonly ArrayLike<number>[], from: number, to: number): number {
  return product(rows, from, rows, from, to - from);
}

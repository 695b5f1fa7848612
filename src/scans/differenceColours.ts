/** How far a scan stands out of the arch or in from it, as colours that tell also where red and green are alike: blue in, pale none, brown out. */
import type { CornerColours } from './drawScan';

/** The scale's ends, mm: what lies further off has the end's colour. */
export const SCALE_MM = 1;

/** From in to out, in even steps; lightness falls to either side, so that in and out differ in hue alone and none is the lightest. */
export const DIFFERENCE_SCALE = [
  [24, 66, 122], [72, 119, 176], [137, 176, 214], [199, 218, 234], [246, 241, 230], [240, 208, 160], [219, 158, 94], [178, 104, 40], [119, 60, 14],
] as const;
/** Where the arch has no face to compare with. */
const UNCOMPARED = [150, 147, 142] as const;

/** `outMm`: of each corner, + out; NaN where it was not compared. */
export function differenceColours(outMm: Float32Array): CornerColours {
  const colours = new Uint8Array(3 * outMm.length);
  outMm.forEach((out, corner) => colours.set(out === out ? colourOf(out) : UNCOMPARED, 3 * corner));
  return colours;
}

/** Red, green and blue. */
export function colourOf(outMm: number): [number, number, number] {
  const last = DIFFERENCE_SCALE.length - 1;
  const along = ((Math.min(Math.max(outMm / SCALE_MM, -1), 1) + 1) / 2) * last;
  const from = Math.min(Math.floor(along), last - 1);
  const tone = (which: 0 | 1 | 2): number => Math.round(DIFFERENCE_SCALE[from]![which] + (along - from) * (DIFFERENCE_SCALE[from + 1]![which] - DIFFERENCE_SCALE[from]![which]));
  return [tone(0), tone(1), tone(2)];
}

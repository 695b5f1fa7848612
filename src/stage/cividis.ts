/**
 * The colour map cividis, made to read alike with and without red–green colour vision deficiency.
 * Source of the stops: Nuñez, Anderton, Renslow, PLoS ONE 2018;13(7):e0199239, as tabled there (256 steps), here
 * at eight of them with straight lines between: nowhere more than 2 % of full scale from the table.
 */

const stops: readonly (readonly [number, number, number, number])[] = [
  [0, 0, 0.135112, 0.304751],
  [16 / 255, 0, 0.178802, 0.414764],
  [32 / 255, 0.103401, 0.220406, 0.43579],
  [64 / 255, 0.263738, 0.307831, 0.422789],
  [0.4, 0.4, 0.4118, 0.4392],
  [0.6, 0.5804, 0.5569, 0.4667],
  [0.8, 0.7843, 0.7216, 0.4],
  [1, 0.9961, 0.9098, 0.2196],
];

/** Writes red, green, blue (sRGB, 0 to 1) for `value` in 0 to 1 (clamped) at `offset` of `out`. */
export function cividisInto(value: number, out: Float32Array, offset: number): void {
  const at = Math.min(1, Math.max(0, value));
  let right = 1;
  while (right < stops.length - 1 && stops[right]![0] < at) right++;
  const low = stops[right - 1]!;
  const high = stops[right]!;
  const part = (at - low[0]) / (high[0] - low[0]);
  for (let channel = 0; channel < 3; channel++) {
    out[offset + channel] = low[channel + 1]! + part * (high[channel + 1]! - low[channel + 1]!);
  }
}

/** As many steps as the map's source tabulates. */
const STEPS = 256;
const steps: readonly string[] = Array.from({ length: STEPS }, (_, step) => {
  const color = new Float32Array(3);
  cividisInto(step / (STEPS - 1), color, 0);
  return `rgb(${Array.from(color, (channel) => Math.round(channel * 255)).join(' ')})`;
});

/** The nearest of 256 steps of the map for `value` in 0 to 1 (clamped), as a CSS colour: for drawings that ask often, always the same string. */
export function cividisStep(value: number): string {
  return steps[value > 0 ? Math.round(Math.min(1, value) * (STEPS - 1)) : 0]!;
}

/** The map as a CSS gradient, from 0 on the left to 1 on the right. */
export function cividisGradient(): string {
  const parts = stops.map(([at, red, green, blue]) => {
    const [r, g, b] = [red, green, blue].map((channel) => Math.round(channel * 255));
    return `rgb(${r} ${g} ${b}) ${(at * 100).toFixed(1)}%`;
  });
  return `linear-gradient(to right, ${parts.join(', ')})`;
}

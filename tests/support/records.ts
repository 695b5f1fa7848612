/** Small records for tests: fresh, mutable copies, so that a test can spoil one field. */
import type { PlayerRecord } from '../../src/core/specs';

/** The types of a record without `readonly`. */
export type Mutable<T> = T extends object ? { -readonly [K in keyof T]: Mutable<T[K]> } : T;

/** Every optional field is present somewhere. */
export function fullRecord(): Mutable<PlayerRecord> {
  const jawArch = (fdi: number, centreMm: number) => ({
    form: { kind: 'power' as const, widthMm: 60, depthMm: 45, exponent: 0.8 },
    profile: {
      kind: 'arcs' as const,
      inclinationDeg: 6,
      crownHeightMm: 10,
      crownRadiusMm: 14,
      gumRadiusMm: 16,
      gumInclinationDeg: 8,
    },
    teeth: [{ fdi, outMm: 0.5, centreMm, widthMm: 8.5 }],
  });
  return {
    format: 'rimpath-record',
    version: 1,
    player: { label: 'Invented', instrument: 'tenor-trombone' },
    arch: {
      upper: jawArch(11, -4.25),
      lower: jawArch(31, 2.5),
      jaw: { openingMm: 6, forwardMm: -1, hingeDeg: 0, hingeArmMm: 88 },
    },
    rim: { innerDiameterMm: 25.4, outerDiameterMm: 39, highPointDiameterMm: 32, contourRadiusMm: 7 },
    lips: {
      upper: { thicknessMm: 12, effectiveModulusKPa: 200 },
      lower: { thicknessMm: 13, effectiveModulusKPa: 200 },
      law: 'stiffening',
    },
    force: { newtons: 25 },
    home: { note: 'F3', upMm: 0, rightMm: 0 },
    upperLipShare: { value: 0.66, by: 'diameter' },
    readings: [
      {
        note: 'F3',
        travel: { upMm: 0, rightMm: 0, sdMm: 0.4 },
        horn: { elevationDeg: -8, lateralDeg: 1, sdDeg: 1.5 },
        method: 'video',
        direction: 'up',
        jaw: { openingMm: 7 },
        force: { newtons: 30 },
      },
      { note: 'B♭3', travel: { upMm: 1.5, rightMm: 0.5 } },
    ],
  };
}

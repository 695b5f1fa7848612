/** The two radii of an arch that readings can tell something of: of the front, seen from above, and of the teeth, seen from the side. */
import { drawable } from '../drawableArcs';
import { CURVE_OUT, buildCurve } from '../planarForm';
import { scaledForm } from '../scaled';
import type { JawArchSpec, PlayerRecord } from '../specs';

export type Pair = readonly [number, number];

export const firstJaw = ({ arch }: PlayerRecord): JawArchSpec => ('single' in arch ? arch.single : arch.upper);

/** Radius of the form at its foremost point, mm; Infinity for a straight one. */
export function frontMm(record: PlayerRecord): number {
  const { form } = firstJaw(record);
  if (form.kind === 'line') return Infinity;
  const curve = buildCurve(form);
  const out = new Float64Array(CURVE_OUT);
  curve.exact((curve.low + curve.high) / 2, out);
  const [, , dx, dz, ddx, ddz] = out as unknown as [number, number, number, number, number, number];
  return Math.hypot(dx, dz) ** 3 / Math.abs(dx * ddz - dz * ddx);
}

/** Radius of the crown, or of the single arc, mm; Infinity for a straight profile. */
export function crownMm(record: PlayerRecord): number {
  const { profile } = firstJaw(record);
  return profile.kind === 'arcs' ? profile.crownRadiusMm : profile.kind === 'arc' ? profile.radiusMm : Infinity;
}

/** The record with both radii moved by so many prior deviations of their logarithms. */
export function shaped(record: PlayerRecord, sds: Pair, theta: Pair): PlayerRecord {
  const [front, vertical] = [Math.exp(sds[0] * theta[0]), Math.exp(sds[1] * theta[1])];
  const jaw = (one: JawArchSpec): JawArchSpec => {
    const { profile } = one;
    const moved =
      profile.kind === 'arcs'
        ? drawable({ ...profile, crownRadiusMm: profile.crownRadiusMm * vertical, gumRadiusMm: profile.gumRadiusMm * vertical })
        : profile.kind === 'arc' ? { ...profile, radiusMm: profile.radiusMm * vertical } : profile;
    return { ...one, form: scaledForm(one.form, front), profile: moved };
  };
  const { arch } = record;
  return { ...record, arch: 'single' in arch ? { single: jaw(arch.single) } : { ...arch, upper: jaw(arch.upper), lower: jaw(arch.lower) } };
}

/** The numbers of each arch form and profile that a scan can tell, to be handed to `fitJaw`. */
import { DEFAULT_DEVIATIONS } from '../core/deviations';
import type { Arcs } from '../core/drawableArcs';
import type { JawArchSpec } from '../core/specs';
import type { FreeNumber } from './fitJaw';

/**
 * Width, depth and, if wanted, exponent; radius; a and b. Of a parabola and a hanging chain width and depth only say where they end: one of them is
 * free, and what the other is, is settled beforehand. A measured curve and a line have none.
 */
export function freeFormNumbers(spec: JawArchSpec, withExponent = false): readonly FreeNumber[] {
  switch (spec.form.kind) {
    case 'power':
      if (spec.form.exponent === 1 && !withExponent) return [ofForm('depthMm', 0.01)];
      return [ofForm('widthMm', 0.01), ofForm('depthMm', 0.01), ...(withExponent ? [ofForm('exponent', 1e-4)] : [])];
    case 'catenary':
      return [ofForm('widthMm', 0.01)];
    case 'circle':
      return [ofForm('radiusMm', 0.01)];
    case 'sextic':
      return [ofForm('a', 1e-11), ofForm('b', 1e-6)];
    case 'line':
    case 'points':
      return [];
  }
}

export function freeProfileNumbers(spec: JawArchSpec): readonly FreeNumber[] {
  switch (spec.profile.kind) {
    case 'arc':
      return [ofProfile('radiusMm', 0.01)];
    case 'straight':
      return [ofProfile('inclinationDeg', 0.01)];
    case 'arcs':
      return [
        ofProfile('inclinationDeg', 0.01), ofProfile('crownHeightMm', 0.01), ofProfile('crownRadiusMm', 0.01),
        ofProfile('gumRadiusMm', 0.01), ofProfile('gumInclinationDeg', 0.01),
      ];
  }
}

/** The same where points may not tell all of them: `usual` is the profile of which nobody is far off. */
export function profileNumbersAbout(usual: Arcs, jaw: 'upper' | 'lower'): readonly FreeNumber[] {
  const by = DEFAULT_DEVIATIONS;
  const sds: Readonly<Record<string, number>> = {
    inclinationDeg: jaw === 'upper' ? by.upperInclinationDeg : by.lowerInclinationDeg,
    crownHeightMm: CROWN_HEIGHT_SD_MM,
    crownRadiusMm: by.crownRadiusPart * usual.crownRadiusMm,
    gumRadiusMm: by.gumRadiusPart * usual.gumRadiusMm,
    gumInclinationDeg: by.gumInclinationDeg,
  };
  const spec: JawArchSpec = { form: { kind: 'line' }, profile: usual };
  return freeProfileNumbers(spec).map((each) => ({ ...each, usual: { mean: each.read(spec), sd: sds[each.name]! } }));
}

/** Between grown people, mm: value from memory. */
const CROWN_HEIGHT_SD_MM = 1;

const ofForm = (name: string, step: number): FreeNumber => ({
  name,
  step,
  read: (spec) => (spec.form as unknown as Record<string, number>)[name] ?? 0,
  write: (spec, value) => ({ ...spec, form: { ...spec.form, [name]: value } }),
});

const ofProfile = (name: string, step: number): FreeNumber => ({
  name,
  step,
  read: (spec) => (spec.profile as unknown as Record<string, number>)[name] ?? 0,
  write: (spec, value) => ({ ...spec, profile: { ...spec.profile, [name]: value } }),
});

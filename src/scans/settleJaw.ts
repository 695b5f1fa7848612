/**
 * From three marked teeth to a jaw that a rim can rest on: the frame, refined by the jaw's own symmetry, and the arch that lies nearest to the
 * scan's labial face. Everything in mm and in the jaw's own frame from here on.
 */
import type { Arcs } from '../core/drawableArcs';
import { aiccFitted } from '../core/ownArch/aicc';
import { FAMILIES } from '../core/ownArch/families';
import type { ArchFamily, FormSpec, JawArchSpec, ScannedNumberSpec } from '../core/specs';
import { sayScans } from '../words/scans';
import { type FreeNumber, INDEPENDENT_POINTS, type JawFitted, LEAST_RESIDUAL_MM, type Shift, fitJaw } from './fitJaw';
import { freeFormNumbers, profileNumbersAbout } from './freeNumbers';
import { LABIAL_CHOICES, labialPlaces } from './labialPlaces';
import type { MendedScan } from './mendScan';
import { type ScanMesh, scaleMesh } from './mesh';
import type { Progress } from './progress';
import { CLICK_SD_MM, type FrameDeviation, type FrameRefused, type ScanFrame, type ThreeTeeth, frameFromTeeth, gumShare, meshInFrame, turnFrame } from './scanFrame';
import { createSignedDistance } from './signedDistance';
import type { JawName } from './startView';
import { findSymmetry, knownBefore } from './symmetry';

export interface FormTried {
  readonly family: ArchFamily;
  readonly residualMm: number;
  /** Akaike's criterion; only its differences say anything. */
  readonly aicc: number;
}

export interface SettledJaw {
  readonly kind: 'settled';
  readonly mesh: ScanMesh;
  readonly frame: FrameDeviation;
  /** How unlike the two sides are, root mean square, mm; null where symmetry could not be found and the marks alone count. */
  readonly asymmetryMm: number | null;
  readonly family: ArchFamily;
  readonly spec: JawArchSpec;
  readonly numbers: readonly ScannedNumberSpec[];
  readonly residualMm: number;
  /** Least AICc first. */
  readonly tried: readonly FormTried[];
}

export interface JawNotSettled {
  readonly kind: 'refused';
  readonly reason: FrameRefused['reason'] | 'upside-down' | 'no-teeth' | 'no-arch';
  readonly words: string;
}

/** Less of the scan than this on the gum's side of the marked teeth: right and left have been taken for each other. */
const LEAST_GUM_SHARE = 0.4;
/** Fewer places on the labial face say nothing of an arch. */
const LEAST_PLACES = 100;
/** Canine and first molar of a usual jaw, half width and depth, mm (docs: reference values): where each form's search begins. */
const USUAL = { canine: { xMm: 17.5, depthMm: 8 }, molar: { xMm: 28.5, depthMm: 31 } } as const;

export interface JawMarked {
  readonly jaw: JawName;
  readonly mmPerUnit: number;
  /** In the mesh's own axes and unit. */
  readonly teeth: ThreeTeeth;
  /** The profile from which nobody's is far: what the scan does not show stays so. */
  readonly usual: Arcs;
  /** That form and no other; null: the nearest. */
  readonly only: ArchFamily | null;
}

export function settleJaw(scan: Pick<MendedScan, 'mesh' | 'across'>, marked: JawMarked, progress: Progress = () => {}): SettledJaw | JawNotSettled {
  const { jaw, mmPerUnit, teeth } = marked;
  const inMm = scaleMesh(scan.mesh, mmPerUnit);
  const clicked = frameFromTeeth(scaledTeeth(teeth, mmPerUnit));
  if (clicked.kind === 'refused') return clicked;
  const roughly = meshInFrame(inMm, clicked);
  if (gumShare(roughly, jaw) < LEAST_GUM_SHARE) return { kind: 'refused', reason: 'upside-down', words: sayScans('upsideDown', { jaw }) };
  const gumward = jaw === 'upper' ? 1 : -1;
  const places = labialPlaces(roughly, gumward);
  if (places.length / 3 < LEAST_PLACES) return { kind: 'refused', reason: 'no-teeth', words: sayScans('noTeeth') };
  progress(0.1);
  const refined = refinedFrame(clicked, places, { mesh: roughly, across: scan.across });
  progress(0.5);
  const framed = meshInFrame(inMm, refined.frame);
  const fitted = labialPlaces(framed, gumward, { ...LABIAL_CHOICES, count: FITTED_PLACES });
  const arch = fitForms(fitted, marked, (part) => progress(0.5 + 0.5 * part));
  if (arch === null) return { kind: 'refused', reason: 'no-arch', words: sayScans('noArch') };
  const { fit, family, free, tried } = arch;
  const [dx, dy, dz] = fit.shiftMm;
  return {
    kind: 'settled',
    mesh: { points: framed.points.map((place, at) => place + (at % 3 === 0 ? dx : at % 3 === 1 ? dy : dz)), triangles: framed.triangles },
    frame: refined.frame.deviation,
    asymmetryMm: refined.asymmetryMm,
    family,
    spec: fit.spec,
    numbers: numbersOf(fit, free, fitted.length / 3, refined.frame.deviation),
    residualMm: fit.residualMm,
    tried,
  };
}

function scaledTeeth({ right, left, front }: ThreeTeeth, by: number): ThreeTeeth {
  const scaled = ([x, y, z]: ThreeTeeth['front']): ThreeTeeth['front'] => [x * by, y * by, z * by];
  return { right: scaled(right), left: scaled(left), front: scaled(front) };
}

/** Where symmetry is not to be found, the marks alone count. */
function refinedFrame(clicked: ScanFrame, places: Float64Array, scan: Pick<MendedScan, 'mesh' | 'across'>): { readonly frame: ScanFrame; readonly asymmetryMm: number | null } {
  const distance = createSignedDistance(scan);
  const found = findSymmetry(places, (x, y, z) => distance.at(x, y, z), knownBefore(clicked.deviation));
  if (found.kind === 'missed') return { frame: clicked, asymmetryMm: null };
  const { pitchDeg } = clicked.deviation;
  const inDegrees = (radians: number): number => (radians * 180) / Math.PI;
  const deviation = { sidewaysMm: found.sidewaysSdMm, yawDeg: inDegrees(found.yawSd), rollDeg: inDegrees(found.rollSd), pitchDeg };
  return { frame: turnFrame(clicked, found.yaw, found.roll, found.sidewaysMm, deviation), asymmetryMm: found.residualMm };
}

interface FormFitted {
  readonly fit: JawFitted;
  readonly family: ArchFamily;
  readonly free: readonly FreeNumber[];
}

/** Every form of the list fitted, the one with the least AICc taken; null where none can be. */
function fitForms(places: Float64Array, { jaw, usual, only }: JawMarked, progress: Progress): (FormFitted & { readonly tried: readonly FormTried[] }) | null {
  const gumward = jaw === 'upper' ? 1 : -1;
  const profileNumbers = profileNumbersAbout(usual, jaw);
  const wanted = FAMILIES.filter(({ id }) => only === null || id === only);
  let profile = usual;
  const fits = wanted.flatMap(({ id, start, form }, index) => {
    const begin: JawArchSpec = { form: reaching(form(start(USUAL.canine, USUAL.molar))), profile };
    const free = [...freeFormNumbers(begin), ...profileNumbers];
    const roughly = fitJaw(places, begin, free.filter(({ name }) => !FINER.has(name)), gumward, false, SHIFTS);
    const fit = fitJaw(places, roughly.kind === 'fitted' ? roughly.spec : begin, free, gumward, false, SHIFTS);
    progress((index + 1) / wanted.length);
    if (fit.kind === 'missed' || !fit.deviations.every(Number.isFinite)) return [];
    // The next form has the same teeth.
    if (fit.spec.profile.kind === 'arcs') profile = fit.spec.profile;
    return [{ family: id, fit, free, residualMm: fit.residualMm, aicc: aiccOf(fit) }];
  });
  const [best] = fits.sort((one, two) => one.aicc - two.aicc);
  return best === undefined ? null : { ...best, tried: fits.map(({ family, residualMm, aicc }) => ({ family, residualMm, aicc })) };
}

/** A parabola's width only says where it ends: behind all that is scanned. */
function reaching(form: FormSpec): FormSpec {
  if (form.kind !== 'power' || form.exponent !== 1) return form;
  return { ...form, widthMm: form.widthMm * PARABOLA_REACH, depthMm: form.depthMm * PARABOLA_REACH ** 2 };
}

const PARABOLA_REACH = 1.5;

/** The edge's height is what was marked: a crown's height and a shift up could stand for each other. */
/** Enough for the fit, which counts them as a few dozen anyway; symmetry, sought beforehand, takes more. */
const FITTED_PLACES = 450;
const SHIFTS: readonly Shift[] = ['x', 'z'];
/** Numbers that a search from afar may drive to where they change nothing: found once the form is. */
const FINER: ReadonlySet<string> = new Set(['crownHeightMm', 'crownRadiusMm', 'gumRadiusMm', 'gumInclinationDeg']);

/** As of so many places that err by themselves. */
const aiccOf = ({ residualMm, values }: JawFitted): number => aiccFitted(Math.max(residualMm, LEAST_RESIDUAL_MM) ** 2 * INDEPENDENT_POINTS, values.length + 1, INDEPENDENT_POINTS);

/**
 * What the fit says of each number counts for no more than the independent places there are; what the marks say of how the jaw is tilted, and of
 * where the edge is, comes on top.
 */
function numbersOf({ values, deviations }: JawFitted, free: readonly FreeNumber[], count: number, { pitchDeg }: FrameDeviation): ScannedNumberSpec[] {
  const together = Math.sqrt(Math.max(1, count / INDEPENDENT_POINTS));
  const more: Readonly<Record<string, number>> = { inclinationDeg: pitchDeg, gumInclinationDeg: pitchDeg, crownHeightMm: CLICK_SD_MM };
  return free.map(({ name }, index) => ({ name: name as ScannedNumberSpec['name'], value: values[index]!, sd: Math.hypot(deviations[index]! * together, more[name] ?? 0) }));
}

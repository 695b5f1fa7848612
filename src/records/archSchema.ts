/** The arch in a record file: forms, profiles, standing-out teeth and the jaw. Definitions and signs: docs/model.md. */
import * as z from 'zod/mini';
import { FAMILIES } from '../core/ownArch/families';
import { FEWEST_PRINT_POINTS, MOST_PRINT_POINTS } from '../core/ownArch/fitPrint';
import { MEASURES, measureKind } from '../core/ownArch/measures';
import type { ArchMeasureSpec, FormSpec, ProfileSpec, ScannedNumberSpec, ToothSpec } from '../core/specs';
import { fixed } from '../words/numbers';
import { sayRecords } from '../words/records';
import { above, between, condition, exactly, fields, identifier, list, oneOf } from './fields';
import { JAW_FORWARD_MM, JAW_HINGE_DEG, JAW_OPENING_MM } from './readingRanges';

/** Wide enough for the exact cases (spheres, cylinders, nearly flat plates) besides mouths. */
const FORM_WIDTH_MM = [2, 2000] as const;
const FORM_DEPTH_MM = [0.5, 1000] as const;
const RADIUS_MM = [2, 100_000] as const;
const SCANNED_NUMBERS = [
  'widthMm', 'depthMm', 'radiusMm', 'a', 'b', 'inclinationDeg', 'crownHeightMm', 'crownRadiusMm', 'gumRadiusMm', 'gumInclinationDeg',
] as const satisfies readonly ScannedNumberSpec['name'][];

/** Widest range of any measure; each has its own. */
const MEASURE_MM = [-10, 85] as const;

/** Crowns are known for the first seven teeth of each quadrant (models/teeth.json). */
const TEETH_IN_QUADRANT = 7;
const UPPER_QUADRANTS = [1, 2];
const LOWER_QUADRANTS = [3, 4];

const powerSchema = fields('z = −D + D(1 − (2x/W)²)^e: exponent 0.5 is half an ellipse, 0.8 the published beta form, 1 a parabola', {
  kind: exactly('power'),
  widthMm: between(...FORM_WIDTH_MM, 'mm', 'W, where the form ends'),
  depthMm: between(...FORM_DEPTH_MM, 'mm', 'D, from the front to where the form ends'),
  exponent: between(0.5, 2, '(no unit)', 'e'),
});

const sexticSchema = fields('z = −(a x⁶ + b x²); front radius 1/(2b)', {
  kind: exactly('sextic'),
  a: between(0, 0.0001, 'mm^-5', 'coefficient of x⁶'),
  b: between(0, 0.25, 'mm^-1', 'coefficient of x²'),
});

const catenarySchema = fields('A hanging chain of this width and depth', {
  kind: exactly('catenary'),
  widthMm: between(...FORM_WIDTH_MM, 'mm', 'width between the ends'),
  depthMm: between(...FORM_DEPTH_MM, 'mm', 'depth from the front to the ends'),
});

const circleSchema = fields('A circle', {
  kind: exactly('circle'),
  radiusMm: between(...RADIUS_MM, 'mm', 'radius'),
});

const lineSchema = fields('A straight line: no curvature', { kind: exactly('line') });

const coordinate = (): z.ZodMiniNumber => between(-300, 300, 'mm', 'a coordinate');

const pointsSchema = fields('A smooth curve through measured points', {
  kind: exactly('points'),
  points: list(
    z.tuple([coordinate(), coordinate()], { error: () => sayRecords('pointPair') }),
    4,
    400,
    '[x, z] in the player’s frame, mm, from the player’s right (x < 0) to the left (x > 0), x strictly rising',
  ),
}).check(condition((form) => pointsInOrder(form.points)));

const formSchema = z.discriminatedUnion(
  'kind',
  [powerSchema, sexticSchema, catenarySchema, circleSchema, lineSchema, pointsSchema],
  { error: unionWords('"power", "sextic", "catenary", "circle", "line", "points"') },
);

const arcsSchema = fields(
  'A crown arc from the edge, then a concave arc of the gum, tangent to it, then straight on. sin(inclination) ± crownHeight/(2 crownRadius) must lie inside −1 … 1, gumInclinationDeg below the crown’s slope at the neck',
  {
    kind: exactly('arcs'),
    inclinationDeg: between(-45, 45, 'degrees', 'tangent at mid-crown; + when the gum end lies further back than the edge'),
    crownHeightMm: between(1, 30, 'mm', 'from the edge to the gum'),
    crownRadiusMm: between(2, 10_000, 'mm', 'radius of the crown’s face seen from the side'),
    gumRadiusMm: between(0.5, 10_000, 'mm', 'radius of the concave arc between crown and gum'),
    gumInclinationDeg: between(-60, 60, 'degrees', 'slope of the gum beyond that arc, same sign as inclinationDeg'),
  },
).check(condition((profile) => arcsFit(profile)));

const arcSchema = fields('One circular arc, centre at the height y = 0, reaching up and down', {
  kind: exactly('arc'),
  radiusMm: between(...RADIUS_MM, 'mm', 'radius'),
});

const straightSchema = fields('Straight, upright unless inclined', {
  kind: exactly('straight'),
  inclinationDeg: z.optional(between(-60, 60, 'degrees', '+ when the gum end lies further back than the edge')),
});

const profileSchema = z.discriminatedUnion('kind', [arcsSchema, arcSchema, straightSchema], {
  error: unionWords('"arcs", "arc", "straight"'),
});

function teethSchema(quadrants: readonly number[]): z.ZodMiniArray<ReturnType<typeof toothSchema>> {
  return list(toothSchema(quadrants), 0, 2 * TEETH_IN_QUADRANT * 2, 'Teeth that stand out of (+) or in from (−) the form').check(
    condition((teeth) => {
      const twice = teeth.findIndex((tooth, index) => teeth.findIndex((other) => other.fdi === tooth.fdi) < index);
      return twice < 0 ? null : { path: [twice, 'fdi'], allowed: sayRecords('toothOnce') };
    }),
  );
}

function toothSchema(quadrants: readonly number[]) {
  const words = quadrants.map((quadrant) => `${quadrant}1 to ${quadrant}${TEETH_IN_QUADRANT}`).join(', ');
  const numbers = quadrants.flatMap((quadrant) => Array.from({ length: TEETH_IN_QUADRANT }, (_, index) => quadrant * 10 + index + 1));
  return fields('One tooth', {
    fdi: z.literal(numbers, { error: () => sayRecords('tooth', { numbers: quadrants.map(rangeOf).join(', ') }) }).check(z.describe(`Two-digit number of ISO 3950: ${words}`)),
    outMm: between(-2, 2, 'mm', 'how far it stands out (+) or in (−)'),
    centreMm: between(-80, 80, 'mm', 'its middle by arc length from the midline, + to the player’s left'),
    widthMm: between(2, 20, 'mm', 'its width'),
  }).check(condition((tooth) => sideFits(tooth)));
}

const rangeOf = (quadrant: number): string => sayRecords('toothRange', { first: quadrant * 10 + 1, last: quadrant * 10 + TEETH_IN_QUADRANT });

/** Quadrants 2 and 3 are the player's left. */
function sideFits(tooth: ToothSpec) {
  const left = tooth.fdi >= 20 && tooth.fdi < 40;
  if (left ? tooth.centreMm > 0 : tooth.centreMm < 0) return null;
  return { path: ['centreMm'], allowed: sayRecords(left ? 'toothLeft' : 'toothRight', { fdi: tooth.fdi }) };
}

function jawArchSchema(what: string, quadrants: readonly number[]) {
  return fields(what, { form: formSchema, profile: profileSchema, teeth: z.optional(teethSchema(quadrants)) });
}

const openingMm = between(...JAW_OPENING_MM, 'mm', 'vertical gap between the edges');
const forwardMm = between(...JAW_FORWARD_MM, 'mm', 'lower edge in front of (+) or behind (−) the upper; 0 is edge to edge');
const hingeDeg = between(...JAW_HINGE_DEG, 'degrees', 'rotation of the lower jaw about the hinge axis, + opens');
const hingeArmMm = z.optional(above(0, 300, 'mm', 'from the hinge axis forward to the upper incisal edge; absent, the published triangle’s side'));

const jawSchema = fields('Where the lower jaw stands', { openingMm, forwardMm, hingeDeg, hingeArmMm });

export const readingJawSchema = fields('Where the jaw stands at this note; what is absent is as in the arch', {
  openingMm: z.exactOptional(openingMm),
  forwardMm: z.exactOptional(forwardMm),
  hingeDeg: z.exactOptional(hingeDeg),
});

const singleSchema = fields('One surface for both jaws, with no gap', {
  single: jawArchSchema('The surface', [...UPPER_QUADRANTS, ...LOWER_QUADRANTS]),
});

const measureSchema = fields('One measure of the mouth', {
  name: oneOf(MEASURES.map(({ name }) => name), 'What was measured; where it is taken: docs/model.md'),
  mm: between(...MEASURE_MM, 'mm', 'the measure'),
  sdMm: above(0, 20, 'mm', 'standard deviation'),
  by: oneOf(['ruler', 'caliper'], 'With what'),
}).check(condition((measure) => measureFits(measure)));

const PRINT_MM = 1000;

const printPointSchema = fields('A tooth edge in the card', {
  xMm: between(-PRINT_MM, PRINT_MM, 'mm', 'on the card, in any place and turn of it'),
  yMm: between(-PRINT_MM, PRINT_MM, 'mm', 'on the card, across x'),
  sdMm: above(0, 20, 'mm', 'standard deviation, each way'),
  tooth: z.optional(oneOf(['midline', 'canine-right', 'canine-left'], 'Which place of the arch it is')),
});

const printScaleSchema = z
  .discriminatedUnion(
    'by',
    [
      fields('By a card marked at its corners', { by: exactly('card'), widthMm: above(0, PRINT_MM, 'mm', 'its width'), heightMm: above(0, PRINT_MM, 'mm', 'its height') }),
      fields('By something round', { by: exactly('circle'), diameterMm: above(0, PRINT_MM, 'mm', 'its diameter') }),
      fields('By a stretch of a ruler', { by: exactly('ruler'), lengthMm: above(0, PRINT_MM, 'mm', 'its length') }),
    ],
    { error: () => sayRecords('oneKind', { kinds: '"card", "circle", "ruler"' }) },
  )
  .check(z.describe('By what the size was told'));

const printSchema = fields('A bite print of one jaw: the outer edges of its teeth, in order from the player\'s right to the left', {
  jaw: oneOf(['upper', 'lower'], 'Which jaw'),
  scale: printScaleSchema,
  scalePart: between(0, 1, '', 'standard deviation of the common size, as a part of it'),
  isFree: z.optional(
    z.literal(true, { error: () => sayRecords('trueOrAbsent') }).check(z.describe('The jaw has the free form through these points; absent, a form of the family')),
  ),
  points: list(printPointSchema, FEWEST_PRINT_POINTS, MOST_PRINT_POINTS, 'The points'),
});

const measuredSchema = fields('What the forms were fitted to, from version 5; it holds while they are those of the fit', {
  family: oneOf(FAMILIES.map(({ id }) => id), 'Kind of form that was fitted'),
  measures: list(measureSchema, 0, MEASURES.length, 'Each measure once').check(
    condition((measures) => {
      const twice = measures.findIndex(({ name }, index) => measures.findIndex((other) => other.name === name) < index);
      return twice < 0 ? null : { path: [twice, 'name'], allowed: sayRecords('measureOnce') };
    }),
  ),
  prints: z.optional(
    list(printSchema, 1, 2, 'One bite print of each jaw at most').check(
      condition((prints) => (prints.length === 2 && prints[0]!.jaw === prints[1]!.jaw ? { path: [1, 'jaw'], allowed: sayRecords('printOnce') } : null)),
    ),
  ),
});

const scannedNumberSchema = fields('A number of the jaw’s form or profile as the scan gave it', {
  name: oneOf(SCANNED_NUMBERS, 'Its name in form or profile'),
  value: between(-1000, 2000, '(as there)', 'its value'),
  sd: between(0, 2000, '(as there)', 'standard deviation'),
});

const scannedJawSchema = fields('What the jaw was fitted to; it holds while the jaw’s own numbers are these', {
  numbers: list(scannedNumberSchema, 1, SCANNED_NUMBERS.length, 'Each number once').check(
    condition((numbers) => {
      const twice = numbers.findIndex(({ name }, index) => numbers.findIndex((other) => other.name === name) < index);
      return twice < 0 ? null : { path: [twice, 'name'], allowed: sayRecords('scannedOnce') };
    }),
  ),
  residualMm: between(0, 100, 'mm', 'left between scan and arch, root mean square'),
});

const scannedSchema = fields('Scans of the jaws, from version 5; the scans themselves stay in the browser', {
  id: identifier('Under which they are kept there'),
  upper: z.optional(scannedJawSchema),
  lower: z.optional(scannedJawSchema),
}).check(condition(({ upper, lower }) => (upper === undefined && lower === undefined ? { path: [], allowed: sayRecords('scannedJaws') } : null)));

const twoJawsSchema = fields('Two jaws', {
  upper: jawArchSchema('The upper jaw', UPPER_QUADRANTS),
  lower: jawArchSchema('The lower jaw', LOWER_QUADRANTS),
  jaw: jawSchema,
  measured: z.optional(measuredSchema),
  scanned: z.optional(scannedSchema),
});

export const archSchema = z
  .union([twoJawsSchema, singleSchema], { error: () => sayRecords('archKinds') })
  .check(z.describe('The arch: two jaws, or one surface for both'));

function unionWords(kinds: string): (issue: { readonly input?: unknown }) => string {
  return (issue) =>
    sayRecords(typeof issue.input === 'object' && issue.input !== null ? 'oneKind' : 'objectWithKind', { kinds });
}

function measureFits({ name, mm }: ArchMeasureSpec) {
  const [least, most] = measureKind(name).rangeMm;
  return mm >= least && mm <= most ? null : { path: ['mm'], allowed: sayRecords('measureRange', { low: least, high: most, name }) };
}

function pointsInOrder(points: Extract<FormSpec, { kind: 'points' }>['points']) {
  const late = points.findIndex((point, index) => index > 0 && point[0] <= (points[index - 1]?.[0] ?? 0));
  if (late >= 0) return { path: ['points', late, 0], allowed: sayRecords('xAbove') };
  const first = points[0];
  const last = points[points.length - 1];
  if (first === undefined || last === undefined) return null;
  if (first[0] >= 0) return { path: ['points', 0, 0], allowed: sayRecords('firstPoint') };
  if (last[0] <= 0) return { path: ['points', points.length - 1, 0], allowed: sayRecords('lastPoint') };
  return null;
}

function arcsFit(profile: Extract<ProfileSpec, { kind: 'arcs' }>) {
  const middle = Math.sin((profile.inclinationDeg * Math.PI) / 180);
  const half = profile.crownHeightMm / (2 * profile.crownRadiusMm);
  if (Math.abs(middle) + half >= 1) {
    const least = profile.crownHeightMm / (2 * (1 - Math.abs(middle)));
    return { path: ['crownRadiusMm'], allowed: sayRecords('crownRadius', { least: fixed(least, 2) }) };
  }
  const neckDeg = (Math.asin(middle + half) * 180) / Math.PI;
  if (profile.gumInclinationDeg >= neckDeg) {
    return { path: ['gumInclinationDeg'], allowed: sayRecords('gumSlope', { most: fixed(neckDeg, 2) }) };
  }
  return null;
}

/**
 * The record file, version 1: its schema and the two doors through which a record comes in.
 * docs/record.schema.json is written from `recordSchema` (`npm run schema`).
 */
import * as z from 'zod/mini';
import type { PlayerRecord, RimSpec } from '../core/specs';
import { archSchema, readingJawSchema } from './archSchema';
import { above, between, condition, exactly, fields, list, note, oneOf, text } from './fields';
import { oneLine, refusalWords, valueWords } from './refusal';

export const RECORD_FORMAT = 'rimpath-record';
export const RECORD_VERSION = 1;
/** A record of 200 readings takes about 60 kB; more than this is another kind of file. */
export const LARGEST_RECORD_BYTES = 1_000_000;
export const MOST_READINGS = 200;

export type ParsedRecord =
  | { readonly kind: 'record'; readonly record: PlayerRecord }
  | { readonly kind: 'refused'; readonly message: string };

const SHARE_ALLOWED = 'a number above 0 and below 1';
const TRAVEL_MM = [-60, 60] as const;
/** A deviation of 0 would give a reading infinite weight. */
const LEAST_SD = 0.001;

export const rimSchema = fields('The rim. innerDiameterMm ≤ highPointDiameterMm ≤ outerDiameterMm, inner below outer', {
  innerDiameterMm: above(0, 300, 'mm', 'inner diameter'),
  outerDiameterMm: above(0, 300, 'mm', 'outer diameter'),
  highPointDiameterMm: above(0, 300, 'mm', 'diameter of the circle of high points'),
  contourRadiusMm: z
    .nullable(above(0, 10_000, 'mm', 'radius'))
    .check(z.describe('Radius of the contour’s one arc through the high point, mm, at least the distance from it to either edge; null is a flat rim')),
}).check(condition((rim) => rimFits(rim)));

const lipSchema = (which: string) =>
  fields(`The ${which} lip`, {
    thicknessMm: between(0.5, 60, 'mm', 'thickness at rest'),
    effectiveModulusKPa: between(0.1, 1_000_000, 'kPa', 'effective modulus of the lip under a rim'),
  });

const forceSchema = fields('Force on the rim', {
  newtons: above(0, 200, 'N', 'force along the head’s forward line'),
});

const readingSchema = fields('What was seen at one note', {
  note: note('Sounding note'),
  travel: fields('Travel of the rim’s centre from home', {
    upMm: between(...TRAVEL_MM, 'mm', 'up (+) or down (−)'),
    rightMm: between(...TRAVEL_MM, 'mm', 'to the player’s right (+) or left (−)'),
    sdMm: z.optional(between(LEAST_SD, 20, 'mm', 'standard deviation of either')),
  }),
  horn: z.optional(
    fields('Horn angle measured, relative to the head', {
      elevationDeg: between(-80, 80, 'degrees', 'bell up (+) or down (−)'),
      lateralDeg: between(-80, 80, 'degrees', 'bell to the player’s right (+) or left (−)'),
      sdDeg: z.optional(between(LEAST_SD, 45, 'degrees', 'standard deviation of either')),
    }),
  ),
  method: z.optional(oneOf(['eye', 'ruler', 'video'], 'How it was measured')),
  direction: z.optional(oneOf(['up', 'down'], 'Played on the way up or down')),
  jaw: z.optional(readingJawSchema),
  force: z.optional(forceSchema),
});

export const recordSchema = fields('A player’s record, version 1', {
  format: exactly(RECORD_FORMAT),
  version: exactly(RECORD_VERSION),
  player: fields('Whose record', {
    label: text(200, 'A label chosen by the teacher'),
    instrument: text(60, 'Name of an instrument in models/instruments, such as tenor-trombone', 1),
  }),
  arch: archSchema,
  rim: rimSchema,
  lips: fields('The lips', {
    upper: lipSchema('upper'),
    lower: lipSchema('lower'),
    law: oneOf(['stiffening', 'linear'], 'Pressure against strain'),
  }),
  force: forceSchema,
  home: z.optional(
    fields('Where travel is zero', {
      note: z.optional(note('Sounding note at which travel is zero')),
      upMm: z.optional(between(...TRAVEL_MM, 'mm', 'rim’s centre above the upper incisal edge at home; absent, the lip line lies at mid-opening')),
      rightMm: z.optional(between(...TRAVEL_MM, 'mm', 'rim’s centre to the player’s right of the midline at home; absent, 0')),
    }),
  ),
  upperLipShare: fields('How much of the rim lies on the upper lip', {
    value: z
      .number({ error: SHARE_ALLOWED })
      .check(z.gt(0, { error: SHARE_ALLOWED }), z.lt(1, { error: SHARE_ALLOWED }), z.describe('Upper part of the whole, above 0 and below 1')),
    by: oneOf(['diameter', 'arc', 'area'], 'What the share is a part of'),
  }),
  readings: list(readingSchema, 0, MOST_READINGS, 'The readings, in any order; two readings of one note are pooled'),
});

/** Reads a parsed JSON value. The message of a refusal is one line: field, value, what is allowed. */
export function parseRecord(value: unknown): ParsedRecord {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return refused(`record: ${valueWords(value)}; allowed: an object with "format": "${RECORD_FORMAT}"`);
  }
  // First of all whether it is ours and of this version: the rest of a newer file means nothing here.
  const { format, version } = value as { format?: unknown; version?: unknown };
  if (format !== RECORD_FORMAT) return refused(`format: ${valueWords(format)}; allowed: "${RECORD_FORMAT}"`);
  if (typeof version === 'number' && version > RECORD_VERSION) {
    const newer = Number.isInteger(version) ? ' is newer than this program reads' : '';
    return refused(`version: ${version}${newer}; allowed: ${RECORD_VERSION}`);
  }
  const result = z.safeParse(recordSchema, value);
  return result.success ? { kind: 'record', record: result.data } : refused(refusalWords(result.error.issues, value));
}

/** Reads a record's file text. */
export function parseRecordText(json: string): ParsedRecord {
  if (json.length > LARGEST_RECORD_BYTES) {
    return refused(`file: ${json.length} characters; allowed: up to ${LARGEST_RECORD_BYTES}`);
  }
  if (json.trim() === '') return refused('file: empty; allowed: a JSON object');
  let value: unknown;
  try {
    value = JSON.parse(json);
  } catch (error) {
    const detail = error instanceof Error ? oneLine(error.message) : 'unreadable';
    return refused(`file: not JSON (${detail}); allowed: a JSON object`);
  }
  return parseRecord(value);
}

function refused(message: string): ParsedRecord {
  return { kind: 'refused', message };
}

function rimFits(rim: RimSpec) {
  const { innerDiameterMm: inner, outerDiameterMm: outer, highPointDiameterMm: high, contourRadiusMm: contour } = rim;
  if (outer <= inner) return { path: ['outerDiameterMm'], allowed: `above innerDiameterMm, ${inner} mm` };
  if (high < inner || high > outer) {
    return { path: ['highPointDiameterMm'], allowed: `from innerDiameterMm to outerDiameterMm, ${inner} to ${outer} mm` };
  }
  const reach = Math.max(high - inner, outer - high) / 2;
  if (contour !== null && contour < reach) {
    return { path: ['contourRadiusMm'], allowed: `null (flat) or at least ${reach} mm, the distance from the high point to the further edge` };
  }
  return null;
}

import { describe, expect, test } from 'vitest';
import type { PlayerRecord } from '../../../src/core/specs';
import { FIELDS } from '../../../src/notebook/ranges';
import { defaultRecord } from '../../../src/records/library';
import { parseRecord } from '../../../src/records/schema';

const record = defaultRecord('trumpet');
const reading = (part: object): PlayerRecord => ({ ...record, readings: [{ note: 'F4', travel: { upMm: 0, rightMm: 0 }, ...part }] });
const jaw = (part: object): PlayerRecord =>
  'single' in record.arch ? record : { ...record, arch: { ...record.arch, jaw: { ...record.arch.jaw, ...part } } };

/** How a field's number comes into a record; the ends of its range must be allowed there, and what lies beyond must not. */
const placed: readonly (readonly [keyof typeof FIELDS, (value: number) => PlayerRecord])[] = [
  ['travel', (upMm) => reading({ travel: { upMm, rightMm: 0 } })],
  ['deviation', (sdMm) => reading({ travel: { upMm: 0, rightMm: 0, sdMm } })],
  ['hornAngle', (elevationDeg) => reading({ horn: { elevationDeg, lateralDeg: 0 } })],
  ['hornDeviation', (sdDeg) => reading({ horn: { elevationDeg: 0, lateralDeg: 0, sdDeg } })],
  ['homePlace', (upMm) => ({ ...record, home: { upMm } })],
  ['force', (newtons) => ({ ...record, force: { newtons } })],
  ['opening', (openingMm) => jaw({ openingMm })],
  ['forward', (forwardMm) => jaw({ forwardMm })],
  ['hinge', (hingeDeg) => jaw({ hingeDeg })],
  ['lipThickness', (thicknessMm) => ({ ...record, lips: { ...record.lips, upper: { ...record.lips.upper, thicknessMm } } })],
  ['lipModulus', (effectiveModulusKPa) => ({ ...record, lips: { ...record.lips, upper: { ...record.lips.upper, effectiveModulusKPa } } })],
];

describe('the fields’ ranges are the schema’s', () => {
  test.each(placed)('%s', (name, place) => {
    const { min, max, aboveMin } = { aboveMin: false, ...FIELDS[name].range };
    const least = aboveMin ? min + 1e-6 : min;
    expect(parseRecord(place(least)).kind).toBe('record');
    expect(parseRecord(place(max)).kind).toBe('record');
    expect(parseRecord(place(aboveMin ? min : min - 1e-6)).kind).toBe('refused');
    expect(parseRecord(place(max + 1e-6)).kind).toBe('refused');
  });
});

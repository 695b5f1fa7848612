import { describe, expect, test } from 'vitest';
import type { PlayerRecord } from '../../../src/core/specs';
import { FIELDS, contourReachMm, diameterLimits } from '../../../src/notebook/ranges';
import { defaultRecord, parseRecord } from '../../support/records';

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

describe('a rim’s diameters', () => {
  const rims = [
    { innerDiameterMm: 16, outerDiameterMm: 28, highPointDiameterMm: 22, contourRadiusMm: 4 },
    { innerDiameterMm: 16, outerDiameterMm: 28, highPointDiameterMm: 28, contourRadiusMm: null },
    { innerDiameterMm: 20, outerDiameterMm: 30, highPointDiameterMm: 24, contourRadiusMm: 40 },
  ];
  const fields = [['inner', 'innerDiameterMm'], ['highPoint', 'highPointDiameterMm'], ['outer', 'outerDiameterMm']] as const;

  test.each(rims)('can go as far as the record holds them, and no further: $innerDiameterMm to $outerDiameterMm mm', (rim) => {
    expect(parseRecord({ ...record, rim }).kind).toBe('record');
    for (const [name, field] of fields) {
      const { min, max, aboveMin } = diameterLimits(rim)[name];
      const kind = (value: number): string => parseRecord({ ...record, rim: { ...rim, [field]: value } }).kind;
      expect([name, kind(aboveMin ? min + 1e-6 : min), kind(max)]).toEqual([name, 'record', 'record']);
      expect([name, kind(aboveMin ? min : min - 0.011), kind(max + 0.011)]).toEqual([name, 'refused', 'refused']);
    }
    expect(parseRecord({ ...record, rim: { ...rim, contourRadiusMm: contourReachMm(rim) } }).kind).toBe('record');
    expect(parseRecord({ ...record, rim: { ...rim, contourRadiusMm: contourReachMm(rim) - 1e-6 } }).kind).toBe('refused');
  });
});

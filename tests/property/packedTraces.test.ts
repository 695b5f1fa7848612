/** Kept traces: what may be kept comes back, and whatever is done to the text, nothing is thrown and nothing wrong is read. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { crc32 } from '../../src/core/crc32';
import { packNumbers } from '../../src/measure/packedNumbers';
import { type PackedTrace, TRACED_NAMES, packTrace, unpackTrace } from '../../src/measure/packedTrace';
import { anyTrace, swayingTrace } from '../support/measurings';
import { longer, propertySeed, seedWords } from '../support/seed';

const TRACES = longer(1500);
const MUTATIONS = longer(4000);

const packed = packTrace(swayingTrace(60));

it(`${TRACES} traces on the steps come back the same, and others within a step ${seedWords}`, { timeout: 60 * TRACES }, () => {
  fc.assert(
    fc.property(anyTrace(true), (trace) => {
      expect(unpackTrace(packTrace(trace), trace.view)).toEqual({ kind: 'trace', trace });
    }),
    { seed: propertySeed, numRuns: TRACES },
  );
  fc.assert(
    fc.property(anyTrace(false), (trace) => {
      const once = packTrace(trace);
      const read = unpackTrace(once, trace.view);
      if (read.kind === 'damaged') throw new Error(read.message);
      expect(packTrace(read.trace)).toEqual(once);
    }),
    { seed: propertySeed, numRuns: TRACES },
  );
});

it(`${MUTATIONS} changed texts are told as damaged ${seedWords}`, { timeout: 60 * MUTATIONS }, () => {
  const name = fc.constantFrom('times' as const, 'rim' as const, ...TRACED_NAMES);
  const change = fc.tuple(name, fc.nat(), fc.oneof(fc.constantFrom('A', '/', '=', ' ', ''), fc.string({ maxLength: 3 })), fc.nat(3));
  fc.assert(
    fc.property(change, ([where, at, piece, cut]) => {
      const text = textAt(packed, where);
      const place = at % text.length;
      const spoilt = text.slice(0, place) + piece + text.slice(place + cut);
      fc.pre(spoilt !== text);
      expect(unpackTrace(withText(packed, where, spoilt), 'front').kind).toBe('damaged');
    }),
    { seed: propertySeed, numRuns: MUTATIONS },
  );
});

it(`${MUTATIONS} texts by another hand, the sum right, are read or refused ${seedWords}`, { timeout: 60 * MUTATIONS }, () => {
  const base64 = fc.uint8Array({ maxLength: 30 }).map((bytes) => btoa(String.fromCharCode(...bytes)));
  const numbers = (length?: number) =>
    fc.array(fc.integer({ min: -2, max: 9 }), length === undefined ? { maxLength: 8 } : { minLength: length, maxLength: length }).map(packNumbers);
  const any = fc.oneof({ weight: 2, arbitrary: base64 }, { weight: 1, arbitrary: fc.string({ maxLength: 12 }) }, { weight: 2, arbitrary: numbers() });
  // Most of them a number for each frame, and for a point in each frame its run and three numbers: some go together, most do not.
  const like = (length: number) => fc.oneof({ weight: 5, arbitrary: numbers(length) }, { weight: 1, arbitrary: any });
  const some = (text: fc.Arbitrary<string>) => fc.option(text, { nil: undefined, freq: 2 });
  const other = fc.nat(3).chain((count) =>
    fc.record({
      frames: fc.oneof({ weight: 9, arbitrary: fc.constant(count) }, { weight: 1, arbitrary: fc.double() }),
      times: like(count),
      rim: some(any),
      nose: some(fc.oneof(any, fc.array(fc.integer({ min: 0, max: 9 }), { minLength: 3 * count, maxLength: 3 * count }).map((values) => packNumbers([count, ...values])))),
    }),
  );
  let read = 0;
  fc.assert(
    fc.property(other, ({ frames, times, rim, nose }) => {
      const parts = { frames, times, ...(rim !== undefined && { rim }), points: { ...(nose !== undefined && { 'nose-bridge': nose }) } };
      const answer = unpackTrace({ ...parts, check: sumOf(parts) }, 'front');
      if (answer.kind === 'damaged') {
        expect(answer.message).toMatch(/^trace\.(?:frames|times|rim|points\.nose-bridge): /);
        return;
      }
      read++;
      // What is read could have been packed.
      expect(unpackTrace(packTrace(answer.trace), 'front')).toEqual(answer);
    }),
    { seed: propertySeed, numRuns: MUTATIONS },
  );
  // Else nothing would be said of those that can be read.
  expect(read).toBeGreaterThan(MUTATIONS / 20);
});

function textAt(trace: PackedTrace, where: keyof PackedTrace['points'] | 'times' | 'rim'): string {
  return (where === 'times' ? trace.times : where === 'rim' ? trace.rim : trace.points[where]) ?? '';
}

function withText(trace: PackedTrace, where: keyof PackedTrace['points'] | 'times' | 'rim', text: string): PackedTrace {
  return where === 'times' || where === 'rim' ? { ...trace, [where]: text } : { ...trace, points: { ...trace.points, [where]: text } };
}

function sumOf({ frames, times, rim = '', points }: Omit<PackedTrace, 'check'>): number {
  const nose = points['nose-bridge'];
  return crc32(new TextEncoder().encode(`frames ${frames}\ntimes ${times}\nrim ${rim}\n${nose === undefined ? '' : `nose-bridge ${nose}\n`}`));
}

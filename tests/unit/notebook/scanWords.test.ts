import { expect, test } from 'vitest';
import { frameWords, numberWords } from '../../../src/notebook/scan/words';
import type { JawSettled } from '../../../src/scans/scanDesk';

test('a deviation too small for its decimals is not told as none', () => {
  const frame = { sidewaysMm: 0.004, yawDeg: 0.1, rollDeg: 0.1, pitchDeg: 0.02 };
  expect(frameWords({ asymmetryMm: 0.01, frame } as JawSettled)).toBe('Its two sides differ by 0.01\u00a0mm; the middle is known to ±\u00a00.1\u00a0mm, the tilt to ±\u00a01°.');
  expect(numberWords({ name: 'widthMm', value: 61.04, sd: 0.01 })).toBe('61.0 ±\u00a00.1\u00a0mm');
  expect(numberWords({ name: 'inclinationDeg', value: 5, sd: 3.5 })).toBe('5.0 ±\u00a06.9\u00a0°');
  expect(numberWords({ name: 'a', value: 8.1e-9, sd: 7e-11 })).toMatch(/^8\.10e-9 ±\u00a01\.37e-10/);
});

import { describe, expect, it } from 'vitest';
import { contourHeight } from '../../../src/core/rim';
import { rims } from '../../../src/records/library';
import { cividisGradient, cividisInto, cividisStep } from '../../../src/stage/cividis';
import { instrumentProfiles, turn } from '../../../src/stage/rimShape';
import { expectWithin } from '../../support/expectWithin';
import { openEdges, volumeOf } from './solid';

describe.each(rims.map((model) => ({ name: model.id, rim: model.rim })))('rim and cup: $name', ({ rim }) => {
  const profiles = instrumentProfiles(rim, (radius) => contourHeight(rim, radius));

  it('are turned from the contour', () => {
    for (const [radius, along] of profiles.face) expectWithin(along, contourHeight(rim, radius), { abs: 1e-12 }, `contour at ${radius}`);
    expect(profiles.face[0]![0]).toBe(rim.innerDiameterMm / 2);
    expect(profiles.face[profiles.face.length - 1]![0]).toBe(rim.outerDiameterMm / 2);
  });

  it('stay behind the rim’s face, so that nothing drawn reaches further into the lips than the seat knows', () => {
    for (const [radius, along] of [...profiles.rim, ...profiles.body]) {
      const clamped = Math.min(rim.outerDiameterMm / 2, Math.max(rim.innerDiameterMm / 2, radius));
      expect(along).toBeGreaterThanOrEqual(contourHeight(rim, clamped) - 1e-9);
    }
  });

  it('are closed solids, wound outward', () => {
    for (const profile of [profiles.rim, profiles.body]) {
      const solid = turn(profile, 48);
      expect(openEdges(solid.positions, solid.index)).toBe(0);
      expect(volumeOf(solid.positions, solid.index)).toBeGreaterThan(100);
    }
  });
});

describe('cividis', () => {
  const at = (value: number): readonly number[] => {
    const out = new Float32Array(3);
    cividisInto(value, out, 0);
    return [...out];
  };

  it('has the published ends and middle (Nuñez, Anderton, Renslow 2018)', () => {
    const published: readonly (readonly [number, readonly number[]])[] = [
      [0, [0, 0.135112, 0.304751]],
      [0.5, [0.488697, 0.485318, 0.471008]],
      [191 / 255, [0.736488, 0.680629, 0.424028]],
      [1, [0.995737, 0.909344, 0.217772]],
    ];
    for (const [value, rgb] of published) {
      rgb.forEach((channel, index) => expectWithin(at(value)[index]!, channel, { abs: 0.02 }, `channel ${index} at ${value}`));
    }
  });

  it('grows lighter all the way, and holds outside 0 to 1', () => {
    let before = -1;
    for (let value = 0; value <= 1; value += 0.02) {
      const [red, green, blue] = at(value) as [number, number, number];
      const lightness = 0.2126 * red ** 2.2 + 0.7152 * green ** 2.2 + 0.0722 * blue ** 2.2;
      expect(lightness).toBeGreaterThan(before);
      before = lightness;
    }
    expect(at(-3)).toEqual(at(0));
    expect(at(7)).toEqual(at(1));
    expect(cividisGradient()).toMatch(/^linear-gradient\(to right, rgb\(0 34 78\) 0\.0%/);
  });

  it('in steps it is nowhere two shades of 255 from itself, and has a colour for whatever is asked', () => {
    for (let value = 0; value <= 1; value += 0.0137) {
      const step = cividisStep(value).match(/\d+/g)!.map(Number);
      at(value).forEach((channel, index) => expectWithin(step[index]!, channel * 255, { abs: 2 }, `channel ${index} at ${value}`));
    }
    expect([-1, NaN].map(cividisStep)).toEqual([cividisStep(0), cividisStep(0)]);
    expect(cividisStep(3)).toBe(cividisStep(1));
  });
});

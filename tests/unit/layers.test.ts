import { describe, expect, test } from 'vitest';
import { layerFaults } from '../support/layers';
import { sourcesIn } from '../support/sources';

const faultsOf = (files: Record<string, string>): string[] => layerFaults(new Map(Object.entries(files)));

test('the sources keep the layers, have no import cycle, and core is pure', () => {
  const tree = sourcesIn();
  expect(tree.has('src/core/specs.ts')).toBe(true);
  expect(layerFaults(tree)).toEqual([]);
});

describe('the check itself finds', () => {
  test.each([
    ['a plain import', `import { a } from '../app/store';`],
    ['a type-only import', `import type { A } from '../app/store';`],
    ['a re-export', `export { a } from '../app/store';`],
    ['an import type', `export type A = import('../app/store').A;`],
    ['a dynamic import', `export const load = () => import('../app/store');`],
    ['a glob', `export const all = import.meta.glob(['../app/store']);`],
    ['a worker address', `export const address = new URL('../app/store', import.meta.url);`],
  ])('a step against the direction: %s', (_, text) => {
    expect(faultsOf({ 'src/stage/camera.ts': text })).toEqual(['src/stage/camera.ts: stage may not import ../app/store']);
  });

  test('a computed import, which no reader can follow', () => {
    expect(faultsOf({ 'src/app/load.ts': `export const load = (name: string) => import(name);` })).toEqual([
      'src/app/load.ts: import that cannot be read: import(name)',
    ]);
  });

  test('neighbours on one level, a way around the layers, and a file outside them', () => {
    expect(
      faultsOf({
        'src/staff/a.ts': `import '../stage/b';`,
        'src/core/c.ts': `import table from '../../models/table.json';`,
        'src/loose.ts': '',
      }),
    ).toEqual([
      'src/staff/a.ts: staff may not import ../stage/b',
      'src/core/c.ts: core may not import ../../models/table.json',
      expect.stringContaining('src/loose.ts: stands in no layer'),
    ]);
  });

  test('a package outside its layer or its file, and JSX where React is not allowed', () => {
    expect(
      faultsOf({
        'src/notebook/a.ts': `import { Vector3 } from 'three';`,
        'src/core/seat.ts': `import { vec3 } from 'gl-matrix';`,
        'src/records/view.tsx': `export const a = 1;`,
      }),
    ).toEqual([
      'src/notebook/a.ts: notebook may not import three',
      'src/core/seat.ts: core may not import gl-matrix',
      'src/records/view.tsx: records may not import react',
    ]);
  });

  test('cycles, long ones and through types too', () => {
    expect(
      faultsOf({
        'src/core/a.ts': `import { b } from './b';`,
        'src/core/b.ts': `import type { C } from './c';`,
        'src/core/c.ts': `export { a } from './a';`,
      }),
    ).toEqual(['cycle: src/core/a.ts -> src/core/b.ts -> src/core/c.ts -> src/core/a.ts']);
  });

  test.each([
    ['Math.random', `export const a = () => Math.random();`],
    ['Math', `export const { random } = Math;`],
    ['Math', `export const a = Math['random'];`],
    ['Date', `export const a = Date.now();`],
    ['performance', `export const a = { performance };`],
    ['document', `export const a = document.title;`],
    ['localStorage', `export const a = localStorage;`],
  ])('core using %s: %s', (name, text) => {
    expect(faultsOf({ 'src/core/a.ts': text })).toEqual([`src/core/a.ts: core may not use ${name}`]);
  });
});

test('the check passes what is allowed', () => {
  expect(
    faultsOf({
      'src/core/vector.ts': `import { vec3 } from 'gl-matrix'; export const a = Math.hypot(1, 2); export interface B { Date: string }`,
      'src/core/seat.ts': `import { a } from './vector'; export const b = { process: a, now: 1 };`,
      'src/records/library.ts': `import rims from '../../models/rims.json'; import { z } from 'zod';`,
      'src/app/main.tsx': `import { createRoot } from 'react-dom/client'; import './app.css'; import('../stage/Stage');`,
      'src/stage/Stage.tsx': `import { b } from '../core/seat'; import { Canvas } from '@react-three/fiber';`,
    }),
  ).toEqual([]);
});

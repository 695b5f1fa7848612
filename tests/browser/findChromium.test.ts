import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { findChromium } from './support/findChromium';

const folder = mkdtempSync(join(tmpdir(), 'rimpath-find-'));
afterAll(() => rmSync(folder, { recursive: true }));

function program(name: string, mode: number): string {
  const path = join(folder, name);
  writeFileSync(path, '#!/bin/sh\n', { mode });
  return path;
}

test('the browser named by CHROMIUM comes before an installed one', async () => {
  const wished = program('wished', 0o755);
  const installed = program('google-chrome', 0o755);
  expect(await findChromium({ CHROMIUM: wished, PATH: folder })).toMatchObject({ executablePath: wished, source: 'environment' });
  expect(await findChromium({ PATH: folder })).toMatchObject({ executablePath: installed, source: 'installed' });
});

test('a CHROMIUM that is not a program is refused, not passed over', async () => {
  mkdirSync(join(folder, 'directory'));
  for (const wrong of [join(folder, 'absent'), join(folder, 'directory')]) {
    await expect(findChromium({ CHROMIUM: wrong, PATH: folder })).rejects.toThrow(`CHROMIUM is '${wrong}'`);
  }
});

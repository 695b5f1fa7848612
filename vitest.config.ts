import { defineConfig } from 'vitest/config';

/** A busy machine takes some times longer than a quiet one; what hangs is still told. Milliseconds. */
const PATIENCE_MS = 30_000;

/** Node itself loads the modules. Through Vite every imported name is looked up anew at each use, and seats by the thousand take nearly twice as long. */
const NATIVE = {
  environment: 'node',
  execArgv: ['--import', new URL('./tests/support/nativeModules.mjs', import.meta.url).href],
  experimental: { viteModuleRunner: false, nodeLoader: false },
};

/** Tests that need no browser share two cores; left to itself, one core would stand idle. */
const NUMBERS = { ...NATIVE, maxWorkers: 2, testTimeout: PATIENCE_MS };

/** Software rendering on few cores, and the first page of a run waits for the build. Through Vite: what tsx writes into functions means nothing in a page. */
const BROWSER = { environment: 'node', testTimeout: 180_000, hookTimeout: 180_000 };

/** Files that hold the page to a time of the clock: to a part of a second kept, to two frames of a hand, to how soon an answer comes or all is still. */
const TIMED = ['app', 'appLayout', 'films', 'measureMedia', 'pictures', 'records', 'stage'].map((name) => `tests/browser/${name}.test.ts`);

export default defineConfig({
  test: {
    // The app for the browser tests, built when a test first asks for it.
    globalSetup: ['tests/browser/support/appServer.ts'],
    projects: [
      { test: { ...NUMBERS, name: 'unit', include: ['tests/unit/**/*.test.{ts,tsx}', 'tests/repro/**/*.test.ts'] } },
      { test: { ...NUMBERS, name: 'reference', include: ['tests/reference/**/*.test.ts'] } },
      { test: { ...NUMBERS, name: 'property', include: ['tests/property/**/*.test.ts'], testTimeout: 180_000 } },
      // Two files at a time: a page waits more than it works. After the others, which keep both cores busy.
      { test: { ...BROWSER, name: 'browser', include: ['tests/browser/**/*.test.ts'], exclude: TIMED, maxWorkers: 2, sequence: { groupOrder: 1 } } },
      // One by one and last: nothing else is on the cores.
      { test: { ...BROWSER, name: 'timed', include: TIMED, fileParallelism: false, sequence: { groupOrder: 2 } } },
    ],
  },
});

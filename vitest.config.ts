import { defineConfig } from 'vitest/config';

/** A busy machine takes some times longer than a quiet one; what hangs is still told. Milliseconds. */
const PATIENCE_MS = 30_000;

/** Tests that need no browser share two cores; left to itself, one core would stand idle. */
const NUMBERS = { environment: 'node', maxWorkers: 2, testTimeout: PATIENCE_MS } as const;

export default defineConfig({
  test: {
    projects: [
      { test: { ...NUMBERS, name: 'unit', include: ['tests/unit/**/*.test.{ts,tsx}', 'tests/repro/**/*.test.ts'] } },
      { test: { ...NUMBERS, name: 'reference', include: ['tests/reference/**/*.test.ts'] } },
      { test: { ...NUMBERS, name: 'property', include: ['tests/property/**/*.test.ts'], testTimeout: 180_000 } },
      {
        test: {
          name: 'browser',
          environment: 'node',
          include: ['tests/browser/**/*.test.ts'],
          globalSetup: ['tests/browser/support/appServer.ts'],
          // Software rendering on few cores, and the first page of a run waits for the build.
          testTimeout: 180_000,
          hookTimeout: 180_000,
          fileParallelism: false,
          // After the others: a page that is measured or filmed should not share the cores with them.
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});

import { defineConfig } from 'vitest/config';

/** A busy machine takes some times longer than a quiet one; what hangs is still told. Milliseconds. */
const PATIENCE_MS = 30_000;

export default defineConfig({
  test: {
    projects: [
      { test: { name: 'unit', environment: 'node', include: ['tests/unit/**/*.test.{ts,tsx}', 'tests/repro/**/*.test.ts'], testTimeout: PATIENCE_MS } },
      { test: { name: 'reference', environment: 'node', include: ['tests/reference/**/*.test.ts'], testTimeout: PATIENCE_MS } },
      {
        test: {
          name: 'property',
          environment: 'node',
          include: ['tests/property/**/*.test.ts'],
          testTimeout: 120_000,
        },
      },
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

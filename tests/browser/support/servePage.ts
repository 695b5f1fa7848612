/** Builds a small page that a test looks at by itself, and serves it on a free port of 127.0.0.1. */
import react from '@vitejs/plugin-react';
import { mkdtempSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, preview } from 'vite';

export interface ServedPage {
  readonly address: string;
  readonly folder: string;
  close(): Promise<void>;
}

/** `name` is that of its folder beside the tests. */
export async function servePage(name: string): Promise<ServedPage> {
  const folder = mkdtempSync(join(tmpdir(), `rimpath-${name}-`));
  const shared = { root: join(import.meta.dirname, '..', name), configFile: false as const, logLevel: 'silent' as const };
  await build({
    ...shared,
    base: './',
    plugins: [react()],
    build: { outDir: folder, emptyOutDir: true, target: 'es2022', chunkSizeWarningLimit: 2000 },
  });
  const server = await preview({ ...shared, build: { outDir: folder }, preview: { host: '127.0.0.1', port: 0, open: false } });
  return {
    address: `http://127.0.0.1:${(server.httpServer.address() as AddressInfo).port}/`,
    folder,
    async close() {
      await server.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

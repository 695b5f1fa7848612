/** Builds a small page that a test looks at by itself, once until the browsers are closed, and serves it on a free port of 127.0.0.1. */
import react from '@vitejs/plugin-react';
import { mkdtempSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, preview } from 'vite';
import { afterBrowsers } from './visit';

export interface ServedPage {
  readonly address: string;
  readonly folder: string;
  close(): Promise<void>;
}

/** `name` is that of its folder beside the tests. */
export async function servePage(name: string): Promise<ServedPage> {
  let building = built.get(name);
  if (!building) built.set(name, (building = buildPage(name)));
  const folder = await building;
  const server = await preview({ ...sharedConfig(name), build: { outDir: folder }, preview: { host: '127.0.0.1', port: 0, open: false } });
  return {
    address: `http://127.0.0.1:${(server.httpServer.address() as AddressInfo).port}/`,
    folder,
    close: () => server.close(),
  };
}

const built = new Map<string, Promise<string>>();

async function buildPage(name: string): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), `rimpath-${name}-`));
  afterBrowsers(async () => {
    built.delete(name);
    await rm(folder, { recursive: true, force: true });
  });
  await build({
    ...sharedConfig(name),
    base: './',
    plugins: [react()],
    build: { outDir: folder, emptyOutDir: true, target: 'es2022', chunkSizeWarningLimit: 2000 },
  });
  return folder;
}

function sharedConfig(name: string) {
  return { root: join(import.meta.dirname, '..', name), configFile: false, logLevel: 'silent' } as const;
}

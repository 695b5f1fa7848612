/**
 * Serves the built app on a free port of 127.0.0.1 for the run's browser tests. The build waits for the first request, so
 * that a run without the app (or with an app that does not build) pays and fails only where the app is asked for. RIMPATH_BUILT names
 * the folder of a build just made of these sources, which is copied then.
 */
import { spawn } from 'node:child_process';
import { createServer, type Server } from 'node:http';
import { mkdtempSync } from 'node:fs';
import { cp, rm } from 'node:fs/promises';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { preview, type PreviewServer } from 'vite';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    appAddress: string;
    appFolder: string;
  }
}

export async function setup(project: TestProject): Promise<() => Promise<void>> {
  const appFolder = mkdtempSync(join(tmpdir(), 'rimpath-app-'));
  let serving: Promise<PreviewServer> | null = null;
  const server = createServer((request, response) => {
    serving ??= buildAndServe(appFolder);
    serving.then(
      (built) => built.middlewares(request, response),
      (error: unknown) => response.writeHead(500, { 'content-type': 'text/plain; charset=utf-8' }).end(String(error)),
    );
  });
  await listen(server);
  project.provide('appAddress', `http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
  project.provide('appFolder', appFolder);

  return async () => {
    server.closeAllConnections();
    server.close();
    await serving?.then((built) => built.close(), () => undefined);
    await rm(appFolder, { recursive: true, force: true });
  };
}

async function buildAndServe(appFolder: string): Promise<PreviewServer> {
  const built = process.env['RIMPATH_BUILT'];
  await (built ? cp(resolve(projectFolder, built), appFolder, { recursive: true }) : build(appFolder));
  return preview({
    root: projectFolder,
    build: { outDir: appFolder },
    preview: { host: '127.0.0.1', port: 0, open: false },
    logLevel: 'silent',
  });
}

/** In a process of its own: under the test runner NODE_ENV says 'test', and React would be built for development. */
function build(appFolder: string): Promise<void> {
  const vite = join(projectFolder, 'node_modules/vite/bin/vite.js');
  const child = spawn(process.execPath, [vite, 'build', '--outDir', appFolder, '--emptyOutDir', '--logLevel', 'warn'], {
    cwd: projectFolder,
    env: { ...process.env, NODE_ENV: 'production' },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let output = '';
  child.stdout.on('data', (chunk: Buffer) => (output += chunk.toString()));
  child.stderr.on('data', (chunk: Buffer) => (output += chunk.toString()));
  return new Promise((done, failed) => {
    child.once('error', failed);
    child.once('close', (code) => (code === 0 ? done() : failed(new Error(`vite build ended with ${code}\n${output}`))));
  });
}

function listen(server: Server): Promise<void> {
  return new Promise((done, failed) => {
    server.once('error', failed);
    server.listen(0, '127.0.0.1', done);
  });
}

const projectFolder = resolve(import.meta.dirname, '../../..');

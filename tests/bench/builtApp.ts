/** The app, built once a run for the benchmarks that open it; gone when the run ends. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

export const root = resolve(import.meta.dirname, '../..');

let built: string | null = null;

/** The folder it lies in. */
export function builtApp(): string {
  if (built === null) {
    built = mkdtempSync(join(tmpdir(), 'rimpath-bench-'));
    const vite = join(root, 'node_modules/vite/bin/vite.js');
    execFileSync(process.execPath, [vite, 'build', '--outDir', built, '--emptyOutDir', '--logLevel', 'error'], { cwd: root });
    const folder = built;
    process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
  }
  return built;
}

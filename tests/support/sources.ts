/** The project's sources as text. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';

const project = resolve(import.meta.dirname, '../..');

/** Every source under src/`folder`, 'src/core/seat.ts' to its text; types alone (.d.ts) are left out. */
export function sourcesIn(folder = ''): Map<string, string> {
  const root = join(project, 'src', folder);
  const paths = readdirSync(root, { recursive: true, encoding: 'utf8' })
    .filter((path) => /\.tsx?$/.test(path) && !path.endsWith('.d.ts'))
    .map((path) => join(root, path));
  return new Map(paths.map((path) => [relative(project, path).split(sep).join('/'), readFileSync(path, 'utf8')]));
}

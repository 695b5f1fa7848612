/**
 * Runs the benchmarks: npm run bench [-- WORD …] takes the groups of every *.bench.ts beside this file, or those whose
 * title holds one of the words. Prints a table a group and writes all figures to .cache/bench.json.
 */
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { runGroup, type BenchGroup, type GroupResult } from './harness';
import { formatGroup } from './table';

/** What a *.bench.ts exports. */
interface BenchFile {
  readonly groups: readonly BenchGroup[];
}

const words = process.argv.slice(2).map((word) => word.toLowerCase());
const results: GroupResult[] = [];
for (const file of readdirSync(import.meta.dirname).filter((name) => name.endsWith('.bench.ts')).sort()) {
  const { groups } = (await import(pathToFileURL(join(import.meta.dirname, file)).href)) as BenchFile;
  for (const group of groups.filter(({ title }) => wanted(title))) {
    const result = await runGroup(group);
    console.log(`${formatGroup(result)}\n`);
    results.push(result);
  }
}

if (results.length === 0) {
  console.error('no benchmark to run: no *.bench.ts holds a group of that title');
  process.exitCode = 1;
} else {
  const out = resolve(import.meta.dirname, '../../.cache/bench.json');
  mkdirSync(dirname(out), { recursive: true });
  const machine = { node: process.version, processor: cpus()[0]?.model ?? 'unknown', cores: cpus().length };
  writeFileSync(out, `${JSON.stringify({ machine, groups: results }, null, 2)}\n`);
  console.log(`figures written to ${out}`);
}

function wanted(title: string): boolean {
  return words.length === 0 || words.some((word) => title.toLowerCase().includes(word));
}

/** What the documents name is there, what the sources cite is there, and the example prints what the README says. */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { describe, expect, it, test } from 'vitest';
import { predictOutput } from '../../src/cli/predictOutput';
import { analyse } from '../../src/core/analyse';
import { computeBands } from '../../src/core/bands';
import { lessonOf, recordOf } from '../../src/core/lessons';
import { parsePlayersText } from '../../src/records/schema';
import { expectWithin } from '../support/expectWithin';

const project = resolve(import.meta.dirname, '../..');
const read = (path: string): string => readFileSync(join(project, path), 'utf8');
const filesUnder = (folder: string, ending: RegExp): string[] =>
  readdirSync(join(project, folder), { recursive: true, encoding: 'utf8' })
    .filter((path) => ending.test(path))
    .map((path) => join(folder, path));

const pages = ['README.md', 'DEVELOPERS.md', ...filesUnder('docs', /\.md$/)];

/** Anchors of a page's headings, as the usual viewers make them. */
const anchors = (page: string): string[] =>
  [...read(page).matchAll(/^#+ (.+)$/gm)].map(([, heading]) =>
    heading!.toLowerCase().replace(/[^\p{L}\p{N}\s-]/gu, '').trim().replaceAll(/\s/g, '-'),
  );

describe.each(pages)('%s', (page) => {
  const text = read(page);

  it('links to pages, pictures and headings that exist', () => {
    const faults = [...text.matchAll(/\]\(([^)\s]+)\)/g)]
      .map(([, link]) => link!)
      .filter((link) => !/^[a-z]+:/.test(link))
      .filter((link) => {
        const [path, anchor] = link.split('#');
        const target = path ? join(dirname(page), path) : page;
        return !existsSync(join(project, target)) || (anchor !== undefined && !anchors(target).includes(anchor));
      });
    expect(faults).toEqual([]);
  });

  it('names files that exist', () => {
    const named = [...text.matchAll(/`((?:src|tests|docs|models|\.ci)\/[^`*\s]+)`/g)].map(([, path]) => path!);
    expect(named.filter((path) => !existsSync(join(project, path)))).toEqual([]);
  });

  it('names npm scripts that exist', () => {
    const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };
    const named = [...text.matchAll(/npm run (?:-s )?([a-z][a-z:-]*)/g)].map(([, script]) => script!);
    expect(named.filter((script) => !Object.hasOwn(scripts, script))).toEqual([]);
  });
});

test('sources and tests cite pages and sections that exist', () => {
  const sections = [...read('docs/numerics.md').matchAll(/^## §(\d+) /gm)].map(([, number]) => Number(number));
  const headings = [...read('docs/model.md').matchAll(/^#+ (.+)$/gm)].map(([, heading]) => heading);
  const faults = [...filesUnder('src', /\.tsx?$/), ...filesUnder('tests', /\.tsx?$/)].flatMap((file) => {
    const text = read(file);
    const pagesCited = [...text.matchAll(/\bdocs\/[\w/-]+\.(?:md|json)\b/g)].map(([path]) => path).filter((path) => !existsSync(join(project, path)));
    const sectionsCited = [...text.matchAll(/docs\/numerics\.md §(\d+)(?:–(\d+))?/g)]
      .filter(([, from, to]) => !sections.includes(Number(from)) || (to !== undefined && !sections.includes(Number(to))))
      .map(([words]) => words);
    const headingsCited = [...text.matchAll(/docs\/model\.md,? "([^"]+)"/g)].filter(([, heading]) => !headings.includes(heading)).map(([words]) => words);
    return [...pagesCited, ...sectionsCited, ...headingsCited].map((what) => `${file}: ${what}`);
  });
  expect(sections.length).toBeGreaterThan(8);
  expect(faults).toEqual([]);
});

describe('the example of the README', () => {
  const blocks = [...read('README.md').matchAll(/```json\n([\s\S]*?)\n```/g)].map(([, block]) => block!);
  const parsed = parsePlayersText(read('docs/example.json'));

  it('is the file in docs/example.json, and valid', () => {
    expect(JSON.parse(blocks[0]!)).toEqual(JSON.parse(read('docs/example.json')));
    expect(parsed.kind).toBe('players');
  });

  it('prints for its second reading what the README shows', () => {
    if (parsed.kind === 'refused') throw new Error(parsed.message);
    const [player] = parsed.players;
    const analysis = analyse(recordOf(player!, lessonOf(player!, '')));
    const printed: unknown = predictOutput(analysis, computeBands(analysis)).readings[1];
    expectAlike(printed, JSON.parse(blocks[1]!), 'readings[1]');
  });
});

/** Rounded to four decimals in the README; residuals are below that and only have to be small. */
const ROUNDED = 1e-4;

function expectAlike(actual: unknown, shown: unknown, path: string): void {
  if (typeof shown === 'number') {
    expectWithin(actual as number, shown, { abs: ROUNDED }, path);
    return;
  }
  if (typeof shown !== 'object' || shown === null || typeof actual !== 'object' || actual === null) {
    expect(actual, path).toEqual(shown);
    return;
  }
  expect(Object.keys(actual), path).toEqual(Object.keys(shown));
  for (const [name, inner] of Object.entries(shown)) expectAlike((actual as Record<string, unknown>)[name], inner, `${path}.${name}`);
}

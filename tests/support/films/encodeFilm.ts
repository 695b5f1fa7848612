/** Makes film files of scenes: drawn and encoded in a page of the tests' browser, kept on the disk so that each is made once a machine. */
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { servePage } from '../../browser/support/servePage';
import { visit } from '../../browser/support/visit';
import { type FilmFormat, wholeFormat } from './filmFormat';
import { type Scene, type SceneOptions, sceneOf } from './scene';

/** The file's bytes. Opens the tests' shared browser when the film is not at hand: a test that asks calls `closeBrowsers` when it is done. */
export function madeFilm(scene: Scene, format: FilmFormat = {}): Promise<Uint8Array> {
  const whole = wholeFormat(format);
  return kept(`film-${whole.container}`, { scene, whole }, `window.makeFilm(${JSON.stringify(scene)}, ${JSON.stringify(whole)})`);
}

/** A scene and its film at once: what is true at a time is `truthAt(scene, t)`. */
export async function filmOf(options: SceneOptions, format: FilmFormat = {}): Promise<{ readonly scene: Scene; readonly bytes: Uint8Array }> {
  const scene = sceneOf(options);
  return { scene, bytes: await madeFilm(scene, format) };
}

/** A small grey film (H.264, MP4, one frame in ten seconds) that lasts as long as is asked, seconds. */
export function longFilm(durationS: number): Promise<Uint8Array> {
  return kept('long', { durationS }, `window.makeLongFilm(${durationS})`);
}

const projectFolder = resolve(import.meta.dirname, '../../..');
const storeFolder = join(projectFolder, 'node_modules/.cache/rimpath/films');

async function kept(name: string, what: object, script: string): Promise<Uint8Array> {
  const file = join(storeFolder, `${name}-${digest([JSON.stringify(what), sourcesDigest()])}`);
  try {
    return new Uint8Array(readFileSync(file));
  } catch {
    const bytes = await madeInPage(script);
    mkdirSync(storeFolder, { recursive: true });
    // Renamed into place whole: another test may be making the same film.
    const unfinished = `${file}.${process.pid}`;
    writeFileSync(unfinished, bytes);
    renameSync(unfinished, file);
    return bytes;
  }
}

async function madeInPage(script: string): Promise<Uint8Array> {
  const served = await servePage('filmPage');
  try {
    const opened = await visit(served.address, { webgl: false });
    try {
      const encoded: string = await opened.page.evaluate(script);
      return new Uint8Array(Buffer.from(encoded, 'base64'));
    } finally {
      await opened.close();
    }
  } finally {
    await served.close();
  }
}

/** Of everything that shapes a film's pictures, sound or file. */
function sourcesDigest(): string {
  const folders = [import.meta.dirname, join(projectFolder, 'tests/browser/filmPage')];
  const files = folders.flatMap((folder) => readdirSync(folder).filter((name) => /\.(ts|html)$/.test(name) && !NOT_DRAWN.has(name)).sort().map((name) => join(folder, name)));
  const core = ['random.ts', 'frame.ts', 'vector.ts'].map((name) => join(projectFolder, 'src/core', name));
  const mediabunny = join(projectFolder, 'node_modules/mediabunny/package.json');
  return digest([...files, ...core, mediabunny].map((file) => readFileSync(file, 'utf8')));
}
/** Sources beside the renderer that change no film. */
const NOT_DRAWN = new Set(['badFiles.ts', 'photograph.ts', 'marksAt.ts', 'measureFilms.ts', 'encodeFilm.ts']);

function digest(parts: readonly string[]): string {
  const hash = createHash('sha256');
  for (const part of parts) hash.update(part).update('\0');
  return hash.digest('hex').slice(0, 24);
}

/**
 * `npm run films:long -- [--films 12] [--seed N] [--kinds front2,front5,right,above] [--set plain|varied] [--out FILE]`: films with fresh seeds through the whole
 * chain, one after another, and what came of them. Every film is kept on the disk; the seed is printed, so that a run can be repeated.
 */
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { closeBrowsers } from '../browser/support/visit';
import { madeFilm } from '../support/films/encodeFilm';
import { type Measurer, type NoteOff, type Off, type Summary, askedOf, openMeasurer, summaryOf, takeOff } from '../support/films/measureFilms';
import { FILM_KINDS, type FilmKind, filmOfKind } from './filmKinds';

interface Result {
  readonly kind: FilmKind;
  readonly seed: number;
  readonly words: string;
  readonly notes: readonly NoteOff[];
  readonly missing: number;
  readonly extra: number;
  readonly framesPerSecond: number;
}

const { values } = parseArgs({
  options: { films: { type: 'string' }, seed: { type: 'string' }, kinds: { type: 'string' }, set: { type: 'string' }, out: { type: 'string' }, unknown: { type: 'boolean' } },
});
const films = Number(values.films ?? 12);
const firstSeed = Number(values.seed ?? Math.floor(Date.now() / 1000) % 1_000_000);
const kinds = (values.kinds?.split(',') ?? [...FILM_KINDS]) as FilmKind[];
const isVaried = values.set !== 'plain';
const traces: unknown[] = [];

process.stdout.write(`seeds ${firstSeed} to ${firstSeed + films - 1}, ${isVaried ? 'varied' : 'plain'} scenes\n`);
const measurer = await openMeasurer();
const results: Result[] = [];
for (const kind of kinds) {
  for (let seed = firstSeed; seed < firstSeed + films; seed++) {
    try {
      results.push(await measured(measurer, kind, seed));
    } catch (fault) {
      process.stdout.write(`${kind} ${seed}: ${String(fault)}\n`);
    }
  }
  tell(kind, results.filter((one) => one.kind === kind));
}
await measurer.close();
await closeBrowsers();
if (values.out !== undefined) writeFileSync(values.out, JSON.stringify(traces));

async function measured({ measure }: Measurer, kind: FilmKind, seed: number): Promise<Result> {
  const { scene, marks, words } = filmOfKind(kind, seed, isVaried);
  const bytes = await madeFilm(scene);
  const file = { name: 'take.mp4', mimeType: 'video/mp4', buffer: Buffer.from(bytes) };
  const film = askedOf(scene, values.unknown === true ? { ...marks, focalRelativeSd: null } : marks);
  const home = scene.notes[scene.home]!.midi;
  const told = await measure([file], { films: [film], rim: scene.rim, range: { lowMidi: 54, highMidi: 84 }, homeMidi: home, traces: values.out !== undefined });
  if (told.kind === 'refused') throw new Error(told.words);
  const off = takeOff(scene, told.notes, told.tuningCents);
  const { followMs, facts, head, foundPart, trace } = told.films[0]!;
  if (values.out !== undefined) traces.push({ kind, seed, scene, film, trace, facts, notes: told.notes, tuningCents: told.tuningCents });
  const result = { kind, seed, words, ...off, framesPerSecond: facts.frameCount / (followMs / 1000) };
  const one = (name: 'up' | 'right' | 'elevation' | 'lateral'): string => short(summaryOf(off.notes.map((note) => note[name])));
  process.stdout.write(`${kind} ${seed}: up ${one('up')} right ${one('right')} el ${one('elevation')} lat ${one('lateral')} | notes ${off.notes.length} -${off.missing} +${off.extra}, ${result.framesPerSecond.toFixed(0)} fps | ${words}\n`);
  const lost = Object.entries(foundPart).filter(([, part]) => part < 0.9).map(([name, part]) => `${name} ${part.toFixed(2)}`);
  if (head !== null) process.stdout.write(`    ${'reason' in head ? head.reason : `focal ${(head.fitted.focalPx / scene.camera.focalPx).toFixed(3)} noise ×${head.noiseTimes.toFixed(1)} residual ${head.residualPx.toFixed(2)} alike ${head.alike.toFixed(2)} depth ${head.fitted.rimDepthMm.toFixed(1)}, ${head.landmarks.length} landmarks, aside ${head.setAside.join(' ') || '–'}`}${lost.length > 0 ? `; seen little: ${lost.join(', ')}` : ''}\n`);
  else if (lost.length > 0) process.stdout.write(`    seen little: ${lost.join(', ')}\n`);
  return result;
}

function short({ count, rms, sd, covered }: Summary): string {
  return count === 0 ? '–' : `${rms.toFixed(2)}±${sd.toFixed(2)} ${(100 * covered).toFixed(0)}%`;
}

function tell(kind: FilmKind, all: readonly Result[]): void {
  const notes = all.flatMap((one) => one.notes);
  const line = (name: string, offs: readonly (Off | null)[], unit: string): void => {
    const { count, rms, bias, sd, covered } = summaryOf(offs);
    if (count > 0) process.stdout.write(`  ${name.padEnd(10)} ${String(count).padStart(4)} readings  rms ${rms.toFixed(3)} ${unit}  bias ${bias.toFixed(3)}  told ${sd.toFixed(3)}  within 95 %: ${(100 * covered).toFixed(1)} %\n`);
  };
  process.stdout.write(`${kind}: ${all.length} films\n`);
  const travels = notes.flatMap(({ up, right }) => (up && right ? [{ error: Math.hypot(up.error, right.error), sd: Math.hypot(up.sd, right.sd) }] : []));
  if (travels.length > 0) process.stdout.write(`  travel     ${String(travels.length).padStart(4)} readings  rms ${summaryOf(travels).rms.toFixed(3)} mm (both ways together)\n`);
  line('up', notes.map(({ up }) => up), 'mm');
  line('right', notes.map(({ right }) => right), 'mm');
  line('elevation', notes.map(({ elevation }) => elevation), 'deg');
  line('lateral', notes.map(({ lateral }) => lateral), 'deg');
  const cents = notes.flatMap(({ centsOff }) => (centsOff === null ? [] : [Math.abs(centsOff)])).sort((a, b) => a - b);
  const edges = notes.flatMap(({ startOffS, endOffS }) => [Math.abs(startOffS), Math.abs(endOffS)]);
  const missing = all.reduce((sum, one) => sum + one.missing, 0);
  const extra = all.reduce((sum, one) => sum + one.extra, 0);
  process.stdout.write(`  pitch      median ${cents[cents.length >> 1]?.toFixed(2) ?? '–'} cents; wrong notes ${notes.filter(({ rightNote }) => !rightNote).length} of ${notes.length}, missing ${missing}, extra ${extra}; boundaries over 50 ms: ${edges.filter((one) => one > 0.05).length} of ${edges.length}\n`);
  process.stdout.write(`  speed      ${Math.min(...all.map((one) => one.framesPerSecond)).toFixed(0)} to ${Math.max(...all.map((one) => one.framesPerSecond)).toFixed(0)} frames a second, decoding and following\n`);
}

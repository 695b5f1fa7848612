/**
 * `npm run films:again -- [--unknown] FILE...`: films that were followed once (`films:long --out FILE`) through all that comes after following, with today's code. Beside
 * the errors it tells what they are made of (`--unknown`: nothing is told of the lens): errors in deviations told, root mean square over all, of each film's mean, and about it.
 */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { parseArgs } from 'node:util';
import { type CameraSpec } from '../../src/measure/marks';
import { unknownCamera } from '../../src/measure/camera';
import { headFromFilm } from '../../src/measure/headFromFilm';
import { DIAMETER_SD_MM } from '../../src/measure/pictureResult';
import { steadyFrames } from '../../src/measure/steadySpan';
import { measureTake } from '../../src/measure/takeMeasured';
import { type Off, type TakeOff, summaryOf, takeOff } from '../support/films/measureFilms';
import type { KeptFilm } from './keptFilm';

const QUANTITIES = ['up', 'right', 'elevation', 'lateral'] as const;

const { values: { unknown }, positionals } = parseArgs({ options: { unknown: { type: 'boolean' } }, allowPositionals: true });

for (const file of positionals) {
  const films = JSON.parse(readFileSync(file, 'utf8')) as KeptFilm[];
  const offs = films.map((kept) => ({ seed: kept.seed, ...solved(kept) }));
  process.stdout.write(`${basename(file)}: ${films.length} films\n`);
  for (const { seed, words, off } of offs) {
    process.stdout.write(`  ${seed} ${QUANTITIES.map((name) => short(name, off.notes.map((note) => note[name]))).join(' ')} ${words}\n`);
  }
  for (const name of QUANTITIES) tell(name, offs.map(({ off }) => off.notes.map((note) => note[name])));
}

function solved({ scene, film, trace, facts, notes: told, tuningCents }: KeptFilm): { readonly off: TakeOff; readonly words: string } {
  const notes = told.map(({ note }) => note);
  const known = unknown === true ? null : film.focal;
  const camera: CameraSpec =
    known === null ? unknownCamera(facts.width, facts.height) : { width: facts.width, height: facts.height, focalPx: known.px, focalRelativeSd: known.relativeSd };
  const head = trace.view !== 'front' ? null : headFromFilm({
    trace,
    camera,
    rimDiameterMm: { value: scene.rim.outerDiameterMm, sd: DIAMETER_SD_MM },
    hornMarkMm: film.anchors.find(({ marks }) => marks.hornMarkMm !== undefined)?.marks.hornMarkMm,
    steady: steadyFrames(trace.frames.map(({ timeS }) => timeS), notes),
  });
  const taken = measureTake([{ trace, head, camera, offsetS: 0 }], notes, scene.notes[scene.home]!.midi);
  const off = takeOff(scene, taken.notes, tuningCents);
  if (head === null) return { off, words: '' };
  if (head.kind === 'not-found') return { off, words: head.reason };
  const { fitted, noiseTimes, marksTimes, rimTimes, rimAlike, residualPx, alike, landmarks, setAside } = head;
  return { off, words: `focal ${(fitted.focalPx / scene.camera.focalPx).toFixed(3)} noise ×${noiseTimes.toFixed(1)} scatter ×${Math.sqrt(marksTimes).toFixed(2)} rim ×${rimTimes.toFixed(2)} residual ${residualPx.toFixed(2)} alike ${alike.toFixed(2)} ${rimAlike.toFixed(2)} depth ${fitted.rimDepthMm.toFixed(1)}, ${landmarks.length} landmarks, aside ${setAside.join(' ') || '–'}` };
}

function short(name: string, offs: readonly (Off | null)[]): string {
  const { count, rms, sd, covered } = summaryOf(offs);
  return count === 0 ? '' : `${name} ${rms.toFixed(2)}±${sd.toFixed(2)} ${(100 * covered).toFixed(0)}%`;
}

function tell(name: string, films: readonly (readonly (Off | null)[])[]): void {
  const all = films.flat();
  const { count, rms, bias, sd, covered } = summaryOf(all);
  if (count === 0) return;
  // What is common to a film's notes shows in the film's mean, what each note has by itself about it.
  const ofFilms = films.map((film) => film.flatMap((one) => (one === null ? [] : [one.error / one.sd]))).filter(({ length }) => length > 1);
  const means = ofFilms.map((film) => film.reduce((sum, each) => sum + each, 0) / film.length);
  const about = ofFilms.flatMap((film, at) => film.map((each) => (each - means[at]!) * Math.sqrt(film.length / (film.length - 1))));
  const square = (values: readonly number[]): string => Math.sqrt(values.reduce((sum, each) => sum + each * each, 0) / values.length).toFixed(2);
  process.stdout.write(`  ${name.padEnd(10)} ${String(count).padStart(4)} readings  rms ${rms.toFixed(3)}  bias ${bias.toFixed(3)}  told ${sd.toFixed(3)}  within 95 %: ${(100 * covered).toFixed(1)} %  in deviations ${square(ofFilms.flat())}, of films ${square(means)}, within ${square(about)}\n`);
}

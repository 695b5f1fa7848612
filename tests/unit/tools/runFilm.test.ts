/** Arguments of `npm run film`: what is asked for, and one line for whatever is wrong. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { filmCommand, filmCsv } from '../../tools/runFilm';

const folder = mkdtempSync(join(tmpdir(), 'rimpath-film-'));
afterAll(() => rmSync(folder, { recursive: true }));
const written = (name: string, text: string): string => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
const film = written('front.mp4', 'stands for a film');
const marks = { view: 'front', timeS: 1.2, hornMarkMm: { value: 42, sd: 0.5 }, marks: { rim: [{ x: 1, y: 2 }], landmarks: { 'nose-bridge': { x: 600, y: 200 } } } };
const marked = written('front.json', JSON.stringify(marks));
const GOOD = ['--film', film, '--marks', marked, '--rim', '17,27', '--home', 'Bb3', '--instrument', 'trumpet'];

describe('the film command', () => {
  it('takes films with their marks, rim, home and instrument', () => {
    const command = filmCommand([...GOOD, '--focal-mm', '28', '--csv']);
    if (command.kind === 'refused') throw new Error(command.message);
    expect(command).toMatchObject({ files: [film], csv: true });
    expect(command.asked).toMatchObject({ rim: { innerDiameterMm: 17, outerDiameterMm: 27 }, homeMidi: 58, range: { lowMidi: 52, highMidi: 82 } });
    expect(command.asked.films).toMatchObject([{ view: 'front', focal: { equivalentMm: 28 }, anchors: [{ timeS: 1.2, marks: { hornMarkMm: { value: 42, sd: 0.5 } } }] }]);
  });

  it('takes several marked frames, and says nothing of the lens where nothing is known', () => {
    const { timeS, marks: one, view } = marks;
    const several = written('several.json', JSON.stringify({ view, anchors: [{ timeS, marks: one }, { timeS: 3, marks: one }] }));
    const command = filmCommand(GOOD.map((word) => (word === marked ? several : word)));
    if (command.kind === 'refused') throw new Error(command.message);
    expect(command.asked.films).toMatchObject([{ focal: null, anchors: [{ timeS: 1.2 }, { timeS: 3 }] }]);
  });

  it.each([
    ['no film', [], /0 films, 0 marks/],
    ['a film without marks', ['--film', film], /1 films, 0 marks/],
    ['an unknown word', [...GOOD, '--speed', '2'], /--speed/],
    ['no such film', GOOD.map((word) => (word === film ? '/nowhere/a.mp4' : word)), /nowhere\/a\.mp4: no such file/],
    ['a folder', GOOD.map((word) => (word === film ? folder : word)), /is no file/],
    ['marks that are no JSON', GOOD.map((word) => (word === marked ? film : word)), /is no JSON/],
    ['a view there is none of', GOOD.map((word) => (word === marked ? written('behind.json', JSON.stringify({ ...marks, view: 'behind' })) : word)), /behind\.json: /],
    ['a landmark there is none of', GOOD.map((word) => (word === marked ? written('chin.json', JSON.stringify({ ...marks, marks: { landmarks: { chin: { x: 1, y: 2 } } } })) : word)), /chin/],
    ['a rim the wrong way round', GOOD.map((word) => (word === '17,27' ? '27,17' : word)), /--rim 27,17/],
    ['a home that is no note', GOOD.map((word) => (word === 'Bb3' ? 'H' : word)), /--home H/],
    ['an instrument there is none of', GOOD.map((word) => (word === 'trumpet' ? 'kazoo' : word)), /--instrument kazoo; allowed: .*trumpet/],
    ['a lens there is none of', [...GOOD, '--focal-mm', '0'], /--focal-mm 0; allowed/],
  ] as [string, string[], RegExp][])('refuses %s in one line', (_, words, message) => {
    const command = filmCommand(words);
    expect(command.kind === 'refused' ? command.message : '').toMatch(message);
    expect(command.kind === 'refused' ? command.message : '\n').not.toContain('\n');
  });

  it('writes the notes as comma-separated lines', () => {
    const note = { startS: 0.5, endS: 1, midi: 58, cents: 1.23456 };
    const csv = filmCsv({
      kind: 'measured', films: [], tuningCents: null, hearMs: 0,
      notes: [{ note, short: false, travel: { upMm: 1.5, rightMm: -0.25, sdMm: 0.1, rightSdMm: 0.3, frames: 9 }, elevation: { value: -12, sd: 1, frames: 9 }, lateral: 'lost', lostPart: 0 }],
    });
    expect(csv.split('\n')).toEqual([
      'startS,endS,midi,cents,travelUpMm,travelRightMm,travelSdMm,travelRightSdMm,elevationDeg,elevationSdDeg,lateralDeg,lateralSdDeg', '0.5,1,58,1.235,1.5,-0.25,0.1,0.3,-12,1,,', '',
    ]);
  });
});

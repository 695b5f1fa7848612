/** What a film shows and sounds at which time; its sound and the WAV file around it; where its words stand. */
import { PitchDetector } from 'pitchy';
import { describe, expect, test } from 'vitest';
import { hertz } from '../../../src/core/pitch';
import { captionLines, captionedLayout, captionedSvg } from '../../../src/pictures/captionedPicture';
import { type FilmCourse, filmMoments, filmNotes, filmSeconds } from '../../../src/pictures/filmPlan';
import { SOUND_RATE, toneSteps } from '../../../src/pictures/toneSamples';
import { wavFile } from '../../../src/pictures/wavFile';
import { expectWithin } from '../../support/expectWithin';

const course: FilmCourse = { lowMidi: 60, highMidi: 72, notes: [60, 64, 67, 72, 64], rising: 'up', falling: 'down', andBack: true, passS: 6, restS: 1 };

describe('the course of a film', () => {
  test('frames at k / 30 from the lowest note to the highest and back, still at both ends', () => {
    const moments = filmMoments(course);
    expect(moments.length).toBe(14 * 30);
    moments.forEach(({ timeS }, frame) => expectWithin(timeS, frame / 30, { abs: 1e-12 }));
    const at = (timeS: number) => moments[Math.round(timeS * 30)]!;
    expect([at(0).midi, at(0.9).midi, at(7).midi, at(13).midi, moments.at(-1)!.midi]).toEqual([60, 60, 72, 60, 60]);
    // Half of a pass is half of the way, the turn at each end soft.
    expectWithin(at(4).midi, 66, { abs: 1e-9 });
    expectWithin(at(2.5).midi, 60 + 12 * (0.5 - 0.5 * Math.SQRT1_2), { abs: 1e-9 });
    expect([at(6.5).direction, at(7.5).direction]).toEqual(['up', 'down']);
    expectWithin(filmSeconds({ ...course, andBack: false }), 8, { abs: 0 });
  });

  test('each note sounds when the path is at it', () => {
    const notes = filmNotes(course);
    expect(notes.map(({ midi }) => midi)).toEqual([60, 64, 67, 72, 67, 64, 60]);
    for (const { atS, midi } of notes.slice(1)) {
      const moment = filmMoments(course, 1000)[Math.round(atS * 1000)]!;
      expectWithin(moment.midi, midi, { abs: 0.01 }, `note ${midi}`);
    }
    notes.slice(1).forEach((note, at) => expect(note.atS).toBeGreaterThan(notes[at]!.atS));
    for (const { atS, seconds } of notes) expect(atS + seconds).toBeLessThanOrEqual(14 + 1e-9);
  });
});

describe('the sound', () => {
  const notes = [{ atS: 0.1, midi: 58, seconds: 0.5 }, { atS: 0.8, midi: 70, seconds: 0.5 }, { atS: 1.1, midi: 74, seconds: 0.5 }];
  const samples = whole(toneSteps(notes, 1.8));

  test.each([[0.3, 58], [1.0, 70], [1.4, 74]])('at %f s a pitch detector of others hears MIDI %i', (atS, midi) => {
    const detector = PitchDetector.forFloat32Array(4096);
    const [pitch, clarity] = detector.findPitch(samples.slice(atS * SOUND_RATE, atS * SOUND_RATE + 4096), SOUND_RATE);
    expect(clarity).toBeGreaterThan(0.95);
    expectWithin(1200 * Math.log2(pitch / hertz(midi)), 0, { abs: 3 }, 'cents');
  });

  test('is silent before and after, never steps, and stays well below full scale', () => {
    const loudest = (from: number, to: number): number => samples.slice(from * SOUND_RATE, to * SOUND_RATE).reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    expect(loudest(0, 0.099)).toBe(0);
    expect(loudest(0.7, 0.79)).toBeLessThan(0.01);
    expect(loudest(1.72, 1.8)).toBeLessThan(0.01);
    expect(loudest(0.2, 0.5)).toBeGreaterThan(0.1);
    expect(loudest(0, 1.8)).toBeLessThanOrEqual(0.25);
    const steepest = samples.reduce((most, value, at) => Math.max(most, Math.abs(value - (samples[at - 1] ?? 0))), 0);
    expect(steepest).toBeLessThan(0.06);
  });

  test('as a WAV file', () => {
    const bytes = wavFile(Float32Array.of(0, 0.5, -1, 2), 48_000);
    const view = new DataView(bytes.buffer);
    const text = (at: number, length: number): string => String.fromCharCode(...bytes.slice(at, at + length));
    expect([text(0, 4), text(8, 8), text(36, 4)]).toEqual(['RIFF', 'WAVEfmt ', 'data']);
    expect([view.getUint32(4, true), view.getUint16(20, true), view.getUint16(22, true), view.getUint32(24, true), view.getUint32(28, true), view.getUint16(34, true), view.getUint32(40, true)])
      .toEqual([bytes.length - 8, 1, 1, 48_000, 96_000, 16, 8]);
    expect([0, 1, 2, 3].map((at) => view.getInt16(44 + 2 * at, true))).toEqual([0, 16_384, -32_767, 32_767]);
  });
});

describe('the caption', () => {
  const measure = (text: string, _weight: number, size: number): number => text.length * size * 0.5;

  test.each([320, 1280, 3840])('of a picture %i wide lies below it, within its edges', (widthPx) => {
    const layout = captionedLayout(widthPx);
    expect([layout.widthPx % 2, layout.heightPx % 2, layout.pictureHeightPx % 2]).toEqual([0, 0, 0]);
    const words = 'At B♭4 the rim is 3.1 mm up and 1.2 mm to the player’s right of home. From the horn angle at home, the head would tip 3.0° forward and turn 2.2° to the left.';
    for (const { text, x, y, size, weight } of captionLines(layout, { note: 'B♭4', words, title: 'Some label' }, measure)) {
      expect(y - size).toBeGreaterThanOrEqual(layout.pictureHeightPx - 1);
      expect(y + size * 0.25).toBeLessThanOrEqual(layout.heightPx);
      expect(x + measure(text, weight, size)).toBeLessThanOrEqual(layout.widthPx);
    }
  });

  test('keeps words from outside words', () => {
    const svg = captionedSvg(captionedLayout(640), '', { note: '<b>', words: 'a & "b"\u0000', title: '</svg><script>' }, { background: '#fff', ink: '#000', muted: '#555', hairline: '#ddd', accent: '#060' }, measure);
    expect(svg).not.toMatch(/<script|<b>|\u0000/);
    expect(svg).toContain('&lt;b&gt;');
  });
});

function whole(steps: Generator<number, Float32Array>): Float32Array {
  for (;;) {
    const step = steps.next();
    if (step.done === true) return step.value;
  }
}

/** Exercise files made byte by byte, for tests. */
import { strToU8, zipSync } from 'fflate';

const ascii = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));
const big = (value: number, bytes: number): number[] => Array.from({ length: bytes }, (_, index) => (value >> (8 * (bytes - 1 - index))) & 0xff);
const chunk = (id: string, data: readonly number[]): number[] => [...ascii(id), ...big(data.length, 4), ...data];

/** A Standard MIDI File; each track is its events' bytes. */
export function midiFile(format: 0 | 1, tracks: readonly (readonly number[])[]): Uint8Array {
  return Uint8Array.from([...chunk('MThd', [...big(format, 2), ...big(tracks.length, 2), ...big(96, 2)]), ...tracks.flatMap((track) => chunk('MTrk', track))]);
}

/** One track that plays the notes one after the other, with a name. */
export function midiTrack(name: string, midis: readonly number[]): number[] {
  const notes = midis.flatMap((midi) => [0x00, 0x90, midi, 0x40, 0x60, 0x80, midi, 0x40]);
  return [0x00, 0xff, 0x03, name.length, ...ascii(name), ...notes, 0x00, 0xff, 0x2f, 0x00];
}

const FIRST = '<?xml version="1.0" encoding="UTF-8"?>';
const DOCTYPE = '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">';

/** A score of one part, "Trumpet", with these elements in one measure. */
export function musicXml(measure: string, head = '<work><work-title>Slow &amp; even</work-title></work>'): string {
  return `${FIRST}\n${DOCTYPE}\n<score-partwise version="4.0">${head}<part-list><score-part id="P1"><part-name>Trumpet</part-name></score-part></part-list><part id="P1"><measure number="1">${measure}</measure></part></score-partwise>`;
}

/** "Bb4" as a quarter note; `inside` goes into the note element. */
export function xmlNote(name: string, inside = ''): string {
  const [, step, sign, octave] = /^([A-G])(#|b)?(\d)$/.exec(name) ?? [];
  const alter = sign === undefined ? '' : `<alter>${sign === '#' ? 1 : -1}</alter>`;
  return `<note><pitch><step>${step ?? ''}</step>${alter}<octave>${octave ?? ''}</octave></pitch><duration>1</duration>${inside}</note>`;
}

export function mxlFile(files: Readonly<Record<string, string>>): Uint8Array<ArrayBuffer> {
  return zipSync(Object.fromEntries(Object.entries(files).map(([path, text]) => [path, strToU8(text)])));
}

export const MXL_CONTAINER = `${FIRST}<container><rootfiles><rootfile full-path="score.musicxml"/></rootfiles></container>`;

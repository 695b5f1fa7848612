/**
 * The three ways in which players name notes, each read and shown by its own rules; the record keeps scientific names.
 *
 * Scientific: B♭3, F♯4; C4 is middle C.
 * German: H is B natural, B is B flat, -is raises and -es lowers (Cis, Es, As, Fisis, Heses). Shown with a capital and the
 *   scientific octave: H3, B3, Cis4. Typed also as Germans write octaves, and the first letter's case tells which is meant:
 *   a capital with a number is the scientific octave (C4 is middle C); a small letter counts strokes, written as marks or as a
 *   number (c, c', c'', c1, c2; c' and c1 are middle C); a capital alone is the great octave, commas before or after go below it
 *   (C, ,C, C,,); lowered figures count those commas (C₁). A sign instead of the ending (F#4, E♭4) is taken, but not after B.
 * Solfège: fixed do, with the signs ♯ and ♭: Do4 is middle C, La4 is 440 Hz; Si and Ti are the same. The octave is the
 *   scientific one; some countries count one lower.
 * Sources: the German names and octaves as in any German theory primer (value from memory); octave numbers: scientific pitch.
 */
import { sayCore } from '../words/core';
import { isNote, noNote, noteAllowed } from './pitch';

export const NOTE_NAMINGS = ['scientific', 'german', 'solfège'] as const;
export type NoteNaming = (typeof NOTE_NAMINGS)[number];

/** What may be typed, for a sentence that begins "Allowed:". */
export const NOTE_NAMES_ALLOWED: Readonly<Record<NoteNaming, string>> = {
  get scientific() {
    return noteAllowed();
  },
  get german() {
    return sayCore('noteGerman');
  },
  get solfège() {
    return sayCore('noteSolfege');
  },
};

/** How names are shown and read: in which naming, and how far the written name lies above the sounding one. */
export interface NoteStyle {
  readonly naming: NoteNaming;
  readonly transpositionSemitones: number;
}

/**
 * A sounding note's name in the style, with the printed signs ♯ and ♭. The spelling is kept, through a transposition too
 * (F♯ a tone up is G♯), as long as two accidentals are enough for it. Throws RangeError where `note` is none.
 */
export function namedNote(note: string, style: NoteStyle): string {
  const parts = isNote(note) ? scientificParts(note) : null;
  if (parts === null) throw noNote(note);
  return shownParts(transposed(parts, style.transpositionSemitones), style.naming);
}

/** The sounding note that a name stands for, in scientific ASCII ('Bb3'); null where the text is no name of this naming or out of range. */
export function noteNamed(text: string, style: NoteStyle): string | null {
  const parts = readers[style.naming](text.trim().replaceAll('\u2212', '-'));
  if (parts === null) return null;
  const note = scientificName(transposed(parts, -style.transpositionSemitones));
  return isNote(note) ? note : null;
}

/** A note moved by semitones with its spelling, as scientific ASCII; null where it leaves the range. Throws RangeError where `note` is none. */
export function movedNote(note: string, semitones: number): string | null {
  const parts = isNote(note) ? scientificParts(note) : null;
  if (parts === null) throw noNote(note);
  const moved = scientificName(transposed(parts, semitones));
  return isNote(moved) ? moved : null;
}

/** A spelled note: step 0 (C) to 6 (B), sharps (+) or flats (−), scientific octave. */
interface NoteParts {
  readonly step: number;
  readonly sharps: number;
  readonly octave: number;
}

const LETTERS = ['C', 'D', 'E', 'F', 'G', 'A', 'B'] as const;
const SYLLABLES = ['Do', 'Re', 'Mi', 'Fa', 'Sol', 'La', 'Si'] as const;
const STEP_SEMITONES = [0, 2, 4, 5, 7, 9, 11] as const;
/** Steps for 0 to 11 semitones: the interval that written parts use, a diminished fifth for six. */
const INTERVAL_STEPS = [0, 1, 1, 2, 2, 3, 4, 4, 5, 5, 6, 6] as const;
const MOST_SHARPS = 2;
/** Flats as in C, Db, D, Eb … for what two accidentals cannot spell. */
const PLAIN: readonly (readonly [step: number, sharps: number])[] = [
  [0, 0], [1, -1], [1, 0], [2, -1], [2, 0], [3, 0], [4, -1], [4, 0], [5, -1], [5, 0], [6, -1], [6, 0],
];
const SIGNS: Readonly<Record<string, number>> = { '': 0, '#': 1, '♯': 1, '##': 2, '♯♯': 2, x: 2, b: -1, '♭': -1, bb: -2, '♭♭': -2 };
const SIGN = '(##|♯♯|bb|♭♭|[#♯b♭x])?';
/** Wider than sounding notes reach, for written names beside the ends. */
const OCTAVE = '(-?\\d{1,2})';
const SCIENTIFIC = new RegExp(`^([A-Ga-g])${SIGN}${OCTAVE}$`);
const SOLFEGE = new RegExp(`^(do|ut|re|ré|mi|fa|sol|so|la|si|ti)${SIGN}${OCTAVE}$`, 'i');
const GERMAN = /^(,*)([A-Ha-h])(isis|is|eses|ses|es|s|##|♯♯|bb|♭♭|[#♯b♭])?(.*)$/;
const HIGHEST_STROKES = 9;

const readers: Readonly<Record<NoteNaming, (text: string) => NoteParts | null>> = {
  scientific: scientificParts,
  german: germanParts,
  solfège: solfegeParts,
};

function scientificParts(text: string): NoteParts | null {
  const [, letter, sign, octave] = SCIENTIFIC.exec(text) ?? [];
  if (letter === undefined) return null;
  const step = LETTERS.indexOf(letter.toUpperCase() as (typeof LETTERS)[number]);
  return { step, sharps: SIGNS[sign ?? '']!, octave: Number(octave) };
}

function solfegeParts(text: string): NoteParts | null {
  const [, syllable, sign, octave] = SOLFEGE.exec(text.normalize('NFC')) ?? [];
  if (syllable === undefined) return null;
  const others: Readonly<Record<string, string>> = { ut: 'do', ré: 're', so: 'sol', ti: 'si' };
  const small = syllable.toLowerCase();
  const step = SYLLABLES.findIndex((name) => name.toLowerCase() === (others[small] ?? small));
  return { step, sharps: SIGNS[(sign ?? '').toLowerCase()]!, octave: Number(octave) };
}

function germanParts(text: string): NoteParts | null {
  const [, before = '', letter, ending = '', rest = ''] = GERMAN.exec(text) ?? [];
  if (letter === undefined) return null;
  const sharps = germanSharps(letter.toUpperCase(), ending);
  const octave = germanOctave(letter, before, rest);
  if (sharps === null || octave === null) return null;
  const upper = letter.toUpperCase();
  const step = LETTERS.indexOf((upper === 'H' ? 'B' : upper) as (typeof LETTERS)[number]);
  return { step, sharps, octave };
}

/** Es and As lose the e of -es. B is already lowered and takes no ending: "Bb" and "Bes" mean different notes to different people. */
function germanSharps(letter: string, ending: string): number | null {
  if (letter === 'B') return ending === '' ? -1 : null;
  const shortened = letter === 'E' || letter === 'A';
  switch (ending) {
    case 'is':
      return 1;
    case 'isis':
      return 2;
    case 'es':
      // "Hes" is the Dutch way round; in German that note is B.
      return shortened || letter === 'H' ? null : -1;
    case 's':
      return shortened ? -1 : null;
    case 'eses':
      return shortened ? null : -2;
    case 'ses':
      return shortened ? -2 : null;
    default:
      return SIGNS[ending] ?? null;
  }
}

function germanOctave(letter: string, before: string, rest: string): number | null {
  const after = rest.replace(/[’′ʹ`´]/g, "'").replace(/[″"]/g, "''").replaceAll('‴', "'''");
  const isCapital = letter === letter.toUpperCase();
  if (!isCapital) {
    if (before !== '') return null;
    if (/^'*$/.test(after)) return after.length <= HIGHEST_STROKES ? 3 + after.length : null;
    const strokes = /^[1-9]$/.test(after) ? Number(after) : '⁰¹²³⁴⁵⁶⁷⁸⁹'.indexOf(after);
    return strokes > 0 ? 3 + strokes : null;
  }
  if (before === '' && /^-?\d{1,2}$/.test(after)) return Number(after);
  const lowered = '₀₁₂₃₄₅₆₇₈₉'.indexOf(after);
  if (before === '' && after !== '' && lowered > 0) return 2 - lowered;
  const commas = before + after;
  return /^,*$/.test(commas) && (before === '' || after === '') && commas.length <= HIGHEST_STROKES ? 2 - commas.length : null;
}

function shownParts({ step, sharps, octave }: NoteParts, naming: NoteNaming): string {
  if (naming === 'german') return `${germanName(step, sharps)}${octave}`;
  const sign = (sharps < 0 ? '♭' : '♯').repeat(Math.abs(sharps));
  return `${(naming === 'solfège' ? SYLLABLES : LETTERS)[step]!}${sign}${octave}`;
}

function germanName(step: number, sharps: number): string {
  const letter = LETTERS[step]!;
  if (letter === 'B' && sharps === -1) return 'B';
  const name = letter === 'B' ? 'H' : letter;
  if (sharps >= 0) return name + 'is'.repeat(sharps);
  const lowered = 'es'.repeat(-sharps);
  return name + (name === 'E' || name === 'A' ? lowered.slice(1) : lowered);
}

function scientificName({ step, sharps, octave }: NoteParts): string {
  return `${LETTERS[step]!}${(sharps < 0 ? 'b' : '#').repeat(Math.abs(sharps))}${octave}`;
}

function transposed(parts: NoteParts, semitones: number): NoteParts {
  if (semitones === 0) return parts;
  const size = Math.abs(semitones);
  const steps = Math.sign(semitones) * (7 * Math.floor(size / 12) + INTERVAL_STEPS[size % 12]!);
  const moved = parts.step + 7 * parts.octave + steps;
  const [step, octave] = [((moved % 7) + 7) % 7, Math.floor(moved / 7)];
  const pitch = semitonesOf(parts) + semitones;
  const sharps = pitch - semitonesOf({ step, sharps: 0, octave });
  if (Math.abs(sharps) <= MOST_SHARPS) return { step, sharps, octave };
  const [plainStep, plainSharps] = PLAIN[((pitch % 12) + 12) % 12]!;
  return { step: plainStep, sharps: plainSharps, octave: Math.floor(pitch / 12) };
}

/** From C0. */
const semitonesOf = ({ step, sharps, octave }: NoteParts): number => 12 * octave + STEP_SEMITONES[step]! + sharps;

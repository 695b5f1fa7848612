/** `film` without the process: arguments in, text and exit status out. The films are measured by the page of the browser tests. */
import { constants, accessSync, readFileSync, statSync } from 'node:fs';
import { parseArgs } from 'node:util';
import * as z from 'zod/mini';
import { isNote, midiOf } from '../../src/core/pitch';
import { isTold } from '../../src/measure/takeReadings';
import { instruments } from '../../src/records/library';
import { marksSchema } from '../../src/records/measuringSchema';
import { oneLine, refusalWords } from '../../src/records/refusal';
import type { TakeAsked, TakeTold } from '../browser/measureFilmPage/page';

export const USAGE =
  'usage: npm run -s film -- --film FILE --marks FILE.json [--film FILE --marks FILE.json ...] --rim INNER,OUTER --home NOTE ' +
  '--instrument NAME [--focal-mm MM] [--csv] [--traces]';

export interface FilmCommand {
  readonly kind: 'asked';
  readonly files: readonly string[];
  readonly csv: boolean;
  readonly asked: TakeAsked;
}

export interface BadCommand {
  readonly kind: 'refused';
  /** One line. */
  readonly message: string;
}

/** What was asked for, its files looked at but not read. */
export function filmCommand(words: readonly string[]): FilmCommand | BadCommand {
  let given;
  try {
    given = parseArgs({ args: [...words], options: OPTIONS }).values;
  } catch (fault) {
    return refused(`arguments: ${fault instanceof Error ? fault.message : 'unreadable'}. ${USAGE}`);
  }
  const { film: files = [], marks: markFiles = [], rim = '', home = '', instrument = '', csv = false, traces = false } = given;
  if (files.length === 0 || files.length > MOST_FILMS || files.length !== markFiles.length) {
    return refused(`arguments: ${files.length} films, ${markFiles.length} marks; allowed: 1 to ${MOST_FILMS} films, each with its marks. ${USAGE}`);
  }
  const sizes = /^([\d.]+),([\d.]+)$/.exec(rim)?.slice(1).map(Number);
  if (!sizes || !(sizes[0]! > 0 && sizes[0]! < sizes[1]! && sizes[1]! <= LARGEST_RIM_MM)) {
    return refused(`--rim ${rim || 'missing'}; allowed: inner and outer diameter in mm, such as 17,27, up to ${LARGEST_RIM_MM}`);
  }
  if (!isNote(home)) return refused(`--home ${home || 'missing'}; allowed: a sounding note such as Bb3`);
  const found = instruments.find(({ id }) => id === instrument);
  if (!found) return refused(`--instrument ${instrument || 'missing'}; allowed: ${instruments.map(({ id }) => id).join(', ')}`);
  const focalMm = given['focal-mm'] === undefined ? null : Number(given['focal-mm']);
  if (focalMm !== null && !(focalMm >= FOCAL_MM[0] && focalMm <= FOCAL_MM[1])) {
    return refused(`--focal-mm ${given['focal-mm']}; allowed: full-frame equivalent in mm, ${FOCAL_MM.join(' to ')}`);
  }
  const films = [];
  for (const [index, name] of files.entries()) {
    const problem = fileProblem(name);
    if (problem !== null) return refused(`${name}: ${problem}`);
    const marks = marksOf(markFiles[index]!);
    if ('message' in marks) return marks;
    films.push({ view: marks.view, anchors: marks.anchors, focal: focalMm === null ? null : { equivalentMm: focalMm, relativeSd: TOLD_RELATIVE_SD } });
  }
  const { low, high } = found.comfortableRange;
  return {
    kind: 'asked',
    files,
    csv,
    asked: {
      films,
      rim: { innerDiameterMm: sizes[0]!, outerDiameterMm: sizes[1]! },
      range: { lowMidi: midiOf(low), highMidi: midiOf(high) },
      homeMidi: midiOf(home),
      traces,
    },
  };
}

/** The notes as comma-separated lines; what is not told is empty. */
export function filmCsv({ notes }: Extract<TakeTold, { kind: 'measured' }>): string {
  const number = (value: number | null): string => (value === null ? '' : String(Math.round(value * 1000) / 1000));
  const lines = notes.map(({ note, travel, elevation, lateral }) => {
    const moved = isTold(travel) ? travel : null;
    const [up, side] = [elevation, lateral].map((one) => (isTold(one) ? one : null));
    return [
      note.startS, note.endS, note.midi, note.cents, moved?.upMm ?? null, moved?.rightMm ?? null, moved?.sdMm ?? null, moved?.rightSdMm ?? null, up?.value ?? null, up?.sd ?? null, side?.value ?? null, side?.sd ?? null,
    ].map(number).join(',');
  });
  return `${[HEADINGS, ...lines].join('\n')}\n`;
}
const HEADINGS = 'startS,endS,midi,cents,travelUpMm,travelRightMm,travelSdMm,travelRightSdMm,elevationDeg,elevationSdDeg,lateralDeg,lateralSdDeg';

const OPTIONS = {
  film: { type: 'string', multiple: true },
  marks: { type: 'string', multiple: true },
  rim: { type: 'string' },
  home: { type: 'string' },
  instrument: { type: 'string' },
  'focal-mm': { type: 'string' },
  csv: { type: 'boolean' },
  traces: { type: 'boolean' },
} as const;
/** From the front, from a side, from above. */
const MOST_FILMS = 3;
const LARGEST_RIM_MM = 60;
/** How well a lens is known from what is printed on it, as the app takes it. */
const TOLD_RELATIVE_SD = 0.03;
/** From a fish-eye to a long tele lens. */
const FOCAL_MM = [10, 400] as const;

const anchorShape = { timeS: z.number().check(z.minimum(0)), marks: marksSchema };
const filmMarksSchema = z.union([
  z.strictObject({ view: z.enum(['front', 'right', 'left', 'above']), hornMarkMm: marksSchema.shape.hornMarkMm, ...anchorShape }),
  z.strictObject({ view: z.enum(['front', 'right', 'left', 'above']), hornMarkMm: marksSchema.shape.hornMarkMm, anchors: z.array(z.strictObject(anchorShape)).check(z.minLength(1)) }),
]);

type FilmMarks = Pick<TakeAsked['films'][number], 'view' | 'anchors'>;

/** `{ view, timeS, marks, hornMarkMm? }`, or with `anchors: [{ timeS, marks }]` where several frames were marked. */
function marksOf(name: string): FilmMarks | BadCommand {
  const problem = fileProblem(name);
  if (problem !== null) return refused(`${name}: ${problem}`);
  let value: unknown;
  try {
    value = JSON.parse(readFileSync(name, 'utf8'));
  } catch {
    return refused(`${name}: is no JSON; allowed: { "view", "timeS", "marks" }`);
  }
  const shape = typeof value === 'object' && value !== null && 'anchors' in value ? 1 : 0;
  const parsed = filmMarksSchema.def.options[shape].safeParse(value);
  if (!parsed.success) return refused(`${name}: ${refusalWords(parsed.error.issues, value)}`);
  const { view, hornMarkMm } = parsed.data;
  const anchors = 'anchors' in parsed.data ? parsed.data.anchors : [{ timeS: parsed.data.timeS, marks: parsed.data.marks }];
  return { view, anchors: anchors.map(({ timeS, marks }) => ({ timeS, marks: { ...marks, ...(hornMarkMm && { hornMarkMm }) } })) };
}

function fileProblem(name: string): string | null {
  try {
    accessSync(name, constants.R_OK);
    return statSync(name).isFile() ? null : 'is no file';
  } catch {
    return 'no such file, or no permission to read it';
  }
}

const refused = (message: string): BadCommand => ({ kind: 'refused', message: oneLine(message) });

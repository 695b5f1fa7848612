/**
 * A reading as a row of cells: each column's name, how its cell is shown, read and put into a reading. The table in the page,
 * what is pasted into it, and tables in files all go through these, so that a text means the same wherever it comes from.
 *
 * Travel and horn are kept as pairs. Of travel's two numbers the one that is empty counts as 0; where the other is 0 or empty
 * too, emptying one takes the travel away, and its deviation with it. Of the horn's two angles the one that is empty was not
 * seen; where the other is empty too there is no horn. The horn's deviation is that of both, or of the one that was seen, until the
 * angle to the right has its own. In a file an angle that nobody saw keeps its number, with the deviation
 * of the unseen beside it, so that the reading comes back as it was.
 *
 * What a reading was measured from (`from`) is no column: a table holds no measurings for it to point to. A cell that is typed or
 * pasted leaves it; a table taken in from a file comes without.
 */
import { UNSEEN_HORN_SD_DEG } from '../core/readings';
import type { ReadingSpec } from '../core/specs';
import { choiceColumn, noteColumn, numberColumn, remarkColumn, shareColumn } from './columnKinds';
import { COLUMN_IDS, type CellStyle, type ColumnId, type ReadingColumn } from './readingCell';
import { hasAngle, withAngle, withAngleSd, withJaw, withTravel, withTravelSd, withValue } from './readingParts';
import {
  EASE,
  FORCE_N,
  HORN_DEG,
  HORN_SD_DEG_RANGE,
  JAW_FORWARD_MM,
  JAW_HINGE_DEG,
  JAW_OPENING_MM,
  TAKE,
  TRAVEL_MM,
  TRAVEL_SD_MM_RANGE,
} from './readingRanges';

const DIRECTION = {
  up: ['ascending', 'up', 'asc', 'rising', 'upward', 'upwards', 'on the way up'],
  down: ['descending', 'down', 'desc', 'falling', 'downward', 'downwards', 'on the way down'],
};
const AIRSTREAM = {
  down: ['down', 'downstream', 'downward', 'downwards'],
  up: ['up', 'upstream', 'upward', 'upwards'],
  unsure: ['not sure', 'unsure', 'unclear'],
};
const METHOD = {
  eye: ['by eye', 'eye'],
  ruler: ['ruler', 'with a ruler', 'by ruler'],
  video: ['video', 'from video', 'by video'],
};

/** In a file's own order. */
export const READING_COLUMNS: readonly ReadingColumn[] = [
  noteColumn(),
  numberColumn({
    ...{ id: 'take', header: 'Take', label: 'take', group: null, unit: '', range: TAKE, places: 0, whole: true },
    synonyms: ['take number', 'take no'],
    get: (reading) => reading.take,
    set: (reading, value) => withValue(reading, 'take', value),
  }),
  choiceColumn({
    ...{ id: 'direction', header: 'Direction', label: 'direction', words: DIRECTION },
    synonyms: ['played'],
    get: (reading) => reading.direction,
    set: (reading, value) => withValue(reading, 'direction', value as ReadingSpec['direction'] | null),
  }),
  numberColumn({
    ...{ id: 'travelUp', header: 'Travel up (mm)', label: 'up', group: 'Travel', unit: 'mm', range: TRAVEL_MM, places: 2, measure: 'travel' },
    synonyms: ['travel vertical'],
    get: (reading) => reading.travel?.upMm,
    set: (reading, value) => withTravel(reading, 'upMm', value),
  }),
  numberColumn({
    ...{ id: 'travelRight', header: 'Travel right (mm)', label: 'right', group: 'Travel', unit: 'mm', range: TRAVEL_MM, places: 2, measure: 'sideways' },
    synonyms: ['travel sideways', 'travel lateral'],
    get: (reading) => reading.travel?.rightMm,
    set: (reading, value) => withTravel(reading, 'rightMm', value),
  }),
  numberColumn({
    ...{ id: 'travelSd', header: 'Travel deviation (mm)', label: 'deviation', group: 'Travel', unit: 'mm', range: TRAVEL_SD_MM_RANGE, places: 3 },
    synonyms: ['travel sd', 'travel standard deviation', 'travel give or take'],
    get: (reading) => reading.travel?.sdMm,
    needs: (reading) => (reading.travel === undefined ? 'empty where no travel is given' : null),
    set: (reading, value) => withTravelSd(reading, value),
  }),
  numberColumn({
    ...{ id: 'hornUp', header: 'Horn up (°)', label: 'up', group: 'Horn', unit: '°', range: HORN_DEG, places: 1 },
    synonyms: ['horn elevation', 'elevation'],
    get: (reading) => reading.horn?.elevationDeg,
    isUnseen: (reading) => !hasAngle(reading, 'elevationDeg'),
    set: (reading, value) => withAngle(reading, 'elevationDeg', value),
  }),
  numberColumn({
    ...{ id: 'hornRight', header: 'Horn right (°)', label: 'right', group: 'Horn', unit: '°', range: HORN_DEG, places: 1 },
    synonyms: ['horn lateral', 'horn sideways', 'lateral'],
    get: (reading) => reading.horn?.lateralDeg,
    isUnseen: (reading) => !hasAngle(reading, 'lateralDeg'),
    set: (reading, value) => withAngle(reading, 'lateralDeg', value),
  }),
  numberColumn({
    ...{ id: 'hornSd', header: 'Horn deviation (°)', label: 'deviation', group: 'Horn', unit: '°', range: HORN_SD_DEG_RANGE, places: 3 },
    synonyms: ['horn sd', 'horn standard deviation', 'horn give or take', 'horn angle give or take'],
    get: (reading) => reading.horn?.sdDeg,
    isUnseen: (reading) => !hasAngle(reading, 'elevationDeg'),
    needs: (reading) => (hasAngle(reading, 'elevationDeg') || hasAngle(reading, 'lateralDeg') ? null : 'empty where no horn angle is given'),
    set: (reading, value) => withAngleSd(reading, 'sdDeg', value),
  }),
  choiceColumn({
    ...{ id: 'airstream', header: 'Airstream', label: 'airstream', words: AIRSTREAM },
    synonyms: ['air', 'air stream', 'airstream seen'],
    get: (reading) => reading.airstream,
    set: (reading, value) => withValue(reading, 'airstream', value as ReadingSpec['airstream'] | null),
  }),
  shareColumn({
    ...{ id: 'upperLipShare', header: 'Upper-lip share', label: 'upper-lip share' },
    synonyms: ['upper lip', 'upper lip s share', 'share'],
    get: (reading) => reading.upperLipShare,
    set: (reading, value) => withValue(reading, 'upperLipShare', value),
  }),
  numberColumn({
    ...{ id: 'ease', header: 'Ease', label: 'ease', group: null, unit: '', range: EASE, places: 0, whole: true },
    synonyms: ['ease 1 to 5', 'ease 1 5', 'ease of speaking'],
    get: (reading) => reading.ease,
    set: (reading, value) => withValue(reading, 'ease', value),
  }),
  remarkColumn(),
  choiceColumn({
    ...{ id: 'method', header: 'Measured', label: 'measured', words: METHOD },
    synonyms: ['method', 'measured by', 'how measured'],
    get: (reading) => reading.method,
    set: (reading, value) => withValue(reading, 'method', value as ReadingSpec['method'] | null),
  }),
  numberColumn({
    ...{ id: 'jawOpening', header: 'Jaw opening (mm)', label: 'opening', group: 'Jaw', unit: 'mm', range: JAW_OPENING_MM, places: 2 },
    synonyms: ['jaw open'],
    get: (reading) => reading.jaw?.openingMm,
    set: (reading, value) => withJaw(reading, 'openingMm', value),
  }),
  numberColumn({
    ...{ id: 'jawForward', header: 'Jaw forward (mm)', label: 'forward', group: 'Jaw', unit: 'mm', range: JAW_FORWARD_MM, places: 2 },
    synonyms: ['jaw to the front'],
    get: (reading) => reading.jaw?.forwardMm,
    set: (reading, value) => withJaw(reading, 'forwardMm', value),
  }),
  numberColumn({
    ...{ id: 'jawHinge', header: 'Jaw turned (°)', label: 'turned', group: 'Jaw', unit: '°', range: JAW_HINGE_DEG, places: 2 },
    synonyms: ['jaw turned open', 'jaw hinge', 'jaw angle'],
    get: (reading) => reading.jaw?.hingeDeg,
    set: (reading, value) => withJaw(reading, 'hingeDeg', value),
  }),
  numberColumn({
    ...{ id: 'force', header: 'Force (N)', label: 'force', group: null, unit: 'N', range: FORCE_N, places: 1, aboveLeast: true },
    synonyms: ['force on the rim', 'newtons'],
    get: (reading) => reading.force?.newtons,
    set: (reading, value) => withValue(reading, 'force', value === null ? null : { newtons: value }),
  }),
  numberColumn({
    ...{ id: 'hornRightSd', header: 'Horn right deviation (°)', label: 'deviation of right', group: 'Horn', unit: '°', range: HORN_SD_DEG_RANGE, places: 3 },
    synonyms: ['horn right sd', 'horn lateral deviation', 'horn lateral sd', 'horn right give or take'],
    get: (reading) => reading.horn?.lateralSdDeg,
    isUnseen: (reading) => !hasAngle(reading, 'lateralDeg'),
    needs: (reading) => {
      if (reading.horn === undefined) return 'empty where no horn angle is given';
      // A file tells of an unseen elevation first, and until then that deviation stands for both.
      return reading.horn.lateralSdDeg === UNSEEN_HORN_SD_DEG ? 'empty where the horn’s angle to the right was not seen' : null;
    },
    set: (reading, value) => withAngleSd(reading, 'lateralSdDeg', value),
  }),
];

const byId = new Map(READING_COLUMNS.map((column) => [column.id, column]));

export function readingColumn(id: ColumnId): ReadingColumn {
  const column = byId.get(id);
  if (column === undefined) throw new RangeError(`column: ${id}; allowed: ${COLUMN_IDS.join(', ')}`);
  return column;
}

export type CellEdit =
  | { readonly kind: 'reading'; readonly reading: ReadingSpec }
  | { readonly kind: 'wrong'; readonly text: string; readonly allowed: string };

/** What was typed into one cell, put into its reading; a wrong text changes nothing and is given back with what is allowed. */
export function withCell(reading: ReadingSpec, id: ColumnId, text: string, style: CellStyle): CellEdit {
  const column = readingColumn(id);
  const cell = column.read(text, style);
  if (cell.kind === 'wrong') return { kind: 'wrong', text, allowed: cell.allowed };
  if (id === 'note' && cell.value === null) return { kind: 'wrong', text, allowed: column.allowed(style) };
  const refusal = cell.value === null ? null : column.refuses(reading);
  if (refusal !== null) return { kind: 'wrong', text, allowed: refusal };
  return { kind: 'reading', reading: column.set(reading, cell.value) };
}

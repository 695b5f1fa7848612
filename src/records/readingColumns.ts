/**
 * A reading as a row of cells: each column's name, how its cell is shown, read and put into a reading. The table in the page,
 * what is pasted into it, and tables in files all go through these, so that a text means the same wherever it comes from.
 *
 * Travel and horn are kept as pairs. Of travel's two numbers the one that is empty counts as 0; where the other is 0 or empty
 * too, emptying one takes the travel away, and its deviations with it; its deviation is that of both until the one to the right has its
 * own. Of the horn's two angles the one that is empty was not
 * seen; where the other is empty too there is no horn. The horn's deviation is that of both, or of the one that was seen, until the
 * angle to the right has its own. In a file an angle that nobody saw keeps its number, with the deviation
 * of the unseen beside it, so that the reading comes back as it was.
 *
 * What a reading was measured from (`from`) is no column: a table holds no measurings for it to point to. A cell that is typed or
 * pasted leaves it; a table taken in from a file comes without.
 */
import { UNSEEN_HORN_SD_DEG } from '../core/readings';
import type { ReadingSpec } from '../core/specs';
import { sayRecords } from '../words/records';
import { choiceColumn, noteColumn, numberColumn, remarkColumn, shareColumn } from './columnKinds';
import { AIRSTREAM, DIRECTION, METHOD } from './cellWords';
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

/** In a file's own order. */
export const READING_COLUMNS: readonly ReadingColumn[] = [
  noteColumn(),
  numberColumn({
    ...{ id: 'take', group: null, unit: '', range: TAKE, places: 0, whole: true },
    names: ['take', 'take number', 'take no', 'durchgang'],
    get: (reading) => reading.take,
    set: (reading, value) => withValue(reading, 'take', value),
  }),
  choiceColumn({
    ...{ id: 'direction', words: DIRECTION },
    wordOf: (value) => sayRecords(`direction-${value}`),
    names: ['direction', 'played', 'richtung'],
    get: (reading) => reading.direction,
    set: (reading, value) => withValue(reading, 'direction', value as ReadingSpec['direction'] | null),
  }),
  numberColumn({
    ...{ id: 'travelUp', group: 'Travel', unit: 'mm', range: TRAVEL_MM, places: 2, measure: 'travel' },
    names: ['travel up', 'travel vertical', 'weg nach oben', 'weg oben'],
    get: (reading) => reading.travel?.upMm,
    set: (reading, value) => withTravel(reading, 'upMm', value),
  }),
  numberColumn({
    ...{ id: 'travelRight', group: 'Travel', unit: 'mm', range: TRAVEL_MM, places: 2, measure: 'sideways' },
    names: ['travel right', 'travel sideways', 'travel lateral', 'weg nach rechts', 'weg rechts'],
    get: (reading) => reading.travel?.rightMm,
    set: (reading, value) => withTravel(reading, 'rightMm', value),
  }),
  numberColumn({
    ...{ id: 'travelSd', group: 'Travel', unit: 'mm', range: TRAVEL_SD_MM_RANGE, places: 3 },
    names: ['travel deviation', 'travel sd', 'travel standard deviation', 'travel give or take', 'abweichung des wegs'],
    get: (reading) => reading.travel?.sdMm,
    needs: (reading) => (reading.travel === undefined ? sayRecords('needsTravel') : null),
    set: (reading, value) => withTravelSd(reading, 'sdMm', value),
  }),
  numberColumn({
    ...{ id: 'hornUp', group: 'Horn', unit: '°', range: HORN_DEG, places: 1 },
    names: ['horn up', 'horn elevation', 'elevation', 'instrument nach oben'],
    get: (reading) => reading.horn?.elevationDeg,
    isUnseen: (reading) => !hasAngle(reading, 'elevationDeg'),
    set: (reading, value) => withAngle(reading, 'elevationDeg', value),
  }),
  numberColumn({
    ...{ id: 'hornRight', group: 'Horn', unit: '°', range: HORN_DEG, places: 1 },
    names: ['horn right', 'horn lateral', 'horn sideways', 'lateral', 'instrument nach rechts'],
    get: (reading) => reading.horn?.lateralDeg,
    isUnseen: (reading) => !hasAngle(reading, 'lateralDeg'),
    set: (reading, value) => withAngle(reading, 'lateralDeg', value),
  }),
  numberColumn({
    ...{ id: 'hornSd', group: 'Horn', unit: '°', range: HORN_SD_DEG_RANGE, places: 3 },
    names: ['horn deviation', 'horn sd', 'horn standard deviation', 'horn give or take', 'horn angle give or take', 'abweichung des instruments'],
    get: (reading) => reading.horn?.sdDeg,
    isUnseen: (reading) => !hasAngle(reading, 'elevationDeg'),
    needs: (reading) => (hasAngle(reading, 'elevationDeg') || hasAngle(reading, 'lateralDeg') ? null : sayRecords('needsHorn')),
    set: (reading, value) => withAngleSd(reading, 'sdDeg', value),
  }),
  choiceColumn({
    ...{ id: 'airstream', words: AIRSTREAM },
    wordOf: (value) => sayRecords(`airstream-${value}`),
    names: ['airstream', 'air', 'air stream', 'airstream seen', 'luftstrom'],
    get: (reading) => reading.airstream,
    set: (reading, value) => withValue(reading, 'airstream', value as ReadingSpec['airstream'] | null),
  }),
  shareColumn({
    id: 'upperLipShare',
    names: ['upper lip share', 'upper lip', 'upper lip s share', 'share', 'oberlippenanteil'],
    get: (reading) => reading.upperLipShare,
    set: (reading, value) => withValue(reading, 'upperLipShare', value),
  }),
  numberColumn({
    ...{ id: 'ease', group: null, unit: '', range: EASE, places: 0, whole: true },
    names: ['ease', 'ease 1 to 5', 'ease 1 5', 'ease of speaking', 'ansprache'],
    get: (reading) => reading.ease,
    set: (reading, value) => withValue(reading, 'ease', value),
  }),
  remarkColumn(),
  choiceColumn({
    ...{ id: 'method', words: METHOD },
    wordOf: (value) => sayRecords(`method-${value}`),
    names: ['measured', 'method', 'measured by', 'how measured', 'gemessen'],
    get: (reading) => reading.method,
    set: (reading, value) => withValue(reading, 'method', value as ReadingSpec['method'] | null),
  }),
  numberColumn({
    ...{ id: 'jawOpening', group: 'Jaw', unit: 'mm', range: JAW_OPENING_MM, places: 2 },
    names: ['jaw opening', 'jaw open', 'kieferöffnung'],
    get: (reading) => reading.jaw?.openingMm,
    set: (reading, value) => withJaw(reading, 'openingMm', value),
  }),
  numberColumn({
    ...{ id: 'jawForward', group: 'Jaw', unit: 'mm', range: JAW_FORWARD_MM, places: 2 },
    names: ['jaw forward', 'jaw to the front', 'kiefer nach vorn'],
    get: (reading) => reading.jaw?.forwardMm,
    set: (reading, value) => withJaw(reading, 'forwardMm', value),
  }),
  numberColumn({
    ...{ id: 'jawHinge', group: 'Jaw', unit: '°', range: JAW_HINGE_DEG, places: 2 },
    names: ['jaw turned', 'jaw turned open', 'jaw hinge', 'jaw angle', 'kiefer gedreht'],
    get: (reading) => reading.jaw?.hingeDeg,
    set: (reading, value) => withJaw(reading, 'hingeDeg', value),
  }),
  numberColumn({
    ...{ id: 'force', group: null, unit: 'N', range: FORCE_N, places: 1, aboveLeast: true },
    names: ['force', 'force on the rim', 'newtons', 'kraft'],
    get: (reading) => reading.force?.newtons,
    set: (reading, value) => withValue(reading, 'force', value === null ? null : { newtons: value }),
  }),
  numberColumn({
    ...{ id: 'hornRightSd', group: 'Horn', unit: '°', range: HORN_SD_DEG_RANGE, places: 3 },
    names: ['horn right deviation', 'horn right sd', 'horn lateral deviation', 'horn lateral sd', 'horn right give or take', 'abweichung des instruments nach rechts'],
    get: (reading) => reading.horn?.lateralSdDeg,
    isUnseen: (reading) => !hasAngle(reading, 'lateralDeg'),
    needs: (reading) => {
      if (reading.horn === undefined) return sayRecords('needsHorn');
      // A file tells of an unseen elevation first, and until then that deviation stands for both.
      return reading.horn.lateralSdDeg === UNSEEN_HORN_SD_DEG ? sayRecords('needsHornRight') : null;
    },
    set: (reading, value) => withAngleSd(reading, 'lateralSdDeg', value),
  }),
  numberColumn({
    ...{ id: 'travelRightSd', group: 'Travel', unit: 'mm', range: TRAVEL_SD_MM_RANGE, places: 3 },
    names: ['travel right deviation', 'travel right sd', 'travel sideways deviation', 'travel sideways sd', 'travel right give or take', 'abweichung des wegs nach rechts'],
    get: (reading) => reading.travel?.rightSdMm,
    needs: (reading) => (reading.travel === undefined ? sayRecords('needsTravel') : null),
    set: (reading, value) => withTravelSd(reading, 'rightSdMm', value),
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

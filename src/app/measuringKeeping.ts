/**
 * What measuring needs of the records, handed to it by the page that has it already: imported by both, the records and their schema
 * library would be cut into pieces of their own, which makes the first load longer.
 */
import { withMeasuring, withLesson, withoutMeasuring, lessonOf, measuringIdIn } from '../core/lessons';
import { readMeasuring } from '../records/measuringSchema';
import { faultOfPlayer } from '../records/schema';
import { deletingWords, faultOfMeasuring, measuringsInUse, readingsFrom } from '../records/tracedReadings';

export const measuringKeeping = { withMeasuring, withLesson, withoutMeasuring, lessonOf, measuringIdIn, readMeasuring, deletingWords, faultOfMeasuring, faultOfPlayer, readingsFrom, measuringsInUse };

export type MeasuringKeeping = typeof measuringKeeping;

/** The record file's version 1: one player, one lesson without a day, every reading with its travel. It is read, never written. */
import * as z from 'zod/mini';
import type { PlayerSpec } from '../core/specs';
import { archSchema } from './archSchema';
import { exactly, fields, list, oneOf } from './fields';
import {
  firstReadingShape, forceSchema, homeSchema, instrumentNameSchema, labelSchema, lipsSchema, rimSchema, shareSchema,
  soundingNoteSchema, firstTravelSchema,
} from './playerSchema';
import { MOST_READINGS } from './readingRanges';

export const record1Schema = fields('A player’s record, version 1', {
  format: exactly('rimpath-record'),
  version: exactly(1),
  player: fields('Whose record', { label: labelSchema, instrument: instrumentNameSchema }),
  arch: archSchema,
  rim: rimSchema,
  lips: lipsSchema,
  force: forceSchema,
  home: z.optional(homeSchema),
  upperLipShare: shareSchema,
  readings: list(
    fields('What was seen at one note', {
      note: soundingNoteSchema,
      travel: firstTravelSchema,
      method: z.optional(oneOf(['eye', 'ruler', 'video'], 'How it was measured')),
      ...firstReadingShape,
    }),
    0,
    MOST_READINGS,
    'The readings, in any order; two readings of one note are pooled',
  ),
});

export type Record1 = z.output<typeof record1Schema>;

/** The player that a record of version 1 is: its readings are the first lesson's, of a day that nobody wrote down. */
export function migrateRecord1(record: Record1, ids: { readonly player: string; readonly lesson: string }): PlayerSpec {
  const { player, arch, lips, rim, force, home, upperLipShare, readings } = record;
  return {
    id: ids.player,
    label: player.label,
    instrument: player.instrument,
    arch,
    lips,
    lessons: [{ id: ids.lesson, rim, force, ...(home !== undefined && { home }), upperLipShare, readings, tryOuts: [] }],
  };
}

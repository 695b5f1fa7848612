/** A player in a record file from version 2 on: the mouth, the lessons and their try-outs. What a reading and a rim may be stands here too. */
import * as z from 'zod/mini';
import type { LessonSpec, RimSpec } from '../core/specs';
import { sayRecords } from '../words/records';
import { archSchema, readingJawSchema } from './archSchema';
import { above, between, change, condition, day, exactly, fields, identifier, list, note, oneOf, share, stretchInOrder, text, whole } from './fields';
import { FILM_S, MOST_SOURCES, keptMeasuringSchema } from './measuringSchema';
import { EASE, FORCE_N, HORN_DEG, HORN_SD_DEG_RANGE, LONGEST_REMARK, MOST_READINGS, TAKE, TRAVEL_MM, TRAVEL_SD_MM_RANGE } from './readingRanges';

export const MOST_PLAYERS = 500;
export const MOST_LESSONS = 200;
export const MOST_TRY_OUTS = 20;
export const MOST_MEASURINGS = 50;
export const LONGEST_LABEL = 200;

/** Try-outs are small steps: common practice, no published source. */
const MOST_PLACED_MM = 6;
const MOST_ROUND_DEG = 20;

export const rimSchema = fields('The rim. innerDiameterMm ≤ highPointDiameterMm ≤ outerDiameterMm, inner below outer', {
  innerDiameterMm: above(0, 300, 'mm', 'inner diameter'),
  outerDiameterMm: above(0, 300, 'mm', 'outer diameter'),
  highPointDiameterMm: above(0, 300, 'mm', 'diameter of the circle of high points'),
  contourRadiusMm: z
    .nullable(above(0, 10_000, 'mm', 'radius'))
    .check(z.describe('Radius of the contour’s one arc through the high point, mm, at least the distance from it to either edge; null is a flat rim')),
}).check(condition((rim) => rimFits(rim)));

const lipSchema = (which: string) =>
  fields(`The ${which} lip`, {
    thicknessMm: between(0.5, 60, 'mm', 'thickness at rest'),
    effectiveModulusKPa: between(0.1, 1_000_000, 'kPa', 'effective modulus of the lip under a rim'),
  });

export const lipsSchema = fields('The lips', {
  upper: lipSchema('upper'),
  lower: lipSchema('lower'),
  law: oneOf(['stiffening', 'linear'], 'Pressure against strain'),
});

export const forceSchema = fields('Force on the rim', {
  newtons: above(...FORCE_N, 'N', 'force along the head’s forward line'),
});

export const homeSchema = fields('Where travel is zero', {
  note: z.optional(note('Sounding note at which travel is zero')),
  upMm: z.optional(between(...TRAVEL_MM, 'mm', 'rim’s centre above the upper incisal edge at home; absent, the lip line lies at mid-opening')),
  rightMm: z.optional(between(...TRAVEL_MM, 'mm', 'rim’s centre to the player’s right of the midline at home; absent, 0')),
});

export const shareSchema = fields('How much of the rim lies on the upper lip', {
  value: share('Upper part of the whole, above 0 and below 1'),
  by: oneOf(['diameter', 'arc', 'area'], 'What the share is a part of'),
});

const firstTravelShape = {
  upMm: between(...TRAVEL_MM, 'mm', 'up (+) or down (−)'),
  rightMm: between(...TRAVEL_MM, 'mm', 'to the player’s right (+) or left (−)'),
  sdMm: z.optional(between(...TRAVEL_SD_MM_RANGE, 'mm', 'standard deviation of up, and of either where the other is not given')),
};

/** As version 1 knew it. */
export const firstTravelSchema = fields('Travel of the rim’s centre from home', firstTravelShape);

const travelSchema = fields('Travel of the rim’s centre from home', {
  ...firstTravelShape,
  rightSdMm: z.optional(between(...TRAVEL_SD_MM_RANGE, 'mm', 'standard deviation of right; from version 5')),
});

export const soundingNoteSchema = note('Sounding note');

/** What version 1 knew of a reading besides its note, its travel and how it was measured. */
export const firstReadingShape = {
  horn: z.optional(
    fields('Horn angle measured, relative to the head', {
      elevationDeg: between(...HORN_DEG, 'degrees', 'bell up (+) or down (−)'),
      lateralDeg: between(...HORN_DEG, 'degrees', 'bell to the player’s right (+) or left (−)'),
      sdDeg: z.optional(between(...HORN_SD_DEG_RANGE, 'degrees', 'standard deviation of bell up, and of either where the other is not given')),
      lateralSdDeg: z.optional(between(...HORN_SD_DEG_RANGE, 'degrees', 'standard deviation of bell right; 45: not seen')),
    }),
  ),
  direction: z.optional(oneOf(['up', 'down'], 'Played on the way up or down')),
  jaw: z.optional(readingJawSchema),
  force: z.optional(forceSchema),
};

export const labelSchema = text(LONGEST_LABEL, 'A label chosen by the teacher; initials are enough');
export const instrumentNameSchema = text(60, 'Name of an instrument in models/instruments, such as tenor-trombone', 1);

const seenSchema = fields('Where in a kept measuring it was seen; the measuring may be gone since', {
  measuring: identifier('The measuring’s own name'),
  source: z.optional(whole(0, MOST_SOURCES - 1, '', 'Which of its films or pictures, from 0; absent, the first')),
  startS: z.optional(between(...FILM_S, 's', 'beginning of the stretch that was averaged, first film’s time')),
  endS: z.optional(between(...FILM_S, 's', 'its end')),
  atS: z.optional(between(...FILM_S, 's', 'a frame that shows it; absent for a picture')),
}).check(condition((seen) => stretchInOrder(seen)));

const readingSchema = fields('What was seen at one note', {
  note: soundingNoteSchema,
  take: z.optional(whole(...TAKE, '', 'Which time the exercise was played; absent, 1')),
  travel: z.optional(travelSchema),
  method: z.optional(oneOf(['eye', 'ruler', 'video', 'picture'], 'How it was measured; "picture", a single one, from version 4')),
  ...firstReadingShape,
  airstream: z.optional(oneOf(['down', 'up', 'unsure'], 'Which way the air was seen to go inside the rim')),
  upperLipShare: z.optional(share('Upper lip’s share seen at this note, a part of what the lesson’s own share is a part of')),
  ease: z.optional(whole(...EASE, '', 'How easily it spoke, 1 (hard) to 5 (easy), as the player says')),
  remark: z.optional(text(LONGEST_REMARK, 'A remark')),
  from: z.optional(seenSchema),
});

const readingsSchema = list(readingSchema, 0, MOST_READINGS, 'The readings, in any order; takes of one note are pooled, and a note without travel is one that nobody has seen yet');

const changeSchema = z.discriminatedUnion(
  'kind',
  [
    fields('The horn is held where it is', { kind: exactly('hold-horn') }),
    fields('The horn is let follow', { kind: exactly('let-horn-follow') }),
    fields('The rim is placed higher or lower', { kind: exactly('place-rim'), upMm: change(MOST_PLACED_MM, 'mm', 'higher (+) or lower (−)') }),
    fields('The horn is brought round to one side', {
      kind: exactly('bring-horn-round'),
      lateralDeg: change(MOST_ROUND_DEG, 'degrees', 'to the player’s right (+) or left (−)'),
    }),
  ],
  {
    error: (issue) =>
      sayRecords(typeof issue.input === 'object' && issue.input !== null ? 'oneKind' : 'objectWithKind', {
        kinds: '"hold-horn", "let-horn-follow", "place-rim", "bring-horn-round"',
      }),
  },
);

const tryOutSchema = fields('One deliberate change and what was seen with it', {
  id: identifier('Its own name within the player'),
  change: changeSchema,
  readings: readingsSchema,
  remark: z.optional(text(LONGEST_REMARK, 'A remark')),
});

/** A lesson with its measurings still unread, for the same reason as a player's lessons. */
export const lessonShellSchema = lessonWith(z.unknown());

const lessonSchema = lessonWith(keptMeasuringSchema);

/** A player with the lessons still unread: they are read one by one, so that a spoiled file is given up at its first fault. */
export const mouthSchema = playerWith(z.unknown());

export const playerSchema = playerWith(lessonSchema).check(condition((player) => idTwice(player.lessons)));

/** Where an id of a lesson, a try-out or a measuring stands a second time within a player, as a fault; null when each stands once. */
export function idTwice(lessons: readonly Pick<LessonSpec, 'id' | 'tryOuts' | 'measurings'>[]) {
  const seen = new Set<string>();
  const first = (id: string): boolean => seen.size < seen.add(id).size;
  for (const [index, lesson] of lessons.entries()) {
    const path = ['lessons', index];
    if (!first(lesson.id)) return { path: [...path, 'id'], allowed: sayRecords('idOnce') };
    const tryOut = lesson.tryOuts.findIndex(({ id }) => !first(id));
    if (tryOut >= 0) return { path: [...path, 'tryOuts', tryOut, 'id'], allowed: sayRecords('idOnce') };
    const measuring = (lesson.measurings ?? []).findIndex(({ id }) => !first(id));
    if (measuring >= 0) return { path: [...path, 'measurings', measuring, 'id'], allowed: sayRecords('idOnce') };
  }
  return null;
}

function lessonWith<T extends z.core.$ZodType>(measuring: T) {
  return fields('What was seen in one lesson', {
    id: identifier('Its own name within the player'),
    date: z.optional(day('The day')),
    remark: z.optional(text(LONGEST_REMARK, 'A remark')),
    rim: rimSchema,
    force: forceSchema,
    home: z.optional(homeSchema),
    upperLipShare: shareSchema,
    readings: readingsSchema,
    tryOuts: list(tryOutSchema, 0, MOST_TRY_OUTS, 'What was tried'),
    toTry: z.optional(text(LONGEST_REMARK, 'What the player is to try at home')),
    measurings: z.optional(list(measuring, 0, MOST_MEASURINGS, 'What readings were measured from, from version 3')),
  });
}

function playerWith<T extends z.core.$ZodType>(lesson: T) {
  return fields('A player', {
    id: identifier('Its own name among all players'),
    label: labelSchema,
    instrument: instrumentNameSchema,
    arch: archSchema,
    lips: lipsSchema,
    lessons: list(lesson, 1, MOST_LESSONS, 'The lessons, oldest first'),
  });
}

function rimFits(rim: RimSpec) {
  const { innerDiameterMm: inner, outerDiameterMm: outer, highPointDiameterMm: high, contourRadiusMm: contour } = rim;
  if (outer <= inner) return { path: ['outerDiameterMm'], allowed: sayRecords('outerAbove', { inner }) };
  if (high < inner || high > outer) {
    return { path: ['highPointDiameterMm'], allowed: sayRecords('highPoint', { inner, outer }) };
  }
  const reach = Math.max(high - inner, outer - high) / 2;
  if (contour !== null && contour < reach) {
    return { path: ['contourRadiusMm'], allowed: sayRecords('contour', { reach }) };
  }
  return null;
}

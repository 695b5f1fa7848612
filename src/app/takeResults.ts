/** What the open films say: worked out once for what was followed, heard and told, and laid out for the time line and the picture. */
import type { RimSpec } from '../core/specs';
import type { Point } from '../measure/picture';
import { type MeasuredNote, isTold } from '../measure/takeReadings';
import { measureTake } from '../measure/takeMeasured';
import type { HeadSample, NoteHeard, TracedFrame } from '../measure/traces';
import { type SidewaysEntry, sidewaysSign } from '../notebook/entry';
import type { PathPoint } from '../notebook/measure/film/TracedOverlay';
import type { Curve, Panel } from '../notebook/measure/timeLine/props';
import { sayFilming } from '../words/filming';
import type { FilmSource } from './filmingTypes';
import { lensCamera } from './measuringResults';

export interface TakeShown {
  /** In step with the notes; empty until a film was followed. */
  readonly notes: readonly MeasuredNote[];
  /** The same as each film alone tells them, by the film's id. */
  readonly notesOf: ReadonlyMap<string, readonly MeasuredNote[]>;
  readonly samplesOf: ReadonlyMap<string, readonly HeadSample[]>;
}

export interface TakeResults {
  of(films: readonly FilmSource[], notes: readonly NoteHeard[], homeMidi: number | null): TakeShown;
}

const NOTHING: TakeShown = { notes: [], notesOf: new Map(), samplesOf: new Map() };

export function createTakeResults(): TakeResults {
  let known: { readonly asked: readonly unknown[]; readonly take: TakeShown } | null = null;
  return {
    of: (films, notes, homeMidi) => {
      const usable = films.flatMap(({ id, followed, offsetS, work, lensMm }) =>
        followed === null || offsetS === null ? [] : [{ id, followed, offsetS, lensMm, camera: lensCamera(work.facts, lensMm) }],
      );
      const asked = [notes, homeMidi, ...usable.flatMap(({ id, followed, offsetS, lensMm }) => [id, followed, offsetS, lensMm])];
      if (known !== null && known.asked.length === asked.length && known.asked.every((one, index) => one === asked[index])) return known.take;
      const measured = measureTake(usable.map(({ followed, camera, offsetS }) => ({ trace: followed.trace, head: followed.head, camera, offsetS })), notes, homeMidi);
      const byFilm = <T>(each: readonly T[]): ReadonlyMap<string, T> => new Map(usable.map(({ id }, index) => [id, each[index]!]));
      const take = usable.length === 0 ? NOTHING : { notes: measured.notes, notesOf: byFilm(measured.filmNotes), samplesOf: byFilm(measured.samples) };
      known = { asked, take };
      return take;
    },
  };
}

/** How many frames a film's answer at a note is made from. */
export const framesSeen = ({ travel, elevation, lateral }: MeasuredNote): number =>
  Math.max(0, ...[travel, elevation, lateral].map((answer) => (isTold(answer) ? answer.frames : 0)));

/** Travel and angle against the take's time, for what this film tells. */
export function curvesOf({ id, offsetS, view: chosen, followed }: FilmSource, { samplesOf }: TakeShown, sideways: SidewaysEntry): readonly Panel[] {
  const view = followed?.trace.view ?? chosen;
  const sign = sidewaysSign(sideways);
  const samples = samplesOf.get(id) ?? [];
  const at = offsetS ?? 0;
  const curve = (name: string, label: string, value: (sample: HeadSample) => number | undefined): Curve => ({
    id: name,
    label,
    points: samples.map((sample) => ({ timeS: sample.timeS + at, value: value(sample) ?? null })),
  });
  const panels: Panel[] = [
    {
      title: sayFilming(sideways === 'facing' ? 'travelPanelFacing' : 'travelPanel'),
      unit: 'mm',
      leastSpan: 3,
      curves: [curve('up', sayFilming('travelUpCurve'), ({ travel }) => travel?.upMm), curve('right', sayFilming('travelRightCurve'), ({ travel }) => (travel === null ? undefined : sign * travel.rightMm))],
    },
    {
      title: sayFilming(view === 'front' ? 'hornPanel' : view === 'above' ? 'hornRightPanel' : 'hornUpPanel'),
      unit: '°',
      leastSpan: 6,
      curves: [curve('elevation', sayFilming('hornUpCurve'), ({ elevation }) => elevation?.deg), curve('lateral', sayFilming('hornRightCurve'), ({ lateral }) => lateral?.deg)],
    },
  ];
  return panels
    .map((panel) => ({ ...panel, curves: panel.curves.filter(({ points }) => points.some(({ value }) => value !== null)) }))
    .filter(({ curves }) => curves.length > 0);
}

/** `timeS`: the film's own. */
export function tracedAt({ followed }: FilmSource, timeS: number): TracedFrame | null {
  return followed?.trace.frames.find((frame) => Math.abs(frame.timeS - timeS) < SAME_FRAME_S) ?? null;
}

/** Containers round times to a millisecond. */
const SAME_FRAME_S = 0.0006;

/**
 * The rim's centre at each note laid over the frame that is shown, as far as one picture can: from the rim in it, at its scale, turned as the
 * eyes are. Lowest note first. `timeS`: the film's own.
 */
export function pathOverFrame(
  source: FilmSource,
  timeS: number,
  take: TakeShown,
  selected: number | null,
  { outerDiameterMm }: Pick<RimSpec, 'outerDiameterMm'>,
  nameOf: (note: NoteHeard) => string,
): readonly PathPoint[] {
  const frame = tracedAt(source, timeS);
  const now = take.samplesOf.get(source.id)?.find((sample) => Math.abs(sample.timeS - timeS) < SAME_FRAME_S)?.travel;
  if (frame?.rim == null || now == null) return [];
  const pxPerMm = (2 * frame.rim.semiMajorPx) / outerDiameterMm;
  const tilt = rollOf(frame);
  const across: Point = { x: Math.cos(tilt), y: Math.sin(tilt) };
  const { centre } = frame.rim;
  return take.notes
    .flatMap(({ note, travel }, index) => (isTold(travel) && note.midi !== null ? [{ note, travel, index, midi: note.midi }] : []))
    .toSorted((a, b) => a.midi - b.midi)
    .map(({ note, travel, index }) => {
      // Up runs against the picture's y; the player's right is at the picture's left.
      const [right, up] = [travel.rightMm - now.rightMm, travel.upMm - now.upMm];
      return {
        key: index,
        name: nameOf(note),
        isChosen: index === selected,
        at: { x: centre.x + pxPerMm * (-right * across.x + up * across.y), y: centre.y + pxPerMm * (-right * across.y - up * across.x) },
      };
    });
}

/** How the head is turned in the picture: from its right to its left side, radians from the x axis; 0 where no pair is seen. */
function rollOf({ points }: TracedFrame): number {
  for (const [right, left] of PAIRS) {
    const [from, to] = [points[right], points[left]];
    if (from !== undefined && to !== undefined) return Math.atan2(to.y - from.y, to.x - from.x);
  }
  return 0;
}

const PAIRS = [
  ['outer-eye-right', 'outer-eye-left'],
  ['ear-right', 'ear-left'],
  ['inner-eye-right', 'inner-eye-left'],
  ['cheekbone-right', 'cheekbone-left'],
] as const;

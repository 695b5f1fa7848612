/** What the reader chose about the page itself, kept apart from the record. */
import * as z from 'zod/mini';
import { NOTE_NAMINGS } from '../core/noteNaming';
import { usualNaming } from './language';

const settingsShape = z.object({
  horn: z.enum(['follow', 'held']),
  view: z.enum(['plate', 'sphere', 'normal', 'seated']),
  camera: z.enum(['three-quarter', 'face', 'mirror', 'side', 'above']),
  sideways: z.enum(['player', 'mirror', 'facing']),
  unit: z.enum(['mm', 'rim widths']),
  theme: z.enum(['paper', 'projector']),
  noteNames: z.enum(['sounding', 'written']),
  naming: z.enum(NOTE_NAMINGS),
  loop: z.boolean(),
  /** Which of the path's two ways plays, where the readings know of two. */
  plays: z.enum(['both', 'up', 'down']),
  /** The clef read in, where the instrument has several notations; null: its usual one. */
  clef: z.nullable(z.enum(['treble', 'alto', 'tenor', 'bass'])),
  speed: z.number().check(z.minimum(0.25), z.maximum(2)),
  sound: z.boolean(),
  toothNumbers: z.boolean(),
  cutOpen: z.boolean(),
  /** The rim was moved by hand once: how it is done need not be said again. */
  hasDragged: z.boolean(),
});

export type Settings = Readonly<z.infer<typeof settingsShape>>;
export type CameraName = Settings['camera'];

export const DEFAULT_SETTINGS: Settings = {
  horn: 'follow',
  view: 'seated',
  camera: 'three-quarter',
  sideways: 'player',
  unit: 'mm',
  theme: 'paper',
  noteNames: 'sounding',
  naming: 'scientific',
  loop: true,
  plays: 'both',
  clef: null,
  speed: 1,
  sound: false,
  toothNumbers: false,
  cutOpen: false,
  hasDragged: false,
};

/** Settings from a stored value: what is missing or not understood is as by default, and notes are named as the language names them. */
export function readSettings(value: unknown): Settings {
  const given = typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : {};
  const kept = Object.entries(settingsShape.shape).flatMap(([name, shape]) => {
    const one = shape.safeParse(given[name]);
    return one.success ? [[name, one.data] as const] : [];
  });
  return { ...DEFAULT_SETTINGS, naming: usualNaming(), ...Object.fromEntries(kept) };
}

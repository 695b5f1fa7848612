/** What the stage is given: data and callbacks only. `Stage` (three) and `FlatStage` (SVG) take the same. */
import type { Analysis, LiveFrame, LiveSource } from '../core/analysis';
import type { Arch } from '../core/arch';
import type { LipsSpec, RimSpec } from '../core/specs';

export type StageCamera = 'three-quarter' | 'face' | 'mirror' | 'side' | 'above';

/** One row of the crown table, millimetres; `fdi` names both sides (ISO 3950), as in models/teeth.json. */
export interface CrownMeasures {
  readonly fdi: readonly number[];
  readonly crownLengthMm: number;
  /** Mesiodistal width at the contacts. */
  readonly widthMm: number;
  readonly neckWidthMm: number;
  /** Faciolingual depth. */
  readonly depthMm: number;
  /** How far the neck line rises toward the edge at the contacts. */
  readonly neckCurveMesialMm: number;
  readonly neckCurveDistalMm: number;
}

export interface Travel {
  readonly upMm: number;
  readonly rightMm: number;
}

/** The stage's own words; `englishStageWords` has them in English. */
export interface StageWords {
  /** Name of the whole picture for those who do not see it. */
  readonly stage: string;
  /** What the picture itself says when it has the focus. */
  readonly turn: string;
  /** Name of the rim's handle. */
  readonly handle: string;
  /** What the handle says of its place. */
  readonly handleValue: (travel: Travel) => string;
  /** A sounding note's name as the player reads it. */
  readonly note: (sounding: string) => string;
  /** Beside the horn; degrees, up and to the player's right positive. */
  readonly hornAngle: (angles: { elevationDeg: number; lateralDeg: number }) => string;
  readonly held: string;
  readonly measured: string;
  readonly pressure: string;
  readonly upperLip: string;
  readonly lowerLip: string;
  readonly flatSide: string;
  readonly flatFront: string;
  readonly noPicture: string;
  readonly contextLost: string;
}

export interface StageProps {
  readonly arch: Arch;
  readonly teeth: readonly CrownMeasures[];
  readonly rim: RimSpec;
  readonly lips: LipsSpec;
  /** Height of the lip line above (+) the rim's centre, in the rim's plane. */
  readonly lipLineMm: number;
  readonly analysis: Analysis;
  /** Samples along each way of the path (one, or up and down), in order of pitch; empty while there are none. */
  readonly path: readonly (readonly LiveFrame[])[];
  readonly live: LiveSource;
  /** Index into analysis.readings. */
  readonly selected: number | null;
  readonly camera: StageCamera;
  readonly horn: 'follow' | 'held';
  readonly showToothNumbers: boolean;
  readonly showHeldGhost: boolean;
  readonly cutOpen: boolean;
  readonly theme: 'paper' | 'projector';
  readonly reducedMotion: boolean;
  readonly onDragStart: () => void;
  /** The place asked for, from home, at most once a frame; a place that cannot be reached may be ignored. */
  readonly onDragTravel: (travel: Travel) => void;
  readonly onDragEnd: () => void;
  /** A step from where the rim is now (arrow keys: 0.1 mm, with Shift 1 mm). */
  readonly onNudge: (step: Travel) => void;
  readonly words?: StageWords;
}

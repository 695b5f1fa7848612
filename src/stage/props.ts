/** What the stage is given: data and callbacks only. `Stage` (three) and `FlatStage` (SVG) take the same, and so do `StageSet` and `FlatSet` for several. */
import type { ReactElement, ReactNode } from 'react';
import type { Analysis, LiveFrame, LiveSource } from '../core/analysis';
import type { Arch } from '../core/arch';
import type { LipsSpec, RimSpec } from '../core/specs';

export type StageCamera = 'three-quarter' | 'face' | 'mirror' | 'side' | 'above';

/** What a picture can do without: the rim with the horn, the lips, the fan of axes, words and legend over it, the rim's handle. */
export type StagePart = 'horn' | 'lips' | 'fan' | 'note names' | 'angle' | 'pressure' | 'handle';

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

/** The stage's own words; `ownStageWords` has them in the language set. */
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
  readonly flatAbove: string;
  readonly flatFront: string;
  readonly noPicture: string;
  readonly contextLost: string;
  /** Why the drawing is flat for a moment. */
  readonly flatForNow: string;
}

/** Canvas pixels a CSS pixel, and whether edges are smoothed. */
export interface FixedFineness {
  readonly dpr: number;
  readonly antialias: boolean;
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
  /** Absent: nothing is left out. */
  readonly without?: readonly StagePart[];
  readonly theme: 'paper' | 'projector';
  readonly reducedMotion: boolean;
  readonly onDragStart: () => void;
  /** The place asked for, from home, at most once a frame; a place that cannot be reached may be ignored. */
  readonly onDragTravel: (travel: Travel) => void;
  readonly onDragEnd: () => void;
  /** A step from where the rim is now (arrow keys: 0.1 mm, with Shift 1 mm). */
  readonly onNudge: (step: Travel) => void;
  readonly words?: StageWords;
  /** Something more inside the canvas: what takes pictures of it. */
  readonly inCanvas?: ReactNode;
  /** How finely it is drawn, whatever moves: for pictures, whose size is chosen. */
  readonly fixed?: FixedFineness | undefined;
}

export interface StageSetScene {
  readonly key: string;
  readonly props: StageProps;
  /** Stands over its part of the picture. */
  readonly caption?: ReactElement | undefined;
}

export interface StageSetProps {
  readonly scenes: readonly StageSetScene[];
  /** Keys of those that are seen, in order; they look from the same side. */
  readonly seen: readonly string[];
}

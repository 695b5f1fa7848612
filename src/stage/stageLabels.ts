/** Which words stand in the picture, most important first. */
import type { Vector3 } from 'three';
import type { Analysis, RimPose } from '../core/analysis';
import type { JawSpec } from '../core/specs';
import type { Vec3 } from '../core/vector';
import { sayStage } from '../words/stage';
import type { PlacedTooth } from './dentition';
import { type Fan, pointOn } from './fanShape';
import { jawMove, movedPoint } from './jawMove';
import type { LabelSpec } from './Overlay';
import type { StagePart, StageWords } from './props';

interface LabelOptions {
  readonly analysis: Analysis;
  readonly fan: Fan;
  readonly teeth: readonly PlacedTooth[];
  /** Where the lower teeth's jaw stands as they were placed. */
  readonly own: JawSpec | null;
  readonly lengthMm: number;
  /** Length of the drawn tube. */
  readonly tubeMm: number;
  readonly selected: number | null;
  readonly showToothNumbers: boolean;
  readonly showHeldGhost: boolean;
  readonly without: readonly StagePart[];
  readonly words: StageWords;
}

/** The angle stands over the tube, so much above its axis. */
const ABOVE_TUBE_MM = 7;

export function stageLabels(options: LabelOptions): LabelSpec[] {
  const { fan, lengthMm, selected, without, words } = options;
  const labels: LabelSpec[] = [];
  if (!without.includes('angle')) {
    labels.push({
      id: 'angle',
      text: sayStage('widestAngle'),
      look: 'angle',
      at: (frame, out) => {
        onAxis(frame.shown, options.tubeMm * 0.85, out);
        out.y += ABOVE_TUBE_MM;
      },
      prefer: 'above',
      textOf: (frame) => words.hornAngle(frame.shown),
    });
  }
  if (options.showHeldGhost) {
    labels.push({ id: 'held', text: words.held, look: 'held', at: (frame, out) => onAxis(frame.held.pose, lengthMm * 0.98, out) });
  }
  const inOrder = [...fan.predicted].sort((a, b) => Number(b.readingIndex === selected) - Number(a.readingIndex === selected));
  const seen = new Set<string>();
  for (const line of without.includes('note names') ? [] : inOrder) {
    if (seen.has(line.note)) continue;
    seen.add(line.note);
    labels.push({
      id: `note-${line.readingIndex}`,
      text: words.note(line.note),
      look: line.readingIndex === selected ? 'chosen' : 'note',
      at: pointOn(line, lengthMm),
    });
  }
  if (options.showToothNumbers) {
    for (const tooth of [...options.teeth].sort((a, b) => a.kind - b.kind)) {
      const height = tooth.edgeMm + (tooth.marginMm - tooth.edgeMm) * 0.45;
      const { face, arcMm } = tooth;
      labels.push({
        id: `tooth-${tooth.fdi}`,
        text: String(tooth.fdi),
        look: 'tooth',
        at: onTooth(face.pointAt(arcMm, height), face.upper, options.own),
        facing: facingOf(face.normalAt(arcMm, height), face.upper, options.own),
      });
    }
  }
  return labels;
}

/** Lower teeth go where the jaw goes. */
function onTooth(place: Vec3, upper: boolean, own: JawSpec | null): LabelSpec['at'] {
  return upper || own === null ? place : (frame, out) => out.set(...movedPoint(place, jawMove(own, frame.jaw)));
}

/** A direction turns with the jaw and does not travel. */
function facingOf(direction: Vec3, upper: boolean, own: JawSpec | null): LabelSpec['at'] {
  return upper || own === null
    ? direction
    : (frame, out) => out.set(...movedPoint(direction, { ...jawMove(own, frame.jaw), upMm: 0, forwardMm: 0 }));
}

function onAxis(pose: RimPose, along: number, out: Vector3): void {
  out.set(
    pose.rimCentreMm[0] + pose.axis[0] * along,
    pose.rimCentreMm[1] + pose.axis[1] * along,
    pose.rimCentreMm[2] + pose.axis[2] * along,
  );
}


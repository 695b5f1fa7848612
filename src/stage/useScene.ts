/** What a scene is made of, worked out from the stage's props: shapes, labels, camera's view. Made when a prop changes, never in the frame loop. */
import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { Plane, Vector3 } from 'three';
import type { Analysis } from '../core/analysis';
import { moveJaw } from '../core/arch';
import { contourHeight } from '../core/rim';
import type { CameraControl } from './CameraRig';
import { placeTeeth } from './dentition';
import { type PictureState, pointUnder } from './dragPlane';
import { fanOf } from './fanShape';
import { outgrows, scenePoints, spreadOf } from './framing';
import { jawFaces } from './jawFaces';
import { restLips } from './lipRest';
import { createLipSheet } from './lipSheet';
import { palettes } from './palette';
import { pressureScaleKPa } from './pressureScale';
import type { StageCamera, StagePart, StageProps } from './props';
import { instrumentProfiles } from './rimShape';
import { stageLabels } from './stageLabels';
import type { ToothSight } from './toothSight';
import { useCorner } from './useCorner';
import { useSettledJaw } from './useSettledJaw';
import { viewOf } from './views';
import { ownStageWords } from './words';

/** A clipping plane this far out takes nothing away. */
const NO_CUT = 1e6;
/** The fan reaches this far beyond the drawn tube. */
const FAN_BEYOND_MM = 22;
/** Long enough that a few degrees can be seen. */
const FAN_LEAST_MM = 74;
const NOTHING_LEFT_OUT: readonly StagePart[] = [];

export type SceneState = ReturnType<typeof useScene>;

export function useScene(props: StageProps) {
  const { arch, teeth, rim, lips, lipLineMm, analysis, path, live, selected, camera, horn, theme, without = NOTHING_LEFT_OUT } = props;
  const ownWords = useMemo(ownStageWords, []);
  const words = props.words ?? ownWords;
  const palette = palettes[theme];

  const jaws = useMemo(() => jawFaces(arch).map((face) => ({ face, teeth: placeTeeth(face, teeth) })), [arch, teeth]);
  const allTeeth = useMemo(() => jaws.flatMap((jaw) => jaw.teeth), [jaws]);
  const contour = useCallback((radiusMm: number) => contourHeight(rim, radiusMm), [rim]);
  const restJaw = useSettledJaw(live, arch.jaw);
  const rest = useMemo(() => restLips(restJaw === null ? arch : moveJaw(arch, restJaw), lips), [arch, restJaw, lips]);
  const sheet = useMemo(() => createLipSheet(rest, rim, contour, lipLineMm), [rest, rim, contour, lipLineMm]);
  const profiles = useMemo(() => instrumentProfiles(rim, contour), [rim, contour]);
  const fan = useMemo(() => fanOf(analysis, path, horn), [analysis, path, horn]);
  const lengthMm = Math.max(profiles.lengthMm + FAN_BEYOND_MM, FAN_LEAST_MM);
  const scaleKPa = useMemo(() => pressureScaleKPa(analysis), [analysis]);
  const [dragging, setDragging] = useState(false);
  const { spread, elsewhere } = useFraming(analysis, camera, dragging);
  const hasHorn = !without.includes('horn');
  const view = useMemo(
    () => viewOf(camera, scenePoints({ jaws, own: arch.jaw, elsewhere, lips, rim, lengthMm }, hasHorn ? spread : null)),
    [camera, jaws, arch, elsewhere, lips, rim, lengthMm, spread, hasHorn],
  );
  const labels = useMemo(
    () =>
      stageLabels({
        analysis,
        fan,
        teeth: allTeeth,
        own: arch.jaw,
        lengthMm,
        tubeMm: profiles.lengthMm,
        selected,
        showToothNumbers: props.showToothNumbers,
        showHeldGhost: props.showHeldGhost,
        without,
        words,
      }),
    [analysis, fan, allTeeth, arch, lengthMm, profiles, selected, props.showToothNumbers, props.showHeldGhost, without, words],
  );

  const cutting = camera === 'side';
  const fromFront = camera === 'face' || camera === 'mirror';
  const halved = cutting || props.cutOpen;
  const sight = useMemo<ToothSight>(
    () => ({ cutting, instrument: fromFront ? 'glass' : halved ? 'halved' : 'whole', profiles }),
    [cutting, fromFront, halved, profiles],
  );
  const plane = useMemo(() => new Plane(new Vector3(1, 0, 0), NO_CUT), []);
  const cut = useMemo(() => [plane], [plane]);
  useEffect(() => {
    if (!cutting) plane.constant = NO_CUT;
  }, [cutting, plane]);

  const box = useRef<HTMLDivElement>(null);
  const handle = useRef<HTMLButtonElement>(null);
  const legend = useRef<HTMLDivElement>(null);
  const labelElements = useRef<(HTMLElement | null)[]>([]);
  const control = useRef<CameraControl>(null);
  const picture = useRef<PictureState>({ camera: null, width: 1, height: 1, mirrored: false });
  const cornerOf = useCorner(box);
  const under = useCallback(
    (clientX: number, clientY: number, through: readonly [number, number, number]) => {
      const corner = cornerOf();
      return corner ? pointUnder(picture.current, clientX - corner.left, clientY - corner.top, through) : null;
    },
    [cornerOf],
  );
  return {
    words, palette, jaws, restJaw, sheet, profiles, fan, lengthMm, scaleKPa, dragging, setDragging, view, labels, without,
    cutting, fromFront, halved, sight, plane, cut, box, handle, legend, labelElements, control, picture, under,
  };
}

/**
 * What the notes ask of the picture, kept until another view or mouth is looked at or a note goes beyond it: the camera must not run
 * from the hand that drags, nor shift under it when it lets go.
 */
function useFraming(analysis: Analysis, camera: StageCamera, dragging: boolean) {
  const { arch, rim } = analysis.record;
  // A mirror shows the same picture.
  const from = camera === 'mirror' ? 'face' : camera;
  const now = useMemo(
    () => ({ arch, rim, from, spread: spreadOf(analysis), elsewhere: analysis.readings.flatMap((reading) => reading.jaw ?? []) }),
    [analysis, arch, rim, from],
  );
  const [kept, setKept] = useState(now);
  const same = kept.arch === arch && kept.rim === rim && kept.from === from && JSON.stringify(kept.elsewhere) === JSON.stringify(now.elsewhere);
  const stays = dragging || kept === now || (same && !outgrows(now.spread, kept.spread));
  if (!stays) setKept(now);
  return stays ? kept : now;
}

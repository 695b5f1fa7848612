/** The stage in three dimensions: canvas, labels, handle and legend. Draws on demand: when the live frame, the camera or a prop changes. */
import { useCallback, useEffect, useMemo, useRef, useState, type KeyboardEvent, type PointerEvent } from 'react';
import { Canvas, useThree } from '@react-three/fiber';
import { Plane, Vector3 } from 'three';
import type { Analysis, LiveSource } from '../core/analysis';
import { moveJaw } from '../core/arch';
import { contourHeight } from '../core/rim';
import { CameraRig, type CameraControl } from './CameraRig';
import { placeTeeth } from './dentition';
import { type PictureState, arrowSide, pointUnder } from './dragPlane';
import { Fan, HeldGhost } from './Fan';
import { fanOf } from './fanShape';
import { FlatStage } from './FlatStage';
import { outgrows, scenePoints, spreadOf } from './framing';
import { Instrument } from './Instrument';
import { jawFaces } from './jawFaces';
import { LightRig } from './LightRig';
import { restLips } from './lipRest';
import { Lips } from './Lips';
import { createLipSheet } from './lipSheet';
import { Mouth } from './Mouth';
import { Overlay } from './Overlay';
import { palettes } from './palette';
import { PressureLegend } from './PressureLegend';
import { pressureScaleKPa } from './pressureScale';
import type { StageCamera, StageProps } from './props';
import { RimHandle } from './RimHandle';
import { instrumentProfiles } from './rimShape';
import { SectionCut } from './SectionCut';
import { stageLabels } from './stageLabels';
import { stageStyle } from './stageStyle';
import type { ToothSight } from './toothSight';
import { useCorner } from './useCorner';
import { useFineness } from './useFineness';
import { useSettledJaw } from './useSettledJaw';
import { FIELD_OF_VIEW_DEG, viewOf } from './views';
import { englishStageWords } from './words';

/** A clipping plane this far out takes nothing away. */
const NO_CUT = 1e6;
/** The fan reaches this far beyond the drawn tube. */
const FAN_BEYOND_MM = 22;
/** Long enough that a few degrees can be seen. */
const FAN_LEAST_MM = 74;
const TURN_DEG_A_PX = 0.35;
const TURN_DEG_A_KEY = 5;

export function Stage(props: StageProps) {
  const { arch, teeth, rim, lips, lipLineMm, analysis, path, live, selected, camera, horn, theme, reducedMotion } = props;
  const words = props.words ?? englishStageWords;
  const palette = palettes[theme];
  const [lost, setLost] = useState(false);

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
  const view = useMemo(
    () => viewOf(camera, scenePoints({ jaws, own: arch.jaw, elsewhere, lips, rim, lengthMm }, spread)),
    [camera, jaws, arch, elsewhere, lips, rim, lengthMm, spread],
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
        words,
      }),
    [analysis, fan, allTeeth, arch, lengthMm, profiles, selected, props.showToothNumbers, props.showHeldGhost, words],
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
  const orbit = useOrbit(control, view.mirrored, dragging);
  const fineness = useFineness(live);

  if (lost) return <FlatStage {...props} message={words.contextLost} />;
  return (
    <div ref={box} className="stage" data-theme={theme} style={stageStyle(palette)} role="group" aria-label={words.stage}>
      <div className={view.mirrored ? 'stage-picture stage-mirrored' : 'stage-picture'} tabIndex={0} aria-label={words.turn} role="group" {...orbit}>
        <Canvas
          frameloop="demand"
          flat
          dpr={fineness.dpr}
          gl={{ antialias: fineness.antialias, powerPreference: 'high-performance' }}
          camera={{ fov: FIELD_OF_VIEW_DEG, near: 10, far: 2000 }}
          onCreated={({ gl }) => {
            gl.localClippingEnabled = true;
            gl.domElement.addEventListener('webglcontextlost', () => setLost(true), { once: true });
          }}
        >
          <color attach="background" args={[palette.background]} />
          <CameraRig view={view} reducedMotion={reducedMotion} control={control} onMove={fineness.onCameraMove} />
          <PictureProbe picture={picture.current} mirrored={view.mirrored} live={live} changed={props} />
          <LightRig dark={theme === 'projector'} />
          <Mouth jaws={jaws} own={arch.jaw} live={live} palette={palette} cut={cut} />
          <Lips sheet={sheet} restJaw={restJaw} ownJaw={arch.jaw} lipLineMm={lipLineMm} live={live} palette={palette} cut={cut} />
          {cutting && <SectionCut jaws={jaws} own={arch.jaw} sheet={sheet} live={live} palette={palette} plane={plane} />}
          <Instrument
            profiles={profiles}
            live={live}
            horn={horn}
            halved={halved}
            seenThrough={fromFront ? 'all' : camera === 'three-quarter' && !props.cutOpen ? 'cup' : 'none'}
            fullScaleKPa={scaleKPa}
            palette={palette}
          />
          <Fan fan={fan} lengthMm={lengthMm} sheetFromMm={profiles.lengthMm * 0.45} selected={selected} bold={fromFront ? 0.55 : 1} palette={palette} />
          {props.showHeldGhost && (
            <HeldGhost live={live} lengthMm={lengthMm} outerRadiusMm={rim.outerDiameterMm / 2 + 0.8} palette={palette} />
          )}
          <Overlay
            live={live}
            labels={labels}
            elements={labelElements}
            handle={handle}
            legend={legend}
            outerRadiusMm={rim.outerDiameterMm / 2}
            mirrored={view.mirrored}
            sight={sight}
          />
        </Canvas>
      </div>
      <div className="stage-labels" aria-hidden="true">
        {labels.map((label, index) => (
          <span key={label.id} className={`stage-label stage-label-${label.look}`} ref={(element) => void (labelElements.current[index] = element)}>
            {label.text}
          </span>
        ))}
      </div>
      <RimHandle
        live={live}
        words={words}
        handle={handle}
        pointUnder={under}
        arrowRight={() => arrowSide(picture.current)}
        onDragStart={() => {
          setDragging(true);
          props.onDragStart();
        }}
        onDragTravel={props.onDragTravel}
        onDragEnd={() => {
          setDragging(false);
          props.onDragEnd();
        }}
        onNudge={props.onNudge}
      />
      <PressureLegend scaleKPa={scaleKPa} words={words} box={legend} />
    </div>
  );
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

/** Hands the camera and the picture's size to the drag, and asks for a frame when the live source or a prop changes. */
function PictureProbe({ picture, mirrored, live, changed }: { picture: PictureState; mirrored: boolean; live: LiveSource; changed: StageProps }) {
  const camera = useThree((state) => state.camera);
  const size = useThree((state) => state.size);
  const invalidate = useThree((state) => state.invalidate);
  useEffect(() => {
    Object.assign(picture, { camera, width: size.width, height: size.height, mirrored });
  }, [picture, camera, size, mirrored]);
  useEffect(() => live.subscribe(() => invalidate()), [live, invalidate]);
  useEffect(() => invalidate(), [changed, invalidate]);
  return null;
}

/** Turning the picture by pointer or keys: looks only, changes no data. */
function useOrbit(control: React.RefObject<CameraControl | null>, mirrored: boolean, still: boolean) {
  const last = useRef<{ id: number; x: number; y: number } | null>(null);
  const side = mirrored ? -1 : 1;
  const release = (event: PointerEvent<HTMLElement>): void => {
    if (last.current?.id === event.pointerId) last.current = null;
  };
  return {
    onPointerDown(event: PointerEvent<HTMLElement>) {
      // One finger turns; another that comes down, here or beside one on the rim, does not take the picture over.
      if (event.button !== 0 || still || last.current) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      last.current = { id: event.pointerId, x: event.clientX, y: event.clientY };
    },
    onPointerMove(event: PointerEvent<HTMLElement>) {
      const from = last.current;
      if (from?.id !== event.pointerId) return;
      control.current?.turn((event.clientX - from.x) * TURN_DEG_A_PX * side, (event.clientY - from.y) * TURN_DEG_A_PX);
      last.current = { id: event.pointerId, x: event.clientX, y: event.clientY };
    },
    onPointerUp: release,
    onPointerCancel: release,
    onLostPointerCapture: release,
    onKeyDown(event: KeyboardEvent) {
      const turns: Record<string, readonly [number, number]> = {
        ArrowLeft: [-TURN_DEG_A_KEY * side, 0],
        ArrowRight: [TURN_DEG_A_KEY * side, 0],
        ArrowUp: [0, TURN_DEG_A_KEY],
        ArrowDown: [0, -TURN_DEG_A_KEY],
      };
      const turn = turns[event.key];
      if (turn) control.current?.turn(...turn);
      else if (event.key === '+' || event.key === '=') control.current?.zoom(1 / 1.12);
      else if (event.key === '-') control.current?.zoom(1.12);
      else return;
      event.preventDefault();
    },
  };
}

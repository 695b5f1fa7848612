/**
 * Several scenes in one canvas: those that are seen divide it among them, each drawn into its own part; others are kept ready, so that
 * a change of scene costs no more than a frame. One canvas, since a second one would ask the card for a context of its own and run a loop of its own.
 */
import { memo, useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState, type ReactElement, type RefObject } from 'react';
import { Canvas, createPortal, useFrame, useThree } from '@react-three/fiber';
import { PerspectiveCamera, Scene } from 'three';
import type { LiveSource } from '../core/analysis';
import type { CameraControl } from './CameraRig';
import { type CanvasDoor, createCanvasDoor, useInCanvas } from './canvasDoor';
import { FlatSet } from './FlatSet';
import { palettes } from './palette';
import { PictureSizeContext } from './pictureSize';
import type { StageSetProps, StageSetScene } from './props';
import { SceneContents } from './SceneContents';
import { SceneSurround } from './SceneSurround';
import { type Cell, cellsOf } from './stageCells';
import { stageStyle } from './stageStyle';
import { useFineness } from './useFineness';
import { useOrbit } from './useOrbit';
import { useScene } from './useScene';
import { FIELD_OF_VIEW_DEG } from './views';
import { ownStageWords } from './words';

interface Size {
  readonly width: number;
  readonly height: number;
}

/** The part of the canvas that a scene is drawn into, kept by the scene's own cell. */
interface Drawn {
  readonly scene: Scene;
  readonly camera: PerspectiveCamera;
}

export function StageSet({ scenes, seen }: StageSetProps) {
  const ownWords = useMemo(ownStageWords, []);
  const [lost, setLost] = useState(false);
  const [size, setSize] = useState<Size | null>(null);
  const box = useRef<HTMLDivElement>(null);
  const [door] = useState(createCanvasDoor);
  const [drawn] = useState(() => new Map<string, Drawn>());
  const controls = useRef(new Map<string, RefObject<CameraControl | null>>());
  const [dragging, setDragging] = useState(false);
  const first = scenes.find(({ key }) => key === seen[0]) ?? scenes[0];
  const sources = useMemo(() => joined(scenes.map(({ props }) => props.live)), [scenes]);
  const fineness = useFineness(sources);
  const mirrored = first?.props.camera === 'mirror';
  const orbit = useOrbit([...controls.current.entries()].filter(([key]) => seen.includes(key)).map(([, one]) => one), mirrored, dragging);
  useLayoutEffect(() => {
    const element = box.current;
    if (element === null) return undefined;
    const measure = (): void => {
      const { clientWidth: width, clientHeight: height } = element;
      setSize((before) => (before?.width === width && before.height === height ? before : { width, height }));
    };
    measure();
    const sizes = new ResizeObserver(measure);
    sizes.observe(element);
    return () => sizes.disconnect();
  }, []);
  const cells = useMemo(() => (size === null ? [] : cellsOf(seen.length, size.width, size.height)), [size, seen]);
  const onLost = useCallback(() => setLost(true), []);
  const register = useCallback((key: string, control: RefObject<CameraControl | null>) => void controls.current.set(key, control), []);
  if (first === undefined) return null;
  const words = first.props.words ?? ownWords;
  if (lost) return <FlatSet scenes={scenes} seen={seen} message={words.contextLost} />;
  return (
    <div ref={box} className="stage-set" data-theme={first.props.theme} style={stageStyle(palettes[first.props.theme])}>
      <div className={mirrored ? 'stage-picture stage-mirrored' : 'stage-picture'} tabIndex={0} aria-label={words.turn} role="group" {...orbit}>
        <SetCanvas dpr={fineness.dpr} antialias={fineness.antialias} onLost={onLost} drawn={drawn} seen={seen} cells={cells} mirrored={mirrored} door={door} />
      </div>
      {size === null
        ? null
        : inOrder(scenes, seen).map((scene) => (
            <SetCell
              key={scene.key}
              scene={scene}
              cell={cells[seen.indexOf(scene.key)] ?? null}
              canvas={size}
              door={door}
              drawn={drawn}
              onCameraMove={fineness.onCameraMove}
              onDragging={setDragging}
              register={register}
            />
          ))}
    </div>
  );
}

interface SetCanvasProps extends DrawingProps {
  readonly dpr: number | [number, number];
  readonly antialias: boolean;
  readonly onLost: () => void;
  readonly door: CanvasDoor;
}

/** By itself, since a canvas is set up anew each time it is rendered; a scene that changes goes through the door. */
const SetCanvas = memo(function SetCanvas({ dpr, antialias, onLost, door, ...drawing }: SetCanvasProps) {
  return (
    <Canvas
      frameloop="demand"
      flat
      dpr={dpr}
      gl={{ antialias, powerPreference: 'high-performance' }}
      onCreated={({ gl }) => {
        gl.localClippingEnabled = true;
        gl.domElement.addEventListener('webglcontextlost', onLost, { once: true });
      }}
    >
      <Drawing {...drawing} />
      <FromDoor door={door} />
    </Canvas>
  );
});

/** Read in the order in which they are seen. */
function inOrder(scenes: readonly StageSetScene[], seen: readonly string[]): readonly StageSetScene[] {
  const place = ({ key }: StageSetScene): number => (seen.includes(key) ? seen.indexOf(key) : seen.length);
  return scenes.toSorted((a, b) => place(a) - place(b));
}

interface SetCellProps {
  readonly scene: StageSetScene;
  /** null: kept ready, not seen. */
  readonly cell: Cell | null;
  readonly canvas: Size;
  readonly door: CanvasDoor;
  readonly drawn: Map<string, Drawn>;
  readonly onCameraMove: () => void;
  readonly onDragging: (on: boolean) => void;
  readonly register: (key: string, control: RefObject<CameraControl | null>) => void;
}

const WHOLE: Cell = { left: 0, top: 0, width: 1, height: 1 };

const SetCell = memo(function SetCell({ scene: { key, props, caption }, cell, canvas, door, drawn, onCameraMove, onDragging, register }: SetCellProps) {
  const scene = useScene(props);
  const [own] = useState<Drawn>(() => ({ scene: new Scene(), camera: new PerspectiveCamera(FIELD_OF_VIEW_DEG, 1, 10, 2000) }));
  // The part last seen in: a scene that is only kept ready need not be laid out anew.
  const [last, setLast] = useState(cell ?? WHOLE);
  if (cell !== null && cell !== last) setLast(cell);
  const { width, height } = canvas;
  const size = useMemo(() => ({ width: last.width * width, height: last.height * height }), [last, width, height]);
  const { control, dragging } = scene;
  const seen = cell !== null;
  useEffect(() => register(key, control), [register, key, control]);
  useEffect(() => onDragging(dragging), [onDragging, dragging]);
  const contents = (
    <PictureSizeContext value={size}>
      <SceneContents props={props} scene={scene} seen={seen} onCameraMove={onCameraMove} />
    </PictureSizeContext>
  );
  useLayoutEffect(() => door.put(key, <InScene key={key} own={own} contents={contents} />));
  useEffect(() => {
    drawn.set(key, own);
    return () => {
      drawn.delete(key);
      door.put(key, null);
    };
  }, [drawn, door, key, own]);
  return (
    <div
      ref={scene.box}
      className="stage stage-cell"
      data-theme={props.theme}
      style={{ ...stageStyle(scene.palette), ...placeOf(last), display: seen ? undefined : 'none' }}
      role="group"
      aria-label={scene.words.stage}
    >
      {caption}
      <SceneSurround props={props} scene={scene} />
    </div>
  );
});

const placeOf = ({ left, top, width, height }: Cell) => ({
  left: `${left * 100}%`,
  top: `${top * 100}%`,
  width: `${width * 100}%`,
  height: `${height * 100}%`,
});

const InScene = ({ own, contents }: { readonly own: Drawn; readonly contents: ReactElement }) =>
  createPortal(contents, own.scene, { camera: own.camera });

const FromDoor = ({ door }: { readonly door: CanvasDoor }) => <>{useInCanvas(door)}</>;

interface DrawingProps {
  readonly drawn: ReadonlyMap<string, Drawn>;
  readonly seen: readonly string[];
  readonly cells: readonly Cell[];
  readonly mirrored: boolean;
}

/** Takes the drawing over from the canvas: each scene that is seen into its own part. */
function Drawing({ drawn, seen, cells, mirrored }: DrawingProps) {
  const invalidate = useThree((state) => state.invalidate);
  useEffect(() => invalidate(), [seen, cells, mirrored, invalidate]);
  useFrame(({ gl, size }) => {
    gl.setScissorTest(true);
    for (let index = 0; index < seen.length; index++) {
      const one = drawn.get(seen[index]!);
      const cell = cells[index];
      if (one === undefined || cell === undefined) continue;
      const width = cell.width * size.width;
      const height = cell.height * size.height;
      // The whole canvas is turned left for right, and with it the order of its parts.
      const left = (mirrored ? 1 - cell.left - cell.width : cell.left) * size.width;
      const bottom = (1 - cell.top - cell.height) * size.height;
      gl.setViewport(left, bottom, width, height);
      gl.setScissor(left, bottom, width, height);
      gl.render(one.scene, one.camera);
    }
    gl.setScissorTest(false);
    gl.setViewport(0, 0, size.width, size.height);
  }, 1);
  return null;
}

/** Several sources as one that only tells that something has moved. */
function joined(sources: readonly LiveSource[]): LiveSource {
  return {
    current: () => sources[0]?.current() ?? null,
    subscribe: (listener) => {
      const stops = sources.map((source) => source.subscribe(listener));
      return () => {
        for (const stop of stops) stop();
      };
    },
  };
}

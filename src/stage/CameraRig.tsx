/** Moves the camera to the named view (under 200 ms, at once with reduced motion) and turns it on request. */
import { useCallback, useEffect, useImperativeHandle, useRef, type Ref } from 'react';
import { useFrame, useThree } from '@react-three/fiber';
import type { PerspectiveCamera } from 'three';
import { usePictureSize } from './pictureSize';
import { STEEPEST_DEG, type View, fitView } from './views';

export interface CameraControl {
  /** Degrees round the player and up. */
  turn(azimuthDeg: number, elevationDeg: number): void;
  /** Factor on the distance. */
  zoom(factor: number): void;
}

interface RigProps {
  readonly view: View;
  readonly reducedMotion: boolean;
  readonly control: Ref<CameraControl>;
  /** Called before every picture in which the camera stands elsewhere. */
  readonly onMove: () => void;
}

const MOVE_SECONDS = 0.18;
const NEAREST = 0.45;
const FARTHEST = 2.2;

interface CameraPlace {
  azimuth: number;
  elevation: number;
  distance: number;
  x: number;
  y: number;
  z: number;
}

export function CameraRig({ view, reducedMotion, control, onMove }: RigProps) {
  const camera = useThree((state) => state.camera) as PerspectiveCamera;
  const size = usePictureSize();
  const aspect = size.width / Math.max(1, size.height);
  const askForFrame = useThree((state) => state.invalidate);
  const moved = useCallback(() => {
    onMove();
    askForFrame();
  }, [onMove, askForFrame]);
  const state = useRef<{ from: CameraPlace; to: CameraPlace; part: number; started: boolean; stands: PerspectiveCamera | null }>({
    from: emptyPlace(),
    to: emptyPlace(),
    part: 1,
    started: false,
    // The camera, once it stands where it is meant to.
    stands: null,
  });

  useEffect(() => {
    const move = state.current;
    keepPlace(move.from, move);
    const fit = fitView(view, aspect);
    move.to.azimuth = fit.azimuthDeg;
    move.to.elevation = fit.elevationDeg;
    move.to.distance = fit.distance;
    [move.to.x, move.to.y, move.to.z] = fit.target;
    move.part = move.started && !reducedMotion ? 0 : 1;
    move.started = true;
    move.stands = null;
    moved();
  }, [view, aspect, reducedMotion, camera, moved]);

  useImperativeHandle(
    control,
    () => ({
      turn(azimuthDeg, elevationDeg) {
        const { to } = state.current;
        to.azimuth += azimuthDeg;
        to.elevation = Math.min(STEEPEST_DEG, Math.max(-STEEPEST_DEG, to.elevation + elevationDeg));
        state.current.part = 1;
        state.current.stands = null;
        moved();
      },
      zoom(factor) {
        const { to } = state.current;
        const fit = fitView(view, aspect).distance;
        to.distance = Math.min(fit * FARTHEST, Math.max(fit * NEAREST, to.distance * factor));
        state.current.part = 1;
        state.current.stands = null;
        moved();
      },
    }),
    [moved, view, aspect],
  );

  useFrame((_, delta) => {
    const move = state.current;
    if (move.part < 1) {
      move.part = Math.min(1, move.part + Math.min(delta, 0.05) / MOVE_SECONDS);
      moved();
    } else if (move.stands === camera) return;
    camera.aspect = aspect;
    apply(camera, move.from, move.to, move.part);
    move.stands = move.part < 1 ? null : camera;
  });
  return null;
}

const emptyPlace = (): CameraPlace => ({ azimuth: 0, elevation: 0, distance: 1, x: 0, y: 0, z: 0 });

/** Keeps where the camera is now, so that a move can start in the middle of another. */
function keepPlace(out: CameraPlace, move: { from: CameraPlace; to: CameraPlace; part: number }): void {
  const eased = ease(move.part);
  for (const key of PLACE_KEYS) out[key] = move.from[key] + (move.to[key] - move.from[key]) * eased;
}

const PLACE_KEYS = ['azimuth', 'elevation', 'distance', 'x', 'y', 'z'] as const;
const ease = (t: number): number => t * t * (3 - 2 * t);

function apply(camera: PerspectiveCamera, from: CameraPlace, to: CameraPlace, part: number): void {
  const eased = ease(part);
  const azimuth = ((from.azimuth + (to.azimuth - from.azimuth) * eased) * Math.PI) / 180;
  const elevation = ((from.elevation + (to.elevation - from.elevation) * eased) * Math.PI) / 180;
  const distance = from.distance + (to.distance - from.distance) * eased;
  const x = from.x + (to.x - from.x) * eased;
  const y = from.y + (to.y - from.y) * eased;
  const z = from.z + (to.z - from.z) * eased;
  camera.position.set(
    x - Math.sin(azimuth) * Math.cos(elevation) * distance,
    y + Math.sin(elevation) * distance,
    z + Math.cos(azimuth) * Math.cos(elevation) * distance,
  );
  camera.lookAt(x, y, z);
  camera.near = distance * 0.2;
  camera.far = distance * 3;
  camera.updateProjectionMatrix();
  camera.updateMatrixWorld();
}

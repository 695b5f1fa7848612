/** The path as a ribbon, the fan of horn axes (predicted solid with round marks, measured with square ones), the held ghost dashed. */
import { useCallback, useMemo, useRef } from 'react';
import { BufferGeometry, CatmullRomCurve3, CylinderGeometry, DoubleSide, type Group, Matrix4, Quaternion, TubeGeometry, Vector3 } from 'three';
import type { LiveFrame, LiveSource } from '../core/analysis';
import type { Vec3 } from '../core/vector';
import { type AxisLine, type Fan as FanData, pointOn, stripBetween } from './fanShape';
import { geometryOf, useDisposal } from './geometryOf';
import type { StagePalette } from './palette';
import { createStand, standMatrix, writeStand } from './stand';
import { useLiveFrame } from './useLiveFrame';

interface FanProps {
  readonly fan: FanData;
  readonly lengthMm: number;
  /** Where the sheet between the axes begins. */
  readonly sheetFromMm: number;
  readonly selected: number | null;
  readonly palette: StagePalette;
}

const LINE_RADIUS_MM = 0.17;

export function Fan({ fan, lengthMm, sheetFromMm, selected, palette }: FanProps) {
  const sheet = useMemo(() => {
    const strip = stripBetween(fan.sheet, sheetFromMm, lengthMm);
    return geometryOf(strip.positions, strip.index);
  }, [fan, sheetFromMm, lengthMm]);
  const ribbon = useMemo(() => tubeThrough(fan.sheet.map((pose) => pose.from), 0.3), [fan]);
  const arc = useMemo(() => tubeThrough(fan.sheet.map((pose) => pointOn(pose, lengthMm)), 0.22), [fan, lengthMm]);
  useDisposal(useMemo(() => [sheet, ribbon, arc], [sheet, ribbon, arc]));
  return (
    <group>
      <mesh geometry={sheet} renderOrder={3}>
        <meshBasicMaterial color={palette.predicted} transparent opacity={0.14} depthWrite={false} side={DoubleSide} />
      </mesh>
      <mesh geometry={arc}>
        <meshBasicMaterial color={palette.predicted} />
      </mesh>
      <mesh geometry={ribbon} renderOrder={20}>
        <meshBasicMaterial color={palette.predicted} depthTest={false} transparent opacity={0.9} />
      </mesh>
      {fan.predicted.map((line) => (
        <PredictedAxis key={line.readingIndex} line={line} lengthMm={lengthMm} chosen={line.readingIndex === selected} palette={palette} />
      ))}
      {fan.measured.map((line) => (
        <MeasuredAxis key={line.readingIndex} line={line} lengthMm={lengthMm} palette={palette} />
      ))}
    </group>
  );
}

interface AxisProps {
  readonly line: AxisLine;
  readonly lengthMm: number;
  readonly palette: StagePalette;
}

function PredictedAxis({ line, lengthMm, chosen, palette }: AxisProps & { chosen: boolean }) {
  const tip = pointOn(line, lengthMm);
  return (
    <group>
      <Stick line={line} lengthMm={lengthMm} radiusMm={chosen ? LINE_RADIUS_MM * 2 : LINE_RADIUS_MM} color={palette.predicted} />
      <mesh position={tip as unknown as Vector3}>
        <sphereGeometry args={[chosen ? 1.2 : 0.8, 20, 14]} />
        <meshBasicMaterial color={palette.predicted} />
      </mesh>
      <mesh position={line.from as unknown as Vector3} renderOrder={21}>
        <sphereGeometry args={[chosen ? 0.85 : 0.55, 16, 12]} />
        <meshBasicMaterial color={palette.predicted} depthTest={false} transparent />
      </mesh>
    </group>
  );
}

function MeasuredAxis({ line, lengthMm, palette }: AxisProps) {
  return (
    <group>
      <Stick line={line} lengthMm={lengthMm} radiusMm={LINE_RADIUS_MM} color={palette.measured} />
      <mesh position={pointOn(line, lengthMm) as unknown as Vector3}>
        <boxGeometry args={[1.3, 1.3, 1.3]} />
        <meshBasicMaterial color={palette.measured} />
      </mesh>
    </group>
  );
}

function Stick({ line, lengthMm, radiusMm, color }: { line: AxisLine; lengthMm: number; radiusMm: number; color: string }) {
  const geometry = useMemo(() => stick(line.from, line.axis, 0, lengthMm, radiusMm), [line, lengthMm, radiusMm]);
  useDisposal(useMemo(() => [geometry], [geometry]));
  return (
    <mesh geometry={geometry}>
      <meshBasicMaterial color={color} />
    </mesh>
  );
}

interface GhostProps {
  readonly live: LiveSource;
  readonly lengthMm: number;
  readonly outerRadiusMm: number;
  readonly palette: StagePalette;
}

const DASHES = 14;
const RING_DASHES = 30;

/** The horn as it would stand if it were held as at home: a dashed rim and a dashed axis. */
export function HeldGhost({ live, lengthMm, outerRadiusMm, palette }: GhostProps) {
  const group = useRef<Group>(null);
  const geometry = useMemo(() => ghostGeometry(lengthMm, outerRadiusMm), [lengthMm, outerRadiusMm]);
  useDisposal(useMemo(() => [geometry], [geometry]));
  const stand = useMemo(createStand, []);
  const update = useCallback(
    (frame: LiveFrame) => {
      const object = group.current;
      if (!object) return;
      writeStand(frame.held.pose, stand);
      standMatrix(stand, object.matrix.elements);
      object.matrixWorldNeedsUpdate = true;
    },
    [stand],
  );
  useLiveFrame(live, update);
  return (
    <group ref={group} matrixAutoUpdate={false}>
      <mesh geometry={geometry} renderOrder={22}>
        <meshBasicMaterial color={palette.held} transparent opacity={0.95} />
      </mesh>
    </group>
  );
}

function ghostGeometry(lengthMm: number, radiusMm: number): BufferGeometry {
  const pieces: BufferGeometry[] = [];
  const pitch = lengthMm / DASHES;
  for (let dash = 0; dash < DASHES; dash++) {
    pieces.push(stick([0, 0, 0], [0, 0, 1], dash * pitch, dash * pitch + pitch * 0.58, LINE_RADIUS_MM * 1.5));
  }
  for (let dash = 0; dash < RING_DASHES; dash++) {
    const angle = (2 * Math.PI * dash) / RING_DASHES;
    const next = angle + ((2 * Math.PI) / RING_DASHES) * 0.58;
    const a: Vec3 = [Math.cos(angle) * radiusMm, Math.sin(angle) * radiusMm, 3];
    const b: Vec3 = [Math.cos(next) * radiusMm, Math.sin(next) * radiusMm, 3];
    const size = Math.hypot(b[0] - a[0], b[1] - a[1]);
    pieces.push(stick(a, [(b[0] - a[0]) / size, (b[1] - a[1]) / size, 0], 0, size, LINE_RADIUS_MM * 1.5));
  }
  return joined(pieces);
}

/** A thin rod on an axis between two distances. */
function stick(from: Vec3, axis: Vec3, near: number, far: number, radiusMm: number): BufferGeometry {
  const geometry = new CylinderGeometry(radiusMm, radiusMm, far - near, 10, 1);
  const turned = new Quaternion().setFromUnitVectors(new Vector3(0, 1, 0), new Vector3(...axis));
  const middle = pointOn({ from, axis }, (near + far) / 2);
  return geometry.applyMatrix4(new Matrix4().compose(new Vector3(...middle), turned, new Vector3(1, 1, 1)));
}

function tubeThrough(points: readonly Vec3[], radiusMm: number): BufferGeometry {
  const apart = points.filter((point, index) => index === 0 || distance(point, points[index - 1]!) > 1e-4);
  if (apart.length < 2) return new BufferGeometry();
  const curve = new CatmullRomCurve3(apart.map((point) => new Vector3(...point)), false, 'centripetal');
  return new TubeGeometry(curve, Math.min(240, apart.length * 2), radiusMm, 8);
}

const distance = (a: Vec3, b: Vec3): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** One geometry of many small ones, so that the ghost is a single draw. */
function joined(pieces: readonly BufferGeometry[]): BufferGeometry {
  const positions: number[] = [];
  const index: number[] = [];
  for (const piece of pieces) {
    const first = positions.length / 3;
    positions.push(...piece.attributes['position']!.array);
    index.push(...Array.from(piece.index!.array, (vertex) => vertex + first));
    piece.dispose();
  }
  return geometryOf(Float32Array.from(positions), Uint32Array.from(index));
}

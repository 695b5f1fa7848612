/** The path as a ribbon, the fan of horn axes (predicted solid with round marks, measured with square ones), the held ghost dashed. */
import { useCallback, useLayoutEffect, useMemo, useRef } from 'react';
import {
  BoxGeometry,
  type BufferGeometry,
  CylinderGeometry,
  DoubleSide,
  type Group,
  type InstancedMesh,
  Matrix4,
  Quaternion,
  SphereGeometry,
  Vector3,
} from 'three';
import type { LiveFrame, LiveSource } from '../core/analysis';
import type { Vec3 } from '../core/vector';
import { type AxisLine, type Fan as FanData, pointOn, stripBetween, tubeThrough } from './fanShape';
import { geometryOf, joinedGeometry, useDisposal } from './geometryOf';
import type { StagePalette } from './palette';
import { createStand, standMatrix, writeStand } from './stand';
import { useLiveFrame } from './useLiveFrame';

interface FanProps {
  readonly fan: FanData;
  readonly lengthMm: number;
  /** Where the sheet between the axes begins. */
  readonly sheetFromMm: number;
  readonly selected: number | null;
  /** Factor on the thickness of lines and marks: thinner where the tips come toward the viewer. */
  readonly bold: number;
  readonly palette: StagePalette;
}

const LINE_RADIUS_MM = 0.17;

/** A drag makes a new fan every frame: lines and marks are instances whose matrices are overwritten, not new objects. */
export function Fan({ fan, lengthMm, sheetFromMm, selected, bold, palette }: FanProps) {
  const ways = useMemo(
    () =>
      fan.sheets.map((poses) => {
        const made = (shape: ReturnType<typeof stripBetween>): BufferGeometry => geometryOf(shape.positions, shape.index, { normals: false });
        return {
          sheet: made(stripBetween(poses, sheetFromMm, lengthMm)),
          ribbon: made(tubeThrough(poses.map((pose) => pose.from), 0.3)),
          arc: made(tubeThrough(poses.map((pose) => pointOn(pose, lengthMm)), 0.22 * bold)),
        };
      }),
    [fan, sheetFromMm, lengthMm, bold],
  );
  useDisposal(useMemo(() => ways.flatMap((way) => Object.values(way)), [ways]));
  const shapes = useMemo(() => {
    const rod = new CylinderGeometry(1, 1, 1, 8, 1).rotateX(Math.PI / 2).translate(0, 0, 0.5);
    return { rod, ball: new SphereGeometry(1, 18, 12), box: new BoxGeometry(1, 1, 1) };
  }, []);
  useDisposal(useMemo(() => Object.values(shapes), [shapes]));

  const rods = (lines: readonly AxisLine[], out: Instances): void => {
    for (const line of lines) {
      const radius = LINE_RADIUS_MM * bold * (line.readingIndex === selected && lines === fan.predicted ? 2 : 1);
      out.add(line.from, line.axis, radius, lengthMm);
    }
  };
  const size = (line: AxisLine, plain: number, chosen: number): number => (line.readingIndex === selected ? chosen : plain);
  return (
    <group>
      {ways.map(({ sheet, ribbon, arc }, way) => (
        <group key={way}>
          <mesh geometry={sheet} renderOrder={3}>
            <meshBasicMaterial color={palette.predicted} transparent opacity={0.14} depthWrite={false} side={DoubleSide} forceSinglePass />
          </mesh>
          <mesh geometry={arc}>
            <meshBasicMaterial color={palette.predicted} />
          </mesh>
          <mesh geometry={ribbon} renderOrder={20}>
            <meshBasicMaterial color={palette.predicted} depthTest={false} transparent opacity={0.9} />
          </mesh>
        </group>
      ))}
      <Repeated shape={shapes.rod} color={palette.predicted} write={(out) => rods(fan.predicted, out)} />
      <Repeated
        shape={shapes.ball}
        color={palette.predicted}
        write={(out) => fan.predicted.forEach((line) => out.add(pointOn(line, lengthMm), line.axis, size(line, 0.8, 1.2) * bold))}
      />
      <Repeated
        shape={shapes.ball}
        color={palette.predicted}
        throughAll
        write={(out) => fan.predicted.forEach((line) => out.add(line.from, line.axis, size(line, 0.55, 0.85)))}
      />
      <Repeated shape={shapes.rod} color={palette.measured} write={(out) => rods(fan.measured, out)} />
      <Repeated
        shape={shapes.box}
        color={palette.measured}
        write={(out) => fan.measured.forEach((line) => out.add(pointOn(line, lengthMm), line.axis, 1.3 * bold))}
      />
    </group>
  );
}

interface RepeatedProps {
  readonly shape: BufferGeometry;
  readonly color: string;
  /** Drawn over everything, even where it lies inside the cup. */
  readonly throughAll?: boolean;
  readonly write: (out: Instances) => void;
}

/** Room for this many readings at once. */
const MOST_INSTANCES = 256;

function Repeated({ shape, color, throughAll = false, write }: RepeatedProps) {
  const mesh = useRef<InstancedMesh>(null);
  useLayoutEffect(() => {
    const object = mesh.current;
    if (!object) return;
    const out = new Instances(object.instanceMatrix.array as Float32Array);
    write(out);
    object.count = out.count;
    object.instanceMatrix.needsUpdate = true;
  });
  return (
    <instancedMesh ref={mesh} args={[shape, undefined, MOST_INSTANCES]} frustumCulled={false} renderOrder={throughAll ? 21 : 0}>
      <meshBasicMaterial color={color} depthTest={!throughAll} transparent={throughAll} />
    </instancedMesh>
  );
}

/** Writes instance matrices: the shape's z axis along `axis`, scaled across it by `across` and along it by `along`. */
class Instances {
  count = 0;
  private readonly array: Float32Array;

  constructor(array: Float32Array) {
    this.array = array;
  }

  add(at: Vec3, axis: Vec3, across: number, along = across): void {
    if (this.count === MOST_INSTANCES) return;
    const level = Math.hypot(axis[0], axis[2]) || 1;
    const start = this.count * 16;
    this.array.set([(axis[2] / level) * across, 0, (-axis[0] / level) * across, 0], start);
    const up = across / level;
    this.array.set([-axis[1] * axis[0] * up, level * across, -axis[1] * axis[2] * up, 0], start + 4);
    this.array.set([axis[0] * along, axis[1] * along, axis[2] * along, 0], start + 8);
    this.array.set([at[0], at[1], at[2], 1], start + 12);
    this.count++;
  }
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
  return joinedGeometry(pieces);
}

/** A thin rod on an axis between two distances. */
function stick(from: Vec3, axis: Vec3, near: number, far: number, radiusMm: number): BufferGeometry {
  const geometry = new CylinderGeometry(radiusMm, radiusMm, far - near, 10, 1);
  const turned = new Quaternion().setFromUnitVectors(new Vector3(0, 1, 0), new Vector3(...axis));
  const middle = pointOn({ from, axis }, (near + far) / 2);
  return geometry.applyMatrix4(new Matrix4().compose(new Vector3(...middle), turned, new Vector3(1, 1, 1)));
}

/** The path as a ribbon, the fan of horn axes (predicted solid with round marks, measured with square ones), the held ghost dashed. */
import { memo, useCallback, useLayoutEffect, useMemo, useRef } from 'react';
import {
  BoxGeometry,
  type BufferGeometry,
  CylinderGeometry,
  DoubleSide,
  type Group,
  Matrix4,
  MeshBasicMaterial,
  Quaternion,
  SphereGeometry,
  Vector3,
} from 'three';
import type { LiveFrame, LiveSource } from '../core/analysis';
import type { Vec3 } from '../core/vector';
import { type AxisLine, type Fan as FanData, type FanPose, type Shape, placed, pointOn, stripBetween, tubeThrough } from './fanShape';
import { geometryOf, joinedGeometry, linear, useDisposal } from './geometryOf';
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

/** Lines and marks of a kind are one object, however many notes there are: each of its own would cost a draw call a frame. */
export const Fan = memo(function Fan({ fan, lengthMm, sheetFromMm, selected, bold, palette }: FanProps) {
  const tip = useCallback((line: FanPose): Vec3 => pointOn(line, lengthMm), [lengthMm]);
  const geometries = useMemo(() => {
    const rod = (line: AxisLine): Shape => tubeThrough([line.from, tip(line)], LINE_RADIUS_MM * bold);
    const predicted = [
      ...fan.sheets.map((poses) => tubeThrough(poses.map(tip), 0.22 * bold)),
      ...fan.predicted.map(rod),
      ...fan.predicted.map((line) => placed(BALL, tip(line), line.axis, 0.8 * bold)),
    ];
    const measured = [
      ...fan.measured.map(rod),
      ...fan.measured.map((line) => placed(BOX, tip(line), line.axis, 1.3 * bold)),
    ];
    const through = [
      ...fan.sheets.map((poses) => tubeThrough(poses.map((pose) => pose.from), 0.3)),
      ...fan.predicted.map((line) => placed(BALL, line.from, line.axis, 0.55)),
    ];
    return {
      sheet: drawn(fan.sheets.map((poses) => coloured(stripBetween(poses, sheetFromMm, lengthMm), palette.predicted))),
      solid: drawn([
        ...predicted.map((shape) => coloured(shape, palette.predicted)),
        ...measured.map((shape) => coloured(shape, palette.measured)),
      ]),
      through: drawn(through.map((shape) => coloured(shape, palette.predicted))),
    };
  }, [fan, tip, lengthMm, sheetFromMm, bold, palette]);
  // The chosen note's line is drawn over its own, thicker: as notes pass under a hand, the rest stays as it is.
  const chosen = useMemo(() => fan.predicted.filter(({ readingIndex }) => readingIndex === selected), [fan, selected]);
  useDisposal(useMemo(() => Object.values(geometries), [geometries]));
  return (
    <group>
      <mesh geometry={geometries.sheet} renderOrder={3}>
        <meshBasicMaterial vertexColors transparent opacity={0.14} depthWrite={false} side={DoubleSide} forceSinglePass />
      </mesh>
      <mesh geometry={geometries.solid}>
        <meshBasicMaterial vertexColors />
      </mesh>
      <mesh geometry={geometries.through} renderOrder={20}>
        <meshBasicMaterial vertexColors depthTest={false} transparent opacity={0.9} />
      </mesh>
      <Chosen lines={chosen} tip={tip} bold={bold} color={palette.predicted} />
    </group>
  );
});

interface ChosenProps {
  readonly lines: readonly AxisLine[];
  readonly tip: (line: FanPose) => Vec3;
  readonly bold: number;
  readonly color: string;
}

const MOST_WAYS = 2;

/** Shapes and materials that are made once and put where the chosen note is, once up and once down where the path has two ways: nothing is made as notes pass. */
function Chosen({ lines, tip, bold, color }: ChosenProps) {
  const made = useMemo(
    () => ({
      rod: new CylinderGeometry(1, 1, 1, ROD_SIDES, 1, true),
      ball: new SphereGeometry(1, 14, 10),
      solid: new MeshBasicMaterial(),
      through: new MeshBasicMaterial({ depthTest: false, transparent: true, opacity: 0.9 }),
    }),
    [],
  );
  useDisposal(useMemo(() => Object.values(made), [made]));
  useLayoutEffect(() => {
    made.solid.color.set(color);
    made.through.color.set(color);
  }, [made, color]);
  return Array.from({ length: MOST_WAYS }, (_, way) => {
    const line = lines[way];
    const [from, to] = line === undefined ? [ORIGIN, ORIGIN] : [new Vector3(...line.from), new Vector3(...tip(line))];
    const along = to.clone().sub(from);
    const radius = LINE_RADIUS_MM * bold * 2;
    return (
      <group key={way} visible={line !== undefined}>
        <mesh
          geometry={made.rod}
          material={made.solid}
          position={from.clone().add(to).multiplyScalar(0.5)}
          quaternion={new Quaternion().setFromUnitVectors(UPWARD, along.clone().normalize())}
          scale={[radius, along.length(), radius]}
        />
        <mesh geometry={made.ball} material={made.solid} position={to} scale={1.2 * bold} />
        <mesh geometry={made.ball} material={made.through} position={from} scale={0.85} renderOrder={20} />
      </group>
    );
  });
}

const ROD_SIDES = 8;
const ORIGIN = new Vector3();
/** Along which a cylinder is made. */
const UPWARD = new Vector3(0, 1, 0);

const BALL = shapeOf(new SphereGeometry(1, 14, 10));
const BOX = shapeOf(new BoxGeometry(1, 1, 1));

function shapeOf(geometry: BufferGeometry): Shape {
  return { positions: geometry.attributes['position']!.array as Float32Array, index: Uint32Array.from(geometry.index!.array) };
}

function coloured({ positions, index }: Shape, color: string): BufferGeometry {
  const rgb = linear(color);
  const values = new Float32Array(positions.length);
  for (let place = 0; place < values.length; place += 3) values.set(rgb, place);
  return geometryOf(positions, index, { values, normals: false });
}

/** All pieces as one; without any, nothing to draw. */
const drawn = (pieces: readonly BufferGeometry[]): BufferGeometry =>
  joinedGeometry(pieces.length > 0 ? pieces : [coloured({ positions: new Float32Array(0), index: new Uint32Array(0) }, '#000000')]);

interface GhostProps {
  readonly live: LiveSource;
  readonly lengthMm: number;
  readonly outerRadiusMm: number;
  readonly palette: StagePalette;
}

const DASHES = 14;
const RING_DASHES = 30;

/** The horn as it would stand if it were held as at home: a dashed rim and a dashed axis. */
export const HeldGhost = memo(function HeldGhost({ live, lengthMm, outerRadiusMm, palette }: GhostProps) {
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
});

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

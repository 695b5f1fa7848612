/** Rim, cup, shank and a short length of tube on the horn's axis, and the pressure round the rim as a coloured band. */
import { memo, useCallback, useMemo, useRef } from 'react';
import { type BufferAttribute, type BufferGeometry, Color, DoubleSide, type Group, type MeshStandardMaterial, ShapeUtils, SRGBColorSpace, Vector2 } from 'three';
import type { LiveFrame, LiveSource } from '../core/analysis';
import { cividisInto } from './cividis';
import { geometryOf, useDisposal } from './geometryOf';
import type { StagePalette } from './palette';
import { type InstrumentProfiles, type Profile, turn } from './rimShape';
import { createStand, standMatrix, writeStand } from './stand';
import { useLiveFrame } from './useLiveFrame';

interface InstrumentProps {
  readonly profiles: InstrumentProfiles;
  readonly live: LiveSource;
  readonly horn: 'follow' | 'held';
  /** Half of it taken away on the player's right, so that the air's side is seen. */
  readonly halved: boolean;
  /** What would hide the mouth is seen through: the cup a little, or from the front the rim as well. */
  readonly seenThrough: 'none' | 'cup' | 'all';
  readonly fullScaleKPa: number;
  readonly palette: StagePalette;
}

const TURNS = 96;

export const Instrument = memo(function Instrument({ profiles, live, horn, halved, seenThrough, fullScaleKPa, palette }: InstrumentProps) {
  const group = useRef<Group>(null);
  const from = halved ? -Math.PI / 2 : 0;
  const to = halved ? Math.PI / 2 : 2 * Math.PI;
  const solids = useMemo(() => {
    const turned = (profile: Profile) => {
      const shape = turn(profile, TURNS, from, to);
      return geometryOf(shape.positions, shape.index);
    };
    return { rim: turned(profiles.rim), body: turned(profiles.body) };
  }, [profiles, from, to]);
  const cutFaces = useMemo(() => (halved ? [profiles.rim, profiles.body].map(cutFace) : []), [profiles, halved]);
  const glass = seenThrough === 'all';
  const band = glass ? profiles.back : profiles.collar;
  const collar = useMemo(() => {
    const shape = turn(band, TURNS, from, to);
    const colors = new Float32Array(shape.positions.length);
    return geometryOf(shape.positions, shape.index, { values: colors, size: 3 });
  }, [band, from, to]);
  useDisposal(useMemo(() => [solids.rim, solids.body, ...cutFaces], [solids, cutFaces]));
  useDisposal(useMemo(() => [collar], [collar]));

  // In the section the band is cut away; two strips along the rim's face say what presses on each lip.
  const strips = useMemo(() => (halved ? [sectionStrip(profiles.face, 1), sectionStrip(profiles.face, -1)] : []), [profiles, halved]);
  useDisposal(strips);
  const stand = useMemo(createStand, []);
  const rgb = useMemo(() => ({ values: new Float32Array(3), color: new Color() }), []);
  const update = useCallback(
    (frame: LiveFrame) => {
      writeStand(frame.shown, stand);
      const object = group.current;
      if (object) {
        standMatrix(stand, object.matrix.elements);
        object.matrixWorldNeedsUpdate = true;
      }
      const ring = (horn === 'held' ? frame.held : frame.follow).load.ringPressureKPa;
      const attribute = collar.attributes['color'] as BufferAttribute;
      const colors = attribute.array as Float32Array;
      const rows = band.length;
      for (let column = 0; column <= TURNS; column++) {
        const turned = (from + ((to - from) * column) / TURNS) / (2 * Math.PI);
        const place = (turned < 0 ? turned + 1 : turned) * ring.length;
        const index = Math.floor(place);
        const part = place - index;
        writeColor(rgb, (ring[index % ring.length]! * (1 - part) + ring[(index + 1) % ring.length]! * part) / fullScaleKPa);
        for (let place = column * rows * 3, end = place + rows * 3; place < end; place += 3) {
          colors[place] = rgb.color.r;
          colors[place + 1] = rgb.color.g;
          colors[place + 2] = rgb.color.b;
        }
      }
      attribute.needsUpdate = true;
      for (let side = 0; side < strips.length; side++) {
        writeColor(rgb, ring[Math.round(ring.length * (side === 0 ? 0.25 : 0.75))]! / fullScaleKPa);
        const painted = strips[side]!.attributes['color'] as BufferAttribute;
        for (let vertex = 0; vertex < painted.count; vertex++) painted.setXYZ(vertex, rgb.color.r, rgb.color.g, rgb.color.b);
        painted.needsUpdate = true;
      }
    },
    [collar, strips, band, horn, from, to, fullScaleKPa, stand, rgb],
  );
  useLiveFrame(live, update);

  return (
    <group ref={group} matrixAutoUpdate={false}>
      {glass ? (
        <>
          <Glass geometry={solids.rim} opacity={0.42} palette={palette} />
          <Glass geometry={solids.body} opacity={0.1} palette={palette} />
        </>
      ) : (
        <>
          <mesh geometry={solids.rim}>
            <Brass palette={palette} />
          </mesh>
          {seenThrough === 'cup' ? (
            <VeiledBody geometry={solids.body} palette={palette} />
          ) : (
            <mesh geometry={solids.body}>
              <Brass palette={palette} />
            </mesh>
          )}
        </>
      )}
      <mesh geometry={collar}>
        <meshBasicMaterial vertexColors side={DoubleSide} polygonOffset polygonOffsetFactor={-1} polygonOffsetUnits={-1} />
      </mesh>
      {strips.map((geometry) => (
        <mesh key={geometry.uuid} geometry={geometry} renderOrder={12}>
          <meshBasicMaterial vertexColors side={DoubleSide} />
        </mesh>
      ))}
      {cutFaces.map((geometry, index) => (
        <mesh key={index} geometry={geometry}>
          <meshStandardMaterial color={palette.brassCut} roughness={0.9} side={DoubleSide} />
        </mesh>
      ))}
    </group>
  );
});

function Brass({ palette }: { palette: StagePalette }) {
  return <meshStandardMaterial color={palette.brass} metalness={0.85} roughness={0.36} side={DoubleSide} ref={brightenBrass} />;
}

/** Brass is lit mostly by its surroundings. */
function brightenBrass(material: MeshStandardMaterial | null): void {
  if (material) material.envMapIntensity = 1.5;
}

/** Depth first, so that only the side toward the viewer is drawn; after the lips, which are seen through it. */
function VeiledBody({ geometry, palette }: { geometry: BufferGeometry; palette: StagePalette }) {
  return (
    <>
      <mesh geometry={geometry} renderOrder={8}>
        <meshBasicMaterial colorWrite={false} transparent />
      </mesh>
      <mesh geometry={geometry} renderOrder={9}>
        <meshStandardMaterial color={palette.brass} metalness={0.6} roughness={0.36} transparent opacity={0.58} ref={brightenBrass} />
      </mesh>
    </>
  );
}

function Glass({ geometry, opacity, palette }: { geometry: BufferGeometry; opacity: number; palette: StagePalette }) {
  return (
    <mesh geometry={geometry} renderOrder={8}>
      <meshStandardMaterial color={palette.brass} metalness={0.3} roughness={0.4} transparent opacity={opacity} depthWrite={false} />
    </mesh>
  );
}

/** Writes the linear colour for a part of full scale. */
function writeColor(rgb: { readonly values: Float32Array; readonly color: Color }, part: number): void {
  cividisInto(part, rgb.values, 0);
  rgb.color.setRGB(rgb.values[0]!, rgb.values[1]!, rgb.values[2]!, SRGBColorSpace);
}

const STRIP_MM = 1.1;
/** Before the lips' cut face, toward the viewer. */
const STRIP_BEFORE_MM = 0.5;

function sectionStrip(face: Profile, sign: 1 | -1): BufferGeometry {
  const positions = new Float32Array(face.length * 6);
  const index: number[] = [];
  face.forEach(([radius, along], place) => {
    positions.set([-STRIP_BEFORE_MM, radius * sign, along, -STRIP_BEFORE_MM, radius * sign, along + STRIP_MM], place * 6);
    if (place > 0) index.push(place * 2 - 2, place * 2 - 1, place * 2, place * 2, place * 2 - 1, place * 2 + 1);
  });
  return geometryOf(positions, Uint32Array.from(index), { values: new Float32Array(face.length * 6), size: 3 });
}

/** The two cut faces of a halved turned body, in its plane across = 0. */
function cutFace(profile: Profile): BufferGeometry {
  const contour = profile.slice(0, -1).map(([radius, along]) => new Vector2(radius, along));
  const triangles = ShapeUtils.triangulateShape(contour, []);
  const count = contour.length;
  const positions = new Float32Array(count * 2 * 3);
  contour.forEach((point, index) => {
    positions.set([0, point.x, point.y], index * 3);
    positions.set([0, -point.x, point.y], (count + index) * 3);
  });
  const index = triangles.flatMap(([a, b, c]) => [a!, b!, c!, a! + count, c! + count, b! + count]);
  return geometryOf(positions, Uint32Array.from(index));
}

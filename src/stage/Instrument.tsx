/** Rim, cup, shank and a short length of tube on the horn's axis, and the pressure round the rim as a coloured band. */
import { useCallback, useMemo, useRef } from 'react';
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
  /** Cup and shank as if of glass: from the front they would hide the mouth. */
  readonly glass: boolean;
  readonly fullScaleKPa: number;
  readonly palette: StagePalette;
}

const TURNS = 96;

export function Instrument({ profiles, live, horn, halved, glass, fullScaleKPa, palette }: InstrumentProps) {
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
  const band = glass ? profiles.back : profiles.collar;
  const collar = useMemo(() => {
    const shape = turn(band, TURNS, from, to);
    const colors = new Float32Array(shape.positions.length);
    return geometryOf(shape.positions, shape.index, { values: colors, size: 3 });
  }, [band, from, to]);
  useDisposal(useMemo(() => [solids.rim, solids.body, ...cutFaces], [solids, cutFaces]));
  useDisposal(useMemo(() => [collar], [collar]));

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
      const rows = band.length;
      for (let column = 0; column <= TURNS; column++) {
        const turned = (from + ((to - from) * column) / TURNS) / (2 * Math.PI);
        const place = (turned < 0 ? turned + 1 : turned) * ring.length;
        const index = Math.floor(place);
        const part = place - index;
        const kPa = ring[index % ring.length]! * (1 - part) + ring[(index + 1) % ring.length]! * part;
        cividisInto(kPa / fullScaleKPa, rgb.values, 0);
        rgb.color.setRGB(rgb.values[0]!, rgb.values[1]!, rgb.values[2]!, SRGBColorSpace);
        for (let row = 0; row < rows; row++) attribute.setXYZ(column * rows + row, rgb.color.r, rgb.color.g, rgb.color.b);
      }
      attribute.needsUpdate = true;
    },
    [collar, band, horn, from, to, fullScaleKPa, stand, rgb],
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
          <mesh geometry={solids.body}>
            <Brass palette={palette} />
          </mesh>
        </>
      )}
      <mesh geometry={collar}>
        <meshBasicMaterial vertexColors side={DoubleSide} polygonOffset polygonOffsetFactor={-1} polygonOffsetUnits={-1} />
      </mesh>
      {cutFaces.map((geometry, index) => (
        <mesh key={index} geometry={geometry}>
          <meshStandardMaterial color={palette.brassCut} roughness={0.9} side={DoubleSide} />
        </mesh>
      ))}
    </group>
  );
}

function Brass({ palette }: { palette: StagePalette }) {
  return <meshStandardMaterial color={palette.brass} metalness={0.85} roughness={0.36} side={DoubleSide} ref={brightenBrass} />;
}

/** Brass is lit mostly by its surroundings. */
function brightenBrass(material: MeshStandardMaterial | null): void {
  if (material) material.envMapIntensity = 1.5;
}

function Glass({ geometry, opacity, palette }: { geometry: BufferGeometry; opacity: number; palette: StagePalette }) {
  return (
    <mesh geometry={geometry} renderOrder={8}>
      <meshStandardMaterial color={palette.brass} metalness={0.3} roughness={0.4} transparent opacity={opacity} depthWrite={false} />
    </mesh>
  );
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

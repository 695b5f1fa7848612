/**
 * The lips' outside, translucent: a first pass writes depth only, so that the sheet never shows through itself. Both sides are then drawn in
 * one pass: in two, three makes the material ready twice a frame (likewise in Fan and SectionCut).
 */
import { memo, useCallback, useMemo } from 'react';
import { BufferAttribute, BufferGeometry, DoubleSide, type Plane, Sphere, Vector3 } from 'three';
import type { LiveFrame, LiveSource } from '../core/analysis';
import type { JawSpec } from '../core/specs';
import { geometryOf, linear, mixed, useDisposal } from './geometryOf';
import { jawMove } from './jawMove';
import { LIP_COLUMNS, LIP_ROWS, type LipSheet, columnMm, lipTint, moveLips } from './lipSheet';
import type { StagePalette } from './palette';
import { createStand, writeStand } from './stand';
import { useLiveFrame } from './useLiveFrame';

interface LipsProps {
  readonly sheet: LipSheet;
  /** Where the lower jaw stood when the sheet's table was made. */
  readonly restJaw: JawSpec | null;
  /** The record's own jaw, where a frame names none. */
  readonly ownJaw: JawSpec | null;
  readonly lipLineMm: number;
  readonly live: LiveSource;
  readonly palette: StagePalette;
  readonly cut: readonly Plane[];
}

const RED_OPACITY = 0.68;
const SKIN_OPACITY = 0.42;
const LID_OPACITY = 0.62;

export const Lips = memo(function Lips({ sheet, restJaw, ownJaw, lipLineMm, live, palette, cut }: LipsProps) {
  const geometry = useMemo(() => {
    const made = geometryOf(sheet.positions, sheet.index, { values: lipColors(sheet, palette), size: 4 });
    made.setAttribute('normal', new BufferAttribute(sheet.normals, 3));
    // Large enough for every place of the rim: no bounds to work out in the frame loop.
    made.boundingSphere = new Sphere(new Vector3(0, 0, 0), 90);
    return made;
  }, [sheet, palette]);
  const lids = useMemo(() => lidGeometry(sheet, palette), [sheet, palette]);
  useDisposal(useMemo(() => [geometry, lids], [geometry, lids]));
  const stand = useMemo(createStand, []);
  const update = useCallback(
    (frame: LiveFrame) => {
      writeStand(frame.shown, stand);
      moveLips(sheet, stand, lipLineMm, jawMove(restJaw, frame.jaw ?? ownJaw));
      geometry.attributes['position']!.needsUpdate = true;
      geometry.attributes['normal']!.needsUpdate = true;
      lids.attributes['position']!.needsUpdate = true;
    },
    [geometry, lids, sheet, stand, restJaw, ownJaw, lipLineMm],
  );
  useLiveFrame(live, update);
  return (
    <group>
      <mesh geometry={geometry} renderOrder={5}>
        <meshBasicMaterial colorWrite={false} side={DoubleSide} clippingPlanes={cut} />
      </mesh>
      <mesh geometry={geometry} renderOrder={6}>
        <meshStandardMaterial vertexColors transparent depthWrite={false} roughness={0.62} side={DoubleSide} forceSinglePass clippingPlanes={cut} />
      </mesh>
      <mesh geometry={lids} renderOrder={7}>
        <meshBasicMaterial vertexColors transparent depthWrite={false} side={DoubleSide} forceSinglePass clippingPlanes={cut} />
      </mesh>
    </group>
  );
});

/** The cut faces above and below, from the gums out to the lips' outside: they show how thick the lips are. */
function lidGeometry(sheet: LipSheet, palette: StagePalette): BufferGeometry {
  const skin = linear(palette.lipCut);
  const colors = new Float32Array(LIP_COLUMNS * 4 * 4);
  const index: number[] = [];
  for (let column = 0; column < LIP_COLUMNS; column++) {
    const { shown } = lipTint(columnMm(column), 0);
    for (let corner = 0; corner < 4; corner++) colors.set([...skin, LID_OPACITY * shown], (column * 4 + corner) * 4);
    if (column + 1 === LIP_COLUMNS) break;
    for (const a of [column * 4, column * 4 + 2]) index.push(a, a + 1, a + 4, a + 4, a + 1, a + 5);
  }
  const made = new BufferGeometry();
  made.setAttribute('position', new BufferAttribute(sheet.lids, 3));
  made.setAttribute('color', new BufferAttribute(colors, 4));
  made.setIndex(index);
  made.boundingSphere = new Sphere(new Vector3(0, 0, 0), 90);
  return made;
}

function lipColors(sheet: LipSheet, palette: StagePalette): Float32Array {
  const skin = linear(palette.skin);
  const red = linear(palette.vermilion);
  const dark = linear(palette.mouthDark);
  const colors = new Float32Array(LIP_COLUMNS * LIP_ROWS * 4);
  for (let column = 0; column < LIP_COLUMNS; column++) {
    for (let row = 0; row < LIP_ROWS; row++) {
      const tint = lipTint(columnMm(column), sheet.rowMm[row]!);
      const at = (column * LIP_ROWS + row) * 4;
      colors.set(mixed(mixed(skin, red, tint.red), dark, 0.8 * tint.line), at);
      const opacity = SKIN_OPACITY + (RED_OPACITY - SKIN_OPACITY) * tint.red + (0.92 - RED_OPACITY) * tint.line;
      colors[at + 3] = Math.min(1, opacity * palette.lipOpacity) * tint.shown;
    }
  }
  return colors;
}

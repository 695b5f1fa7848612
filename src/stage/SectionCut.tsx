/** The cut faces of the side view: lips, gums, crowns and roots in the plane through the rim's centre, as a board drawing has them. */
import { memo, useCallback, useMemo, useRef } from 'react';
import { BufferAttribute, BufferGeometry, DoubleSide, type Group, type Plane, ShapeUtils, Sphere, Vector2, Vector3 } from 'three';
import type { LiveFrame, LiveSource } from '../core/analysis';
import type { JawSpec } from '../core/specs';
import { geometryOf, linear, mixed, useDisposal } from './geometryOf';
import { LIP_COLUMNS, LIP_ROWS, type LipSheet, lipTint } from './lipSheet';
import { JawGroup } from './JawGroup';
import type { DrawnJaw } from './Mouth';
import type { StagePalette } from './palette';
import { type Outline, jawSection } from './sectionShape';
import { useLiveFrame } from './useLiveFrame';

interface SectionProps {
  readonly jaws: readonly DrawnJaw[];
  /** Where the lower jaw stands as drawn. */
  readonly own: JawSpec | null;
  readonly sheet: LipSheet;
  readonly live: LiveSource;
  readonly palette: StagePalette;
  /** Its constant is moved with the rim. */
  readonly plane: Plane;
}

/** Each layer stands this far before the one behind it, mm, toward the player's right. */
const LAYER_MM = 0.06;

export const SectionCut = memo(function SectionCut({ jaws, own, sheet, live, palette, plane }: SectionProps) {
  const group = useRef<Group>(null);
  const parts = useMemo(
    () =>
      jaws.map((jaw) => {
        const section = jawSection(jaw.face, jaw.teeth, 0);
        const fills = [
          { outline: section.gum, color: palette.gum, layer: 1 },
          { outline: section.root, color: palette.ivoryNeck, layer: 2 },
          { outline: section.crown, color: palette.ivory, layer: 3 },
        ].map(({ outline, color, layer }) => ({ fill: filled(outline, layer), line: outlined(outline, layer), color }));
        return { upper: jaw.face.upper, fills };
      }),
    [jaws, palette],
  );
  const lips = useMemo(() => lipSection(sheet, palette), [sheet, palette]);
  useDisposal(useMemo(() => [lips.fill, lips.line, ...parts.flatMap(({ fills }) => fills.flatMap(({ fill, line }) => [fill, line]))], [lips, parts]));
  const update = useCallback(
    (frame: LiveFrame) => {
      const x = frame.shown.rimCentreMm[0];
      plane.constant = -x;
      if (group.current) group.current.position.x = x;
      writeLipSection(sheet, lips.fill, x);
    },
    [plane, sheet, lips],
  );
  useLiveFrame(live, update);
  return (
    <group ref={group}>
      {parts.map(({ upper, fills }) => (
        <JawGroup key={upper ? 'upper' : 'lower'} own={upper ? null : own} live={live}>
          {fills.map((part, index) => (
            <group key={index}>
              <mesh geometry={part.fill}>
                <meshBasicMaterial color={part.color} side={DoubleSide} />
              </mesh>
              <lineLoop geometry={part.line}>
                <lineBasicMaterial color={palette.sectionLine} />
              </lineLoop>
            </group>
          ))}
        </JawGroup>
      ))}
      <mesh geometry={lips.fill} renderOrder={10}>
        <meshBasicMaterial vertexColors transparent opacity={0.9} side={DoubleSide} forceSinglePass />
      </mesh>
      <lineSegments geometry={lips.line} renderOrder={11}>
        <lineBasicMaterial color={palette.sectionLine} />
      </lineSegments>
    </group>
  );
});

function filled(outline: Outline, layer: number): BufferGeometry {
  const triangles = ShapeUtils.triangulateShape(outline.map(([y, z]) => new Vector2(y, z)), []);
  return geometryOf(inPlane(outline, layer), Uint32Array.from(triangles.flat()));
}

const outlined = (outline: Outline, layer: number): BufferGeometry =>
  new BufferGeometry().setAttribute('position', new BufferAttribute(inPlane(outline, layer + 0.5), 3));

const inPlane = (outline: Outline, layer: number): Float32Array =>
  Float32Array.from(outline.flatMap(([y, z]) => [-layer * LAYER_MM, y, z]));

/** Vertices: inner and outer side, row by row; lines along both sides, across at both ends and at the lip line. */
function lipSection(sheet: LipSheet, palette: StagePalette): { readonly fill: BufferGeometry; readonly line: BufferGeometry } {
  const skin = linear(palette.lipCut);
  const red = mixed(linear(palette.vermilion), skin, 0.35);
  const dark = linear(palette.mouthDark);
  const colors = new Float32Array(LIP_ROWS * 2 * 3);
  const index: number[] = [];
  const lines: number[] = [];
  for (let row = 0; row < LIP_ROWS; row++) {
    const tint = lipTint(0, sheet.rowMm[row]!);
    colors.set(mixed(skin, dark, tint.line * 0.7), row * 6);
    colors.set(mixed(mixed(skin, red, tint.red), dark, tint.line * 0.7), row * 6 + 3);
    if (row + 1 === LIP_ROWS) break;
    const a = row * 2;
    index.push(a, a + 1, a + 2, a + 2, a + 1, a + 3);
    lines.push(a, a + 2, a + 1, a + 3);
  }
  lines.push(LIP_ROWS - 1, LIP_ROWS);
  lines.push(0, 1, LIP_ROWS * 2 - 2, LIP_ROWS * 2 - 1);
  const fill = new BufferGeometry();
  const positions = new BufferAttribute(new Float32Array(LIP_ROWS * 2 * 3), 3);
  fill.setAttribute('position', positions);
  fill.setAttribute('color', new BufferAttribute(colors, 3));
  fill.setIndex(index);
  fill.boundingSphere = new Sphere(new Vector3(0, 0, 0), 90);
  const line = new BufferGeometry();
  line.setAttribute('position', positions);
  line.setIndex(lines);
  line.boundingSphere = fill.boundingSphere;
  return { fill, line };
}

/** Reads the sheet's middle column, which stands in the rim's plane; runs after the lips have moved. */
function writeLipSection(sheet: LipSheet, fill: BufferGeometry, x: number): void {
  const attribute = fill.attributes['position'] as BufferAttribute;
  const target = attribute.array as Float32Array;
  const start = ((LIP_COLUMNS - 1) / 2) * LIP_ROWS * 3;
  for (let row = 0; row < LIP_ROWS; row++) {
    const outside = start + row * 3;
    const at = row * 6;
    target[at] = -4 * LAYER_MM;
    target[at + 1] = sheet.innerLine[row * 3 + 1]!;
    target[at + 2] = Math.min(sheet.innerLine[row * 3 + 2]!, sheet.positions[outside + 2]! - 0.3);
    target[at + 3] = sheet.positions[outside]! - x - 4 * LAYER_MM;
    target[at + 4] = sheet.positions[outside + 1]!;
    target[at + 5] = sheet.positions[outside + 2]!;
  }
  attribute.needsUpdate = true;
}

/** Teeth and gums: built when the arch changes, never in the frame loop. */
import { memo, useDeferredValue, useMemo } from 'react';
import { type BufferGeometry, DoubleSide, MeshStandardMaterial, type Plane } from 'three';
import { crownShell } from './crownShape';
import type { LiveSource } from '../core/analysis';
import type { JawSpec } from '../core/specs';
import type { PlacedTooth } from './dentition';
import { geometryOf, joinedGeometry, linear, mixed, useDisposal } from './geometryOf';
import { gumShell } from './gumShape';
import { JawGroup } from './JawGroup';
import type { JawFace } from './jawFaces';
import type { StagePalette } from './palette';

export interface DrawnJaw {
  readonly face: JawFace;
  readonly teeth: readonly PlacedTooth[];
}

interface MouthProps {
  readonly jaws: readonly DrawnJaw[];
  /** Where the lower jaw stands as drawn. */
  readonly own: JawSpec | null;
  readonly live: LiveSource;
  readonly palette: StagePalette;
  readonly cut: readonly Plane[];
}

/** One of each for both jaws: what follows the same material is drawn without making it ready again. */
interface Materials {
  readonly crown: MeshStandardMaterial;
  readonly gum: MeshStandardMaterial;
}

export const Mouth = memo(function Mouth({ jaws, own, live, palette, cut }: MouthProps) {
  const materials = useMemo<Materials>(() => {
    const clippingPlanes = cut as Plane[];
    return {
      crown: new MeshStandardMaterial({ vertexColors: true, roughness: 0.46, clippingPlanes }),
      gum: new MeshStandardMaterial({ vertexColors: true, roughness: 0.72, side: DoubleSide, clippingPlanes }),
    };
  }, [cut]);
  useDisposal(useMemo(() => [materials.crown, materials.gum], [materials]));
  // A new arch's teeth take some ten milliseconds a jaw: each jaw in a task of its own, behind all else that is new in the picture.
  const drawn = useDeferredValue(useMemo(() => ({ jaws, own }), [jaws, own]));
  return drawn.jaws.map((jaw) =>
    jaw.face.upper ? (
      <Jaw key="upper" jaw={jaw} palette={palette} materials={materials} />
    ) : (
      <JawGroup key="lower" own={drawn.own} live={live}>
        <Jaw jaw={jaw} palette={palette} materials={materials} />
      </JawGroup>
    ));
});

function Jaw({ jaw, palette, materials }: { jaw: DrawnJaw; palette: StagePalette; materials: Materials }) {
  const gums = useMemo(() => {
    const shell = gumShell(jaw.face, jaw.teeth);
    const light = linear(palette.gum);
    const deep = linear('#9E6B69');
    const colors = new Float32Array(shell.heights.length * 3);
    shell.heights.forEach((height, index) => {
      const shade = Math.min(1, 0.55 * shell.depths[index]! + 0.18 * height);
      colors.set(mixed(light, deep, shade), index * 3);
    });
    return [geometryOf(shell.positions, shell.index, { values: colors, size: 3 })];
  }, [jaw, palette]);
  // A jaw's crowns are one object: each of its own would cost a draw call a frame.
  const crowns = useMemo(() => [joinedGeometry(jaw.teeth.map((tooth) => crownGeometry(tooth, palette)))], [jaw, palette]);
  useDisposal(gums);
  useDisposal(crowns);
  return (
    <group>
      {crowns.map((crown) => (
        <mesh key={crown.uuid} geometry={crown} material={materials.crown} />
      ))}
      {gums.map((gum) => (
        <mesh key={gum.uuid} geometry={gum} material={materials.gum} />
      ))}
    </group>
  );
}

function crownGeometry(tooth: PlacedTooth, palette: StagePalette): BufferGeometry {
  const shell = crownShell(tooth);
  const body = linear(palette.ivory);
  const neck = linear(palette.ivoryNeck);
  const shadow = linear('#A58A68');
  const edge = linear('#E9E8E2');
  // Canines are a little darker, premolars too: they are only hinted.
  const darker = tooth.kind === 3 ? 0.16 : tooth.kind > 3 ? 0.1 : 0;
  const colors = new Float32Array(shell.heights.length * 3);
  shell.heights.forEach((height, index) => {
    const warm = mixed(body, neck, Math.min(1, darker + 0.55 * height ** 2.4));
    const tipped = mixed(warm, edge, 0.6 * Math.max(0, 1 - height / 0.14));
    colors.set(mixed(tipped, shadow, 0.6 * shell.depths[index]! ** 1.5), index * 3);
  });
  return geometryOf(shell.positions, shell.index, { values: colors, size: 3 });
}

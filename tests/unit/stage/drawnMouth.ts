/** The mouths that the drawing is held against: every ready-made arch, and one with a tooth that stands out. */
import { buildArch, type Arch } from '../../../src/core/arch';
import type { JawSurface } from '../../../src/core/surface';
import { arches, teeth, toothSpec } from '../../../src/records/library';
import { demoPlayers } from '../../support/demos';
import type { ArchSpec, PlayerRecord } from '../../../src/core/specs';
import { jawFaces, type JawFace } from '../../../src/stage/jawFaces';
import { placeTeeth, type PlacedTooth } from '../../../src/stage/dentition';

export interface DrawnFace {
  readonly face: JawFace;
  readonly surface: JawSurface;
  readonly teeth: readonly PlacedTooth[];
}

export const STANDING_OUT = 'one tooth standing out';

export const mouths: readonly { readonly name: string; readonly arch: Arch }[] = [
  ...arches.map((model) => ({ name: model.id, arch: buildArch(model.arch) })),
  { name: STANDING_OUT, arch: buildArch(standingOut(arches[0]!.arch)) },
];

export function drawnFaces(arch: Arch): readonly DrawnFace[] {
  return jawFaces(arch).map((face) => ({
    face,
    surface: face.upper ? arch.upper : arch.lower!,
    teeth: placeTeeth(face, teeth),
  }));
}

export const demoRecord: PlayerRecord = demoPlayers[0]!.record;

function standingOut(spec: ArchSpec): ArchSpec {
  if ('single' in spec) throw new Error('the ready-made arches have two jaws');
  return { ...spec, upper: { ...spec.upper, teeth: [toothSpec(12, 1.5)] } };
}

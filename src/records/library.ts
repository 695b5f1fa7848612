/**
 * The ready-made data under models/: instruments, rims, arches, the crown table and the invented demo players. Every list begins
 * with the one that is used when nothing was chosen.
 */
import average from '../../models/arches/average.json';
import broad from '../../models/arches/broad.json';
import narrow from '../../models/arches/narrow.json';
import receded from '../../models/arches/receded-lower-jaw.json';
import bassTrombone from '../../models/instruments/bass-trombone.json';
import euphonium from '../../models/instruments/euphonium.json';
import frenchHorn from '../../models/instruments/french-horn.json';
import tenorTrombone from '../../models/instruments/tenor-trombone.json';
import trumpet from '../../models/instruments/trumpet.json';
import tuba from '../../models/instruments/tuba.json';
import pullsDown from '../../models/players/pulls-down.json';
import pushesUp from '../../models/players/pushes-up.json';
import turnsBack from '../../models/players/turns-back.json';
import bassTromboneRim from '../../models/rims/bass-trombone.json';
import euphoniumRim from '../../models/rims/euphonium.json';
import hornRim from '../../models/rims/horn.json';
import tenorTromboneRim from '../../models/rims/tenor-trombone.json';
import trumpetRim from '../../models/rims/trumpet.json';
import tubaRim from '../../models/rims/tuba.json';
import teethTable from '../../models/teeth.json';
import { lessonOf, recordOf } from '../core/lessons';
import type { ArchSpec, PlayerRecord, PlayerSpec, RimSpec, ToothSpec } from '../core/specs';
import type { Crown, Instrument } from './modelSchemas';

export type { Crown, Instrument, Notation } from './modelSchemas';

interface Model {
  readonly id: string;
  readonly name: string;
  readonly source: string;
}

export interface RimModel extends Model {
  readonly rim: RimSpec;
}

export interface ArchModel extends Model {
  readonly arch: ArchSpec;
}

export interface DemoPlayer extends Model {
  readonly player: PlayerSpec;
  /** The player's one lesson, as it is analysed. */
  readonly record: PlayerRecord;
}

export const instruments = asChecked<readonly Instrument[]>([
  trumpet,
  frenchHorn,
  tenorTrombone,
  bassTrombone,
  euphonium,
  tuba,
]);
export const rims = asChecked<readonly RimModel[]>([
  trumpetRim,
  hornRim,
  tenorTromboneRim,
  bassTromboneRim,
  euphoniumRim,
  tubaRim,
]);
export const arches = asChecked<readonly ArchModel[]>([average, narrow, broad, receded]);
export const demoPlayers: readonly DemoPlayer[] = asChecked<readonly Omit<DemoPlayer, 'record'>[]>([pushesUp, pullsDown, turnsBack]).map((demo) => ({
  ...demo,
  record: recordOf(demo.player, lessonOf(demo.player, '')),
}));
/** U1 to U7, then L1 to L7. */
export const teeth = asChecked<readonly Crown[]>(teethTable.teeth);

/** The instrument with this id; undefined for a record made elsewhere with another name. */
export function instrumentById(id: string): Instrument | undefined {
  return instruments.find((instrument) => instrument.id === id);
}

/** The crown of a tooth by its number of ISO 3950. Throws where the table has none. */
export function crownOf(fdi: number): Crown {
  const crown = teeth.find((row) => row.fdi.includes(fdi));
  if (crown === undefined) throw new RangeError(`crownOf: tooth ${fdi}; allowed: 11–17, 21–27, 31–37, 41–47`);
  return crown;
}

/** A tooth that stands out (+) or in (−), at its place on an even arch: the table's widths laid along the form from the midline. */
export function toothSpec(fdi: number, outMm: number): ToothSpec {
  const { widthMm } = crownOf(fdi);
  let innerMm = 0;
  for (let nearer = fdi - 1; nearer % 10 >= 1; nearer--) innerMm += crownOf(nearer).widthMm;
  const onLeft = fdi >= 20 && fdi < 40;
  return { fdi, outMm, centreMm: (onLeft ? 1 : -1) * (innerMm + widthMm / 2), widthMm };
}

/** The ready-made rim that goes with an instrument. */
export function defaultRim(instrument: Instrument): RimModel {
  const model = rims.find((rim) => rim.id === instrument.defaultRim);
  if (model === undefined) throw new RangeError(`defaultRim: ${instrument.defaultRim}; allowed: ${rims.map(({ id }) => id).join(', ')}`);
  return model;
}

/** TypeScript widens the words in a JSON file to `string`; the unit test checks every file against its schema. */
function asChecked<T>(value: unknown): T {
  return value as T;
}

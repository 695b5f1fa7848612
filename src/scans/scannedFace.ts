/** A scan as the seat asks it: the field of its gaps, moved to where the jaw stands. The twin of jawGap's moulding surface. */
import { ANSWER_AT_END, ANSWER_GAP, ANSWER_TIGHTNESS, type GapFace, type GapRoom } from '../core/gapFace';
import type { GapField } from './gapField';

/** Where a scanned jaw stands, as in the record's jaw; the scan's own origin is its incisal edge at the midline. */
export interface ScanPlace {
  readonly openingMm: number;
  readonly forwardMm: number;
  /** Radians about the hinge's axis, across the head at height 0, `armMm` behind the origin. */
  readonly hinge: number;
  readonly armMm: number;
}

/** An upper jaw, or one scan for both. */
export const AS_SCANNED: ScanPlace = { openingMm: 0, forwardMm: 0, hinge: 0, armMm: 0 };

/** In front of everything scanned, mm. */
const IN_FRONT_MM = 10;

export const placeScan = (field: GapField, place: ScanPlace = AS_SCANNED): GapFace => new ScannedFace(field, place);

/** A class for the reason given in jawGap. */
class ScannedFace implements GapFace {
  private readonly cos: number;
  private readonly sin: number;
  private readonly local = new Float64Array(3);

  constructor(readonly field: GapField, readonly place: ScanPlace) {
    this.cos = Math.cos(place.hinge);
    this.sin = Math.sin(place.hinge);
  }

  ask(_warm: Float64Array, _index: number, room: GapRoom): void {
    const { field, local } = this;
    this.toLocal(room.point);
    room.answer[ANSWER_GAP] = field.gapAt(local[0]!, local[1]!, local[2]!);
    room.answer[ANSWER_TIGHTNESS] = 1;
    room.answer[ANSWER_AT_END] = field.onBorder() ? 1 : 0;
  }

  writeNormal(room: GapRoom, out: Float64Array, from: number): void {
    const { local } = this;
    this.toLocal(room.point);
    const { gradient } = this.field.slopesAt(local[0]!, local[1]!, local[2]!);
    const y = gradient[1]!;
    const z = gradient[2]!;
    out[from] = gradient[0]!;
    out[from + 1] = y * this.cos - z * this.sin;
    out[from + 2] = y * this.sin + z * this.cos;
  }

  writeBends(room: GapRoom, out: Float64Array, from: number): void {
    const { cos, sin, local } = this;
    this.toLocal(room.point);
    const { bends } = this.field.slopesAt(local[0]!, local[1]!, local[2]!);
    const xy = bends[1]!;
    const xz = bends[2]!;
    const yy = bends[3]!;
    const yz = bends[4]!;
    const zz = bends[5]!;
    out[from] = bends[0]!;
    out[from + 1] = xy * cos - xz * sin;
    out[from + 2] = xy * sin + xz * cos;
    out[from + 3] = yy * cos * cos - 2 * yz * cos * sin + zz * sin * sin;
    out[from + 4] = (yy - zz) * cos * sin + yz * (cos * cos - sin * sin);
    out[from + 5] = yy * sin * sin + 2 * yz * cos * sin + zz * cos * cos;
  }

  /** The distance from the field's box, which holds all of the scan. */
  beyondEdge(y: number, z: number): number {
    const reach = z + this.place.armMm;
    const localY = y * this.cos + reach * this.sin + this.place.openingMm;
    const localZ = reach * this.cos - y * this.sin - this.place.armMm - this.place.forwardMm;
    const { low, high } = this.field.scanned;
    return Math.max(low[1] - localY, localY - high[1], low[2] - localZ, localZ - high[2]);
  }

  shiftedFrom(other: GapFace): number {
    const from = other as Partial<ScannedFace>;
    const same = from.field === this.field && from.place?.hinge === this.place.hinge && from.place.armMm === this.place.armMm;
    return same ? Math.hypot(from.place.openingMm - this.place.openingMm, from.place.forwardMm - this.place.forwardMm) : NaN;
  }

  facingAt(x: number): number {
    const { gradient } = this.field.slopesAt(x, 0, this.field.scanned.high[2] + IN_FRONT_MM);
    return Math.atan2(-gradient[0]!, gradient[2]!);
  }

  private toLocal(point: Float64Array): void {
    const { cos, sin, place, local } = this;
    const reach = point[2]! + place.armMm;
    local[0] = point[0]!;
    local[1] = point[1]! * cos + reach * sin + place.openingMm;
    local[2] = reach * cos - point[1]! * sin - place.armMm - place.forwardMm;
  }
}

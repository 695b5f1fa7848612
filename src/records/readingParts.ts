/** One value put into a reading or taken out of it; what is left empty is not kept. */
import { HORN_SD_DEG, UNSEEN_HORN_SD_DEG, hornSds, isAngleSeen } from '../core/readings';
import type { HornSpec, ReadingSpec } from '../core/specs';

/** The reading with this field, or without it where the value is null. */
export function withValue<K extends keyof ReadingSpec>(reading: ReadingSpec, field: K, value: ReadingSpec[K] | null): ReadingSpec {
  const { [field]: _before, ...rest } = reading;
  return (value === null ? rest : { ...rest, [field]: value }) as ReadingSpec;
}

const OTHER = { upMm: 'rightMm', rightMm: 'upMm' } as const;

/** One number of the travel; see readingColumns.ts for what an empty one does to the other. */
export function withTravel(reading: ReadingSpec, field: 'upMm' | 'rightMm', value: number | null): ReadingSpec {
  const { travel } = reading;
  if (value === null && (travel?.[OTHER[field]] ?? 0) === 0) return withValue(reading, 'travel', null);
  return { ...reading, travel: { upMm: 0, rightMm: 0, ...travel, [field]: value ?? 0 } };
}

/** A deviation of a travel that is there, or with null the usual one; nothing where there is none. */
export function withTravelSd(reading: ReadingSpec, field: 'sdMm' | 'rightSdMm', value: number | null): ReadingSpec {
  if (reading.travel === undefined) return reading;
  const { [field]: _before, ...rest } = reading.travel;
  return { ...reading, travel: value === null ? rest : { ...rest, [field]: value } };
}

export type AngleField = 'elevationDeg' | 'lateralDeg';

/** Whether the reading has this angle of the horn, and somebody saw it. */
export function hasAngle({ horn }: ReadingSpec, field: AngleField): boolean {
  return horn !== undefined && isAngleSeen(hornSds(horn)[SD_OF[field]]);
}

/** One angle of the horn: typed it was seen, emptied it was not. Without an angle that was seen there is no horn. */
export function withAngle(reading: ReadingSpec, field: AngleField, value: number | null): ReadingSpec {
  const { horn } = reading;
  const other = field === 'elevationDeg' ? 'lateralDeg' : 'elevationDeg';
  if (value === null) {
    if (horn === undefined || !hasAngle(reading, other)) return withValue(reading, 'horn', null);
    return hasAngle(reading, field) ? { ...reading, horn: unseen(horn, field) } : reading;
  }
  if (horn === undefined) return { ...reading, horn: { ...unseen({ elevationDeg: 0, lateralDeg: 0 }, other), [field]: value } };
  return { ...reading, horn: { ...(hasAngle(reading, field) ? horn : nowSeen(horn, field)), [field]: value } };
}

/**
 * The deviation of one angle, or with null the usual one; the horn's own (`sdDeg`) is the lateral angle's where only that was seen. An
 * angle that nobody saw stays so; nothing without a horn.
 */
export function withAngleSd(reading: ReadingSpec, field: 'sdDeg' | 'lateralSdDeg', value: number | null): ReadingSpec {
  const { horn } = reading;
  if (horn === undefined) return reading;
  if (value !== null) {
    const onlyLateral = field === 'sdDeg' && !hasAngle(reading, 'elevationDeg');
    if (onlyLateral && !isAngleSeen(value)) return reading;
    return { ...reading, horn: { ...horn, [onlyLateral ? 'lateralSdDeg' : field]: value } };
  }
  if (!isAngleSeen(hornSds(horn)[field])) return reading;
  const { [field]: _before, ...rest } = horn;
  return { ...reading, horn: field === 'lateralSdDeg' ? withOwnLateral(rest) : rest };
}

const SD_OF = { elevationDeg: 'sdDeg', lateralDeg: 'lateralSdDeg' } as const;

/** The number of an angle that nobody saw says nothing; here it is 0. The other angle keeps its deviation. */
function unseen(horn: HornSpec, field: AngleField): HornSpec {
  if (field === 'lateralDeg') return { ...horn, lateralDeg: 0, lateralSdDeg: UNSEEN_HORN_SD_DEG };
  return { ...horn, elevationDeg: 0, sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: hornSds(horn).lateralSdDeg };
}

/** Without the deviation of the unseen in this angle; the other keeps its own, which is not said where it is the usual one. */
function nowSeen(horn: HornSpec, field: AngleField): HornSpec {
  if (field === 'lateralDeg') {
    const { lateralSdDeg: _unseen, ...rest } = horn;
    return withOwnLateral(rest);
  }
  const { lateralSdDeg } = hornSds(horn);
  const { sdDeg: _unseen, lateralSdDeg: _own, ...rest } = horn;
  return lateralSdDeg === HORN_SD_DEG ? rest : { ...rest, lateralSdDeg };
}

/** A lateral angle that was seen, without a deviation of its own; it must not take over that of an elevation nobody saw. */
function withOwnLateral(horn: HornSpec): HornSpec {
  return isAngleSeen(hornSds(horn).sdDeg) ? horn : { ...horn, lateralSdDeg: HORN_SD_DEG };
}

export function withJaw(reading: ReadingSpec, field: 'openingMm' | 'forwardMm' | 'hingeDeg', value: number | null): ReadingSpec {
  const { [field]: _before, ...rest } = reading.jaw ?? {};
  const jaw = value === null ? rest : { ...rest, [field]: value };
  return withValue(reading, 'jaw', Object.keys(jaw).length === 0 ? null : jaw);
}

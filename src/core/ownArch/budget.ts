/**
 * Which measure would narrow a predicted angle most: what the band is expected to be after each, before anybody takes it. To first order, from
 * the moves that bands are made of and the fit's covariance; held against taking the measure and fitting anew in tests/reference/ownArch.test.ts.
 * docs/numerics.md §24.
 */
import { analyse } from '../analyse';
import type { Analysis, AngleBand, HornAngles } from '../analysis';
import { DEFAULT_DEVIATIONS, type Deviations } from '../deviations';
import { type MouthMoves, computeMoves } from '../mouthMoves';
import { TRAVEL_SD_MM } from '../readings';
import { lowerRoot, solveLower } from '../smallSystem';
import type { ArchMeasureName, PlayerRecord, PlayingDirection } from '../specs';
import type { UnknownName } from '../unknownName';
import type { FittedArch } from './fitArch';
import { measureKind } from './measures';
import { fitCounted, openUnknowns, partOfCovariance, unknownName, withMeasures } from './ownArch';
import { scannedJaw, withoutScanned } from './scannedArch';

/** `travel`: the rim's travel at that note measured from a film; `jaw`: where the lower jaw stands at that note, likewise. */
export type Candidate = ArchMeasureName | 'travel' | 'jaw';

export interface BudgetEntry {
  readonly what: Candidate;
  /** Of the measure that is thought of, one deviation, mm. */
  readonly sdMm: number;
  /** Of the change from home, expected after it: one deviation. */
  readonly after: AngleBand;
}

export interface NoteBudget {
  readonly note: string;
  readonly midi: number;
  readonly direction: PlayingDirection | null;
  /** Of the change from home, with what is measured now. */
  readonly now: AngleBand;
  /** The same where nothing of the arch were measured. */
  readonly usual: AngleBand;
  /** What was not measured yet. */
  readonly entries: readonly BudgetEntry[];
  /** The largest part of the band, by name as in bands, up and down and to the side; null where there is no band. */
  readonly largest: Readonly<Record<keyof AngleBand, UnknownName | null>>;
}

/** Budgets for every reading of a record with two jaws, in the order of its analysis; null for a single surface, or where the arch cannot be fitted. */
export function budgetOf(record: PlayerRecord, by: Deviations = DEFAULT_DEVIATIONS): NoteBudget[] | null {
  const { arch } = record;
  if ('single' in arch) return null;
  const bare = withMeasures(withoutScanned(arch), { family: arch.measured?.family ?? 'sextic', measures: [] });
  if (bare.kind === 'not-fitted') return null;
  const usual = analyse({ ...record, arch: bare.arch });
  const usualMoves = computeMoves(usual, by);
  const fit = fitCounted(arch);
  const isScanned = scannedJaw(arch, 'upper') !== null || scannedJaw(arch, 'lower') !== null;
  const measured = fit !== null && (isScanned || fit.measures.some((one) => one.measured !== null) || fit.prints.length > 0);
  const analysis = measured ? analyse(record) : usual;
  const entries = expected(analysis, measured ? computeMoves(analysis, by) : usualMoves, measured ? fit : bare.fit, by);
  return analysis.readings.map(({ note, midi, direction }, index) => {
    // A reading that only one of the two mouths can hold has no other band to be put beside.
    const other = usual.readings.findIndex((one) => one.midi === midi && one.direction === direction);
    return { note, midi, direction, usual: other < 0 ? entries[index]!.now : rootOf(partsAt(usualMoves, other)), ...entries[index]! };
  });
}

/** The bands expected after each measure that was not taken yet and that no scan tells. `moves` are those of the analysis, whose arch `fit` is. */
export function expected(analysis: Analysis, moves: MouthMoves, fit: FittedArch, by: Deviations = DEFAULT_DEVIATIONS): Pick<NoteBudget, 'now' | 'entries' | 'largest'>[] {
  const { arch: own } = analysis.record;
  // Of a free form no measure tells anything more.
  const places = openUnknowns(own, fit);
  const names = places.map((place) => unknownName(fit.unknowns[place]!));
  const root = lowerRoot(partOfCovariance(fit, places));
  const isTold = (name: ArchMeasureName): boolean => (['upper', 'lower'] as const).some((jaw) => name.startsWith(jaw) && scannedJaw(own, jaw) !== null);
  return analysis.readings.map((reading, index) => {
    const parts = partsAt(moves, index);
    const now = rootOf(parts);
    const arch = names.map((name) => moves.shared.find((one) => one.name === name)?.readings[index] ?? NO_MOVE);
    const ofArch = fit.measures.flatMap(({ name, measured, sdMm }, row): BudgetEntry[] => {
      if (measured !== null || root === null || isTold(name)) return [];
      const kind = measureKind(name);
      const towards = solveLower(root, places.map((place) => fit.withMeasures[row]![place]!));
      const told = (axis: keyof HornAngles): number =>
        arch.reduce((sum, move, i) => sum + move[axis] * towards[i]!, 0) ** 2 / (sdMm ** 2 + kind.typicalSdMm ** 2);
      return [{ what: name, sdMm: kind.typicalSdMm, after: less(now, told('elevationDeg'), told('lateralDeg')) }];
    });
    const seen = TRAVEL_SD_MM.video;
    const own = moves.own[index] ?? [];
    const better = (what: Candidate, isOf: (name: string) => boolean, sd: number): BudgetEntry[] => {
      const left = own.filter(({ name }) => isOf(name));
      if (left.length === 0 || sd <= seen) return [];
      const told = (axis: keyof HornAngles): number => left.reduce((sum, { change }) => sum + (change?.[axis] ?? 0) ** 2, 0) * (1 - (seen / sd) ** 2);
      return [{ what, sdMm: seen, after: less(now, told('elevationDeg'), told('lateralDeg')) }];
    };
    const named = [...moves.shared.map((one) => ({ name: one.name, change: one.readings[index] ?? NO_MOVE })), ...own.map(({ name, change }) => ({ name, change: change ?? NO_MOVE }))];
    const largest = (axis: keyof HornAngles): UnknownName | null => [...named].sort((a, b) => Math.abs(b.change[axis]) - Math.abs(a.change[axis])).find(({ change }) => change[axis] !== 0)?.name ?? null;
    return {
      now,
      largest: { elevationSdDeg: largest('elevationDeg'), lateralSdDeg: largest('lateralDeg') },
      entries: [
        ...ofArch,
        ...better('travel', (name) => name.startsWith('travel'), reading.travel.sdMm),
        ...better('jaw', (name) => name.startsWith('jaw'), by.jawMm),
      ],
    };
  });
}

const NO_MOVE: HornAngles = { elevationDeg: 0, lateralDeg: 0 };

function partsAt(moves: MouthMoves, index: number): HornAngles[] {
  return [...moves.shared.map(({ readings }) => readings[index] ?? NO_MOVE), ...(moves.own[index] ?? []).map(({ change }) => change ?? NO_MOVE)];
}

const rootOf = (parts: readonly HornAngles[]): AngleBand => ({
  elevationSdDeg: Math.hypot(...parts.map(({ elevationDeg }) => elevationDeg)),
  lateralSdDeg: Math.hypot(...parts.map(({ lateralDeg }) => lateralDeg)),
});

/** A band without a part of its variance; rounding is not to make it negative. */
const less = (band: AngleBand, elevation: number, lateral: number): AngleBand => ({
  elevationSdDeg: Math.sqrt(Math.max(0, band.elevationSdDeg ** 2 - elevation)),
  lateralSdDeg: Math.sqrt(Math.max(0, band.lateralSdDeg ** 2 - lateral)),
});

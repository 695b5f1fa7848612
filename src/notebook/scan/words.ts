/** What is said of a scan: what was found in it, which tooth is to be marked, what was fitted. */
import type { ArchFamily, ScannedNumberSpec } from '../../core/specs';
import { NINETY_FIVE_PERCENT } from '../../core/bands';
import type { JawSettled, ScanOpened } from '../../scans/scanDesk';
import { MM_PER, type ScanUnit } from '../../scans/scanUnits';
import type { JawName } from '../../scans/startView';
import { LOCALES, languageNow } from '../../words/language';
import { sayOwnArch } from '../../words/ownArch';
import { sayScans } from '../../words/scans';
import { formatFixed } from '../numberText';
import type { SideTeeth, ToothName } from './props';

export const wholeNumber = (value: number): string => value.toLocaleString(LOCALES[languageNow()]);

export function megabytesWords(bytes: number): string {
  const mega = bytes / 1e6;
  return `${formatFixed(Math.max(0.1, mega), mega < 9.95 ? 1 : 0)}\u00a0MB`;
}

/** A sentence for each thing found, the number of triangles first. */
export function foundWords(name: string, { report, triangles }: ScanOpened, mmPerUnit: number | null): readonly string[] {
  const { turnedOver, trianglesRead, shells, specks, holes, branchedEdges } = report;
  const open = shells.filter(({ closed }) => !closed).length;
  // Each open shell's longest border is the scan's own.
  const inside = holes.slice(open);
  const [longest] = inside;
  return [
    sayScans('found', { name, triangles: wholeNumber(triangles) }),
    ...(turnedOver === 0 ? [] : [turnedOver >= MOST_PART * trianglesRead ? sayScans('turnedAll') : sayScans('turnedSome', { count: turnedOver })]),
    ...(shells.length > 1 ? [sayScans('shells', { count: shells.length })] : []),
    ...(specks > 0 ? [sayScans('specks', { count: specks })] : []),
    open === 0 ? sayScans('closedMesh') : sayScans('openMesh'),
    ...(longest === undefined || mmPerUnit === null ? [] : [sayScans('holes', { count: inside.length, length: formatFixed(longest.length * mmPerUnit, 1) })]),
    ...(branchedEdges > 0 ? [sayScans('branched', { count: branchedEdges })] : []),
  ];
}

/** As good as all triangles. */
const MOST_PART = 0.95;

/** As a label, or after "in". */
export function unitName(unit: ScanUnit, place: 'label' | 'sentence'): string {
  switch (unit) {
    case 'mm':
      return sayScans('unit-mm', { place });
    case 'cm':
      return sayScans('unit-cm', { place });
    case 'm':
      return sayScans('unit-m', { place });
    case 'inch':
      return sayScans('unit-inch', { place });
  }
}

const lengthIn = (longest: number, unit: ScanUnit): string => formatFixed(longest * MM_PER[unit], 0);

export function unitWords({ unit, longest }: ScanOpened): string {
  if (unit === null) return sayScans('unitNone', { length: formatFixed(longest, longest < 10 ? 2 : 0) });
  if (unit.sure) return sayScans('unitSure', { unit: unitName(unit.unit, 'sentence'), length: lengthIn(longest, unit.unit) });
  return sayScans('unitUnsure', { lengths: unit.possible.map((one) => sayScans('inUnit', { length: lengthIn(longest, one), unit: unitName(one, 'sentence') })).join(', ') });
}

/** Which tooth a mark is put on, with its FDI number. */
export function markWords(jaw: JawName, sides: SideTeeth, tooth: ToothName): string {
  const [right, left] = jaw === 'upper' ? [1, 2] : [4, 3];
  const at = sides === 'canines' ? 3 : 6;
  const kind = sides === 'canines' ? 'canine' : 'molar';
  switch (tooth) {
    case 'right':
      return sayScans('markRight', { tooth: kind, fdi: `${right}${at}` });
    case 'front':
      return sayScans('markFront', { fdi: `${right}1, ${left}1` });
    case 'left':
      return sayScans('markLeft', { tooth: kind, fdi: `${left}${at}` });
  }
}

/** Beside the mark in the picture. */
export function letterWords(tooth: ToothName): string {
  switch (tooth) {
    case 'right':
      return sayScans('letterRight');
    case 'front':
      return sayScans('letterFront');
    case 'left':
      return sayScans('letterLeft');
  }
}

const familyWords = (family: ArchFamily): string => sayOwnArch(family);

export function fittedWords({ family, residualMm, tried }: JawSettled): string {
  const fitted = sayScans('fitted', { form: familyWords(family), rms: formatFixed(residualMm, 2) });
  const others = tried.filter((one) => one.family !== family).map((one) => sayScans('otherForm', { form: familyWords(one.family), rms: formatFixed(one.residualMm, 2) }));
  return others.length === 0 ? fitted : `${fitted} ${sayScans('othersLeft', { forms: others.join(', ') })}`;
}

export function frameWords({ asymmetryMm, frame }: JawSettled): string {
  const pitch = bandText(frame.pitchDeg, 0);
  if (asymmetryMm === null) return sayScans('noSymmetry', { pitch });
  return sayScans('symmetry', { mm: formatFixed(asymmetryMm, 2), sideways: bandText(frame.sidewaysMm, 1), pitch });
}

export const numberName = (name: ScannedNumberSpec['name']): string => sayScans(name);

export function numberWords({ name, value, sd }: ScannedNumberSpec): string {
  // The sextic's two are a hundred-millionth and a fiftieth: their first digits count, not their places.
  const small = name === 'a' || name === 'b';
  const [said, band] = small ? [value.toExponential(2), (sd * NINETY_FIVE_PERCENT).toExponential(2)] : [formatFixed(value, 1), bandText(sd, 1)];
  return sayScans('number', { value: said, band, unit: name.endsWith('Deg') ? '°' : small ? '' : 'mm' });
}

/** Never “± 0.0”: nothing is known as well as that. */
const bandText = (sd: number, places: number): string => formatFixed(Math.max(sd * NINETY_FIVE_PERCENT, 10 ** -places), places);

/** A group's result as a table for people: median, quartiles, ratio to the first case. */
import type { CaseResult, GroupResult, Spread } from './harness';

export function formatGroup({ title, seed, cases }: GroupResult): string {
  const rows = [['case', 'median', 'quartiles', 'ratio', 'quartiles', 'samples'], ...cases.map(row)];
  const widths = rows[0]?.map((_, column) => Math.max(...rows.map((cells) => cells[column]?.length ?? 0))) ?? [];
  const lines = rows.map((cells) =>
    cells.map((cell, column) => (column === 0 ? cell.padEnd(widths[0] ?? 0) : cell.padStart(widths[column] ?? 0))).join('  '),
  );
  return [`${title} (seed ${seed})`, ...lines].join('\n');
}

function row({ name, unit, samples, value, ratio }: CaseResult): string[] {
  const scaled = unit === 's' ? inReadableTime(value.median) : { factor: 1, unit };
  const show = (one: number): string => (one * scaled.factor).toPrecision(3);
  return [
    name,
    `${show(value.median)} ${scaled.unit}`,
    `${show(value.lowerQuartile)}–${show(value.upperQuartile)}`,
    ratio ? `× ${ratio.median.toPrecision(3)}` : '',
    ratio ? quartiles(ratio) : '',
    String(samples),
  ];
}

const quartiles = ({ lowerQuartile, upperQuartile }: Spread): string =>
  `${lowerQuartile.toPrecision(3)}–${upperQuartile.toPrecision(3)}`;

function inReadableTime(seconds: number): { factor: number; unit: string } {
  if (seconds >= 1) return { factor: 1, unit: 's' };
  if (seconds >= 1e-3) return { factor: 1e3, unit: 'ms' };
  return seconds >= 1e-6 ? { factor: 1e6, unit: 'µs' } : { factor: 1e9, unit: 'ns' };
}

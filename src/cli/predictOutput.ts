/** What `predict` prints: the analysis as one plain JSON object, in the record's order of readings. */
import type { Analysis, HornAngles, KnownHorn, ReadingAnalysis, SeenAngles, ViewAngles } from '../core/analysis';
import { NINETY_FIVE_PERCENT, type PredictedBand, type ReadingBand } from '../core/bands';
import { seenAngles } from '../core/readings';
import type { PlayerRecord } from '../core/specs';
import { sayCli } from '../words/cli';

/** The object that is printed; `bands` stand in the order of analysis.readings. */
export function predictOutput(analysis: Analysis, bands: readonly ReadingBand[]) {
  const inFileOrder = analysis.readings
    .map((reading, index) => ({ reading, band: bands[index] ?? null }))
    .sort((a, b) => Math.min(...a.reading.sources) - Math.min(...b.reading.sources));
  const { home } = analysis;
  return {
    format: 'rimpath-prediction',
    version: 1,
    home: {
      note: home.note,
      upMm: home.upMm,
      rightMm: home.rightMm,
      lipLineMm: home.lipLineMm,
      follow: { ...angles(home.follow.pose), rimCentreMm: [...home.follow.pose.rimCentreMm], axis: [...home.follow.pose.axis] },
    },
    readings: inFileOrder.map(({ reading, band }) => readingOutput(reading, band)),
  };
}

/** The first problem as one line for people, the reading named by its index and note; null when there is none. */
export function problemLine(analysis: Analysis): string | null {
  const first = analysis.problems[0];
  if (first === undefined) return null;
  const others = analysis.problems.length - 1;
  const place = problemPlace(first.readingIndex, analysis.record);
  const words = first.words.startsWith(place) ? first.words : sayCli('problem', { place, words: first.words });
  return others > 0 ? sayCli('andMore', { words, count: others }) : words;
}

/** Where a number in the output is not finite (JSON would print it as null): its path, or null. */
export function notFinite(value: unknown, path = ''): string | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : path;
  if (typeof value !== 'object' || value === null) return null;
  for (const [key, inner] of Object.entries(value)) {
    const place = notFinite(inner, Array.isArray(value) ? `${path}[${key}]` : `${path}${path === '' ? '' : '.'}${key}`);
    if (place !== null) return place;
  }
  return null;
}

function readingOutput(reading: ReadingAnalysis, band: ReadingBand | null) {
  const { follow, held } = reading;
  return {
    note: reading.note,
    midi: reading.midi,
    direction: reading.direction,
    /** Places in the file's readings that were pooled into this one. */
    sources: [...reading.sources],
    travel: { upMm: reading.travel.upMm, rightMm: reading.travel.rightMm, sdMm: reading.travel.sdMm, rightSdMm: reading.travel.rightSdMm },
    forceN: reading.forceN,
    jawKnown: reading.jawKnown,
    predictedHorn:
      reading.predictedHorn === null
        ? null
        : { ...reading.predictedHorn, band95: band?.predicted ? plusMinus(band.predicted) : null },
    measuredHorn: reading.measured === null ? null : measuredOutput(reading.measured),
    changeFromHome: angles(reading.changeFromHome),
    /** Half the width of the 95 % band of changeFromHome, degrees; incomplete where a moved mouth found no seat. */
    changeBand95: band === null ? null : { ...plusMinus(band.change), complete: band.complete },
    follow: {
      ...angles(follow.pose),
      rimCentreMm: [...follow.pose.rimCentreMm],
      axis: [...follow.pose.axis],
      contactFraction: follow.load.contactFraction,
      share: { ...follow.load.share },
      lipShare: { ...follow.load.lipShare },
      peakOverMeanPressure: follow.load.peakOverMeanPressure,
      meanPressureKPa: follow.load.meanPressureKPa,
      forceResidual: follow.trace.forceResidual,
      momentResidual: follow.trace.momentResidual,
    },
    held: {
      ...angles(held.pose),
      rimCentreMm: [...held.pose.rimCentreMm],
      axis: [...held.pose.axis],
      contactFraction: held.load.contactFraction,
      share: { ...held.load.share },
      lipShare: { ...held.load.lipShare },
      momentNmm: { elevation: held.load.momentNmm.elevation, lateral: held.load.momentNmm.lateral },
      peakOverMeanPressure: held.load.peakOverMeanPressure,
      meanPressureKPa: held.load.meanPressureKPa,
      forceResidual: held.trace.forceResidual,
    },
    views: { plate: view(reading.views.plate), sphere: view(reading.views.sphere), normal: view(reading.views.normal) },
  };
}

function angles(of: HornAngles): HornAngles {
  return { elevationDeg: of.elevationDeg, lateralDeg: of.lateralDeg };
}

/** An angle that nobody saw is null, as is its deviation. */
function measuredOutput(measured: KnownHorn) {
  const seen = seenAngles(measured);
  return {
    ...seen,
    sdDeg: seen.elevationDeg === null ? null : measured.sdDeg,
    lateralSdDeg: seen.lateralDeg === null ? null : measured.lateralSdDeg,
  };
}

function plusMinus({ elevationSdDeg, lateralSdDeg }: PredictedBand): SeenAngles {
  const half = (sdDeg: number | null): number | null => (sdDeg === null ? null : NINETY_FIVE_PERCENT * sdDeg);
  return { elevationDeg: half(elevationSdDeg), lateralDeg: half(lateralSdDeg) };
}

function view(of: ViewAngles): ViewAngles {
  return { ...angles(of), changeFromHome: angles(of.changeFromHome) };
}

function problemPlace(readingIndex: number | null, record: PlayerRecord): string {
  if (readingIndex === null) return sayCli('home');
  const note = record.readings[readingIndex]?.note;
  return `readings[${readingIndex}]${note === undefined ? '' : ` (${note})`}`;
}

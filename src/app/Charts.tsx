import { type ReactNode, useMemo } from 'react';
import type { Analysis, ReadingAnalysis } from '../core/analysis';
import { AngleChart } from '../notebook/AngleChart';
import { FacePlot } from '../notebook/chart/FacePlot';
import { TravelChart } from '../notebook/chart/TravelChart';
import type { AngleCurvePoint, AnglePoint, Travel, TravelCurvePoint, TravelPoint } from '../notebook/chart/props';
import { shownNote } from '../notebook/noteNames';
import type { EntryStyle } from '../notebook/props';
import { withTravel } from '../notebook/recordEdits';
import { useApp, useSession } from './SessionContext';
import { postureOf } from './describe';
import { sampledPath } from './sampledPath';

/** The angles against pitch, as changes from home. */
export function AngleCharts({ entry }: { readonly entry: EntryStyle }): ReactNode {
  const session = useSession();
  const analysis = useApp((state) => state.analysis);
  const view = useApp((state) => state.settings.view);
  const selected = useApp((state) => state.selected);
  const posture = useApp((state) => postureOf(state.record.player.instrument));
  const points = useMemo(
    () => (analysis === null ? [] : inOrder(analysis).map((reading) => anglePoint(analysis, reading, entry.shownTransposition))),
    [analysis, entry.shownTransposition],
  );
  const curve = useMemo(() => (analysis === null ? [] : angleCurve(analysis, view)), [analysis, view]);
  if (points.length === 0) return null;
  return (
    <AngleChart
      points={points}
      curve={curve}
      words={posture === 'lap' ? LAP_WORDS : HELD_WORDS}
      live={session.playhead}
      selected={selected}
      onSelect={session.selectReading}
    />
  );
}

/** The travel against pitch and across the face; each note's point can be moved. */
export function TravelCharts({ entry }: { readonly entry: EntryStyle }): ReactNode {
  const session = useSession();
  const analysis = useApp((state) => state.analysis);
  const view = useApp((state) => state.settings.view);
  const selected = useApp((state) => state.selected);
  const mirror = useApp((state) => state.settings.sideways === 'mirror');
  const points = useMemo(
    () => (analysis === null ? [] : inOrder(analysis).map((reading) => travelPoint(reading, entry.shownTransposition))),
    [analysis, entry.shownTransposition],
  );
  const curve = useMemo(() => (analysis === null ? [] : travelCurve(analysis, view)), [analysis, view]);
  if (points.length === 0) return null;
  const { change, settle } = session.store.getState();
  const shared = {
    points,
    curve,
    live: session.playhead,
    selected,
    onSelect: session.selectReading,
    onTravel: (index: number, travel: Travel) =>
      change(withTravel(session.store.getState().record, index, travel), `chart:${index}`),
    onTravelEnd: settle,
  };
  return (
    <div className="travel-charts">
      <TravelChart {...shared} />
      <FacePlot {...shared} mirror={mirror} />
    </div>
  );
}

const HELD_WORDS = { elevation: 'Bell up', lateral: 'Bell to the right' };
const LAP_WORDS = { elevation: 'Head tips forward', lateral: 'Head turns to the left' };

/** The first branch's readings, rising in pitch. */
function inOrder(analysis: Analysis): readonly ReadingAnalysis[] {
  return (analysis.branches[0]?.order ?? []).flatMap((at) => analysis.readings[at] ?? []);
}

function anglePoint(analysis: Analysis, reading: ReadingAnalysis, transposition: number): AnglePoint {
  const home = analysis.home.measured;
  const { measured } = reading;
  return {
    readingIndex: reading.sources[0] ?? 0,
    midi: reading.midi,
    label: shownNote(reading.note, transposition),
    predicted: reading.changeFromHome,
    measured: measured === null || home === null
      ? null
      : {
          elevationDeg: measured.elevationDeg - home.elevationDeg,
          lateralDeg: measured.lateralDeg - home.lateralDeg,
          sdDeg: measured.sdDeg ?? 0,
        },
  };
}

function angleCurve(analysis: Analysis, view: Parameters<typeof sampledPath>[1]): AngleCurvePoint[] {
  const home = analysis.home.follow.pose;
  return sampledPath(analysis, view).flatMap(({ midi, follow }) =>
    midi === null
      ? []
      : [{
          midi,
          elevationDeg: follow.pose.elevationDeg - home.elevationDeg,
          lateralDeg: follow.pose.lateralDeg - home.lateralDeg,
        }]);
}

function travelPoint(reading: ReadingAnalysis, transposition: number): TravelPoint {
  return {
    readingIndex: reading.sources[0] ?? 0,
    midi: reading.midi,
    label: shownNote(reading.note, transposition),
    upMm: reading.travel.upMm,
    rightMm: reading.travel.rightMm,
    sdMm: reading.travel.sdMm ?? 0,
  };
}

function travelCurve(analysis: Analysis, view: Parameters<typeof sampledPath>[1]): TravelCurvePoint[] {
  return sampledPath(analysis, view).flatMap(({ midi, travel }) => (midi === null ? [] : [{ midi, ...travel }]));
}

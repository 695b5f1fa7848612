import { type ReactNode, useMemo } from 'react';
import type { Analysis, HornAngles, LiveFrame, PathBranch, ReadingAnalysis } from '../core/analysis';
import type { Live } from '../core/live';
import { isAngleSeen, UNSEEN_HORN_SD_DEG } from '../core/readings';
import { AngleChart } from '../notebook/AngleChart';
import { FacePlot } from '../notebook/chart/FacePlot';
import { TravelChart } from '../notebook/chart/TravelChart';
import type { AngleCurvePoint, AnglePoint, Travel, TravelCurvePoint, TravelPoint, Way } from '../notebook/chart/props';
import { noteAsShown } from '../notebook/noteNames';
import type { EntryStyle } from '../notebook/props';
import type { Posture } from '../print/instrumentWords';
import { useApp, useBands, usePath, useSession, useUnhurried } from './SessionContext';
import { postureOf } from './describe';
import { branchPitches } from './pathSampler';
import { sayPage } from '../words/page';

/** The angles against pitch, as changes from home. */
export function AngleCharts({ entry }: { readonly entry: EntryStyle }): ReactNode {
  const session = useSession();
  const analysis = useUnhurried((state) => state.analysis);
  const path = usePath();
  const selected = useUnhurried((state) => state.selected);
  const posture = useApp((state) => postureOf(state.record.player.instrument));
  const bands = useBands(analysis);
  const points = useMemo(
    () =>
      analysis === null
        ? []
        : inOrder(analysis).map((reading) => ({
            ...anglePoint(analysis, reading, entry),
            band: bands?.[analysis.readings.indexOf(reading)]?.change,
          })),
    [analysis, bands, entry],
  );
  const ways = useMemo(
    () =>
      analysis === null
        ? []
        : waysOf(analysis, ({ direction }) =>
            angleCurve(path.find((one) => one.direction === direction)?.frames ?? [], analysis.home.follow.pose)),
    [analysis, path],
  );
  const home = analysis?.home.follow.pose;
  // Drawn again only when what it shows has changed, not whenever the store has.
  return useMemo(
    () =>
      points.length === 0 ? null : (
        <AngleChart
          points={points}
          ways={ways}
          words={axisWords(posture)}
          live={session.playhead}
          home={home}
          selected={selected}
          onSelect={session.selectReading}
        />
      ),
    [points, ways, home, posture, session, selected],
  );
}

/** The travel against pitch and across the face; each note's point can be moved. */
export function TravelCharts({ entry }: { readonly entry: EntryStyle }): ReactNode {
  const session = useSession();
  const analysis = useUnhurried((state) => state.analysis);
  const live = useUnhurried((state) => state.live);
  const selected = useUnhurried((state) => state.selected);
  const mirror = useApp((state) => state.settings.sideways === 'mirror');
  const points = useMemo(
    () => (analysis === null ? [] : inOrder(analysis).map((reading) => travelPoint(reading, entry))),
    [analysis, entry],
  );
  const ways = useMemo(
    () => (analysis === null || live === null ? [] : waysOf(analysis, (branch) => travelCurve(analysis, live, branch))),
    [analysis, live],
  );
  return useMemo(() => {
    if (points.length === 0) return null;
    const { moveNote, settle } = session.store.getState();
    const shared = {
      points,
      ways,
      live: session.playhead,
      selected,
      onSelect: session.selectReading,
      onTravel: (index: number, travel: Travel) => moveNote(index, travel, `chart:${index}`),
      onTravelEnd: settle,
    };
    return (
      <div className="travel-charts">
        <TravelChart {...shared} />
        <FacePlot {...shared} mirror={mirror} />
      </div>
    );
  }, [points, ways, session, selected, mirror]);
}

const axisWords = (posture: Posture): { readonly elevation: string; readonly lateral: string } =>
  posture === 'lap'
    ? { elevation: sayPage('headTipsForward'), lateral: sayPage('headTurnsLeft') }
    : { elevation: sayPage('bellUp'), lateral: sayPage('bellRight') };

/** Up the first way, down the second; a note that lies on both comes once. */
function inOrder({ branches, readings }: Analysis): readonly ReadingAnalysis[] {
  const order = branches.flatMap(({ direction, order: rising }) => (direction === 'down' ? rising.toReversed() : rising));
  return [...new Set(order)].flatMap((at) => readings[at] ?? []);
}

function waysOf<Curve>(analysis: Analysis, curveOf: (branch: PathBranch) => readonly Curve[]): Way<Curve>[] {
  const points = inOrder(analysis);
  return analysis.branches.map((branch) => ({
    direction: branch.direction,
    members: branch.order.map((at) => points.indexOf(analysis.readings[at]!)),
    curve: curveOf(branch),
  }));
}

function anglePoint(analysis: Analysis, reading: ReadingAnalysis, entry: EntryStyle): AnglePoint {
  const home = analysis.home.measured;
  const { measured } = reading;
  return {
    readingIndex: reading.sources[0] ?? 0,
    midi: reading.midi,
    label: noteAsShown(reading.note, entry),
    direction: reading.direction,
    predicted: reading.changeFromHome,
    measured: measured === null || home === null
      ? null
      : {
          elevationDeg: measured.elevationDeg - home.elevationDeg,
          lateralDeg: measured.lateralDeg - home.lateralDeg,
          // From a home angle that nobody saw no change was seen either.
          sdDeg: isAngleSeen(home.sdDeg) ? measured.sdDeg : UNSEEN_HORN_SD_DEG,
          lateralSdDeg: isAngleSeen(home.lateralSdDeg) ? measured.lateralSdDeg : UNSEEN_HORN_SD_DEG,
        },
  };
}

function angleCurve(path: readonly LiveFrame[], home: HornAngles): AngleCurvePoint[] {
  return path.flatMap(({ midi, follow }) =>
    midi === null
      ? []
      : [{
          midi,
          elevationDeg: follow.pose.elevationDeg - home.elevationDeg,
          lateralDeg: follow.pose.lateralDeg - home.lateralDeg,
        }]);
}

function travelPoint(reading: ReadingAnalysis, entry: EntryStyle): TravelPoint {
  return {
    readingIndex: reading.sources[0] ?? 0,
    midi: reading.midi,
    label: noteAsShown(reading.note, entry),
    direction: reading.direction,
    upMm: reading.travel.upMm,
    rightMm: reading.travel.rightMm,
    sdMm: reading.travel.sdMm,
    rightSdMm: reading.travel.rightSdMm,
  };
}

/** Needs no seat, so it is of this moment even while a point is dragged. */
function travelCurve({ readings }: Analysis, live: Live, { direction, order }: PathBranch): TravelCurvePoint[] {
  return branchPitches(order.map((at) => readings[at]!.midi)).flatMap((midi) => {
    const travel = live.travelAt(midi, direction);
    return travel === null ? [] : [{ midi, ...travel }];
  });
}

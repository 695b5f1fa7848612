import { type ReactNode, useMemo } from 'react';
import { AngleChart } from '../notebook/AngleChart';
import type { AngleCurvePoint, AnglePoint } from '../notebook/chart/props';
import { shownNote } from '../notebook/noteNames';
import type { EntryStyle } from '../notebook/props';
import { useApp, useSession } from './SessionContext';
import { sampledPath } from './sampledPath';

/** The angles against pitch, as changes from home. */
export function Charts({ entry }: { readonly entry: EntryStyle }): ReactNode {
  const session = useSession();
  const analysis = useApp((state) => state.analysis);
  const view = useApp((state) => state.settings.view);
  const selected = useApp((state) => state.selected);
  const points = useMemo((): AnglePoint[] => {
    if (analysis === null) return [];
    const home = analysis.home.measured;
    return (analysis.branches[0]?.order ?? []).flatMap((at) => {
      const reading = analysis.readings[at];
      if (reading === undefined) return [];
      return [{
        readingIndex: reading.sources[0] ?? 0,
        midi: reading.midi,
        label: shownNote(reading.note, entry.shownTransposition),
        predicted: reading.changeFromHome,
        measured: reading.measured === null || home === null
          ? null
          : {
              elevationDeg: reading.measured.elevationDeg - home.elevationDeg,
              lateralDeg: reading.measured.lateralDeg - home.lateralDeg,
              sdDeg: reading.measured.sdDeg ?? 0,
            },
      }];
    });
  }, [analysis, entry.shownTransposition]);
  const curve = useMemo((): AngleCurvePoint[] => {
    if (analysis === null) return [];
    const home = analysis.home.follow.pose;
    return sampledPath(analysis, view).flatMap(({ midi, follow }) =>
      midi === null
        ? []
        : [{
            midi,
            elevationDeg: follow.pose.elevationDeg - home.elevationDeg,
            lateralDeg: follow.pose.lateralDeg - home.lateralDeg,
          }]);
  }, [analysis, view]);
  if (points.length === 0) return null;
  return <AngleChart points={points} curve={curve} live={session.playhead} selected={selected} onSelect={session.selectReading} />;
}

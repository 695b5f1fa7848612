import { useMemo } from 'react';
import { type Arch, buildArch } from '../core/arch';
import { teeth } from '../records/library';
import type { StageProps } from '../stage/props';
import { useApp, useSession, useUnhurried, useUnhurriedPath } from './SessionContext';
import { usePrefersReducedMotion } from './capabilities';
import { shownTransposition, stageWords } from './describe';

/** The stage's props for the player on the page; null while there is nothing to be drawn. */
export function useStageProps(): StageProps | null {
  const session = useSession();
  const analysis = useUnhurried((state) => state.analysis);
  const selected = useApp((state) => state.selected);
  const { camera, horn, view, theme, toothNumbers, cutOpen, naming } = useApp((state) => state.settings);
  const reducedMotion = usePrefersReducedMotion();
  const transposition = useApp(shownTransposition);
  const arch = useArch();
  const path = useUnhurriedPath();
  return useMemo(() => {
    if (analysis === null || arch === null) return null;
    const at = analysis.readings.findIndex((one) => one.sources.includes(selected));
    return {
      arch,
      teeth,
      rim: analysis.record.rim,
      lips: analysis.record.lips,
      lipLineMm: analysis.home.lipLineMm,
      analysis,
      path: path.map(({ frames }) => frames),
      live: session.playhead,
      selected: at < 0 ? null : at,
      camera,
      horn,
      showToothNumbers: toothNumbers,
      showHeldGhost: horn === 'follow' && view === 'seated',
      cutOpen,
      theme,
      reducedMotion,
      onDragStart: session.startDrag,
      onDragTravel: session.dragTo,
      onDragEnd: session.endDrag,
      onNudge: session.nudge,
      words: stageWords(analysis, transposition, naming),
    };
  }, [analysis, arch, path, session, selected, camera, horn, view, theme, toothNumbers, cutOpen, reducedMotion, transposition, naming]);
}

function useArch(): Arch | null {
  const spec = useApp((state) => state.analysis?.record.arch);
  return useMemo(() => (spec === undefined ? null : buildArch(spec)), [spec]);
}

import { useMemo } from 'react';
import { type Arch, buildArch } from '../core/arch';
import { teeth } from '../records/library';
import type { StageProps } from '../stage/props';
import { useApp, useSession, useUnhurried, useUnhurriedPath } from './SessionContext';
import { usePrefersReducedMotion } from './capabilities';
import { shownTransposition, stageWords } from './describe';

/** The stage's props for the player on the page; null while there is nothing to be drawn. */
export function useStageProps(): StageProps | null {
  return usePropsWith(useApp((state) => state.selected));
}

/** The same for what does not show the stage itself: the chosen note waits for a hand on the staff, as all else does. */
export function useUnhurriedStageProps(): StageProps | null {
  return usePropsWith(useUnhurried((state) => state.selected));
}

function usePropsWith(selected: number): StageProps | null {
  const session = useSession();
  const analysis = useUnhurried((state) => state.analysis);
  const { camera, horn, view, theme, toothNumbers, cutOpen, naming } = useApp((state) => state.settings);
  const reducedMotion = usePrefersReducedMotion();
  const transposition = useApp(shownTransposition);
  const arch = useArch();
  const samples = useUnhurriedPath();
  // The same while notes pass under a hand: the fan, and the labels' words, are made of these.
  const path = useMemo(() => samples.map(({ frames }) => frames), [samples]);
  const words = useMemo(() => (analysis === null ? undefined : stageWords(analysis, transposition, naming)), [analysis, transposition, naming]);
  return useMemo(() => {
    if (analysis === null || arch === null || words === undefined) return null;
    const at = analysis.readings.findIndex((one) => one.sources.includes(selected));
    return {
      arch,
      teeth,
      rim: analysis.record.rim,
      lips: analysis.record.lips,
      lipLineMm: analysis.home.lipLineMm,
      analysis,
      path,
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
      words,
    };
  }, [analysis, arch, path, words, session, selected, camera, horn, view, theme, toothNumbers, cutOpen, reducedMotion]);
}

function useArch(): Arch | null {
  const spec = useApp((state) => state.analysis?.record.arch);
  return useMemo(() => (spec === undefined ? null : buildArch(spec)), [spec]);
}

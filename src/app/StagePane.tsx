import { Component, type ReactNode, Suspense, lazy, useMemo, useState } from 'react';
import { type Arch, buildArch } from '../core/arch';
import { LazyStage } from '../stage/lazyStage';
import type { StageProps } from '../stage/props';
import { supportsWebGL2 } from '../stage/webgl';
import { Choice } from '../notebook/Choice';
import { teeth } from '../records/library';
import { useApp, useSession, useUnhurried, useUnhurriedPath } from './SessionContext';
import type { CameraName } from './settings';
import { postureOf, shownTransposition, stageWords } from './describe';
import { movesHome } from './store';
import { usePrefersReducedMotion } from './capabilities';

const FlatStage = lazy(async () => ({ default: (await import('../stage/FlatStage')).FlatStage }));

const CAMERAS: readonly { readonly value: CameraName; readonly label: string }[] = [
  { value: 'three-quarter', label: 'three-quarter' },
  { value: 'face', label: 'face to face' },
  { value: 'mirror', label: 'as in a mirror' },
  { value: 'side', label: 'from the side' },
  { value: 'above', label: 'from above' },
];

/** The picture: teeth, lips, rim and horn, with the choice of where to look from. */
export function StagePane(): ReactNode {
  const hasWebGl2 = supportsWebGL2();
  const props = useStageProps();
  const settings = useApp((state) => state.settings);
  const instrument = useApp((state) => state.record.player.instrument);
  // Once it has stood there its room is kept, or the drawing would move at the moment the hand lets go.
  const [hasHintRoom] = useState(!settings.hasDragged);
  const { store } = useSession();
  const picture = useMemo(
    () =>
      props === null ? (
        <p className="stage-waiting">There is no picture yet: the record cannot be computed.</p>
      ) : (
        <Suspense fallback={<p className="stage-waiting">The picture is being fetched…</p>}>
          {hasWebGl2 ? (
            <FallBack to={<FlatStage {...props} />}>
              <LazyStage {...props} />
            </FallBack>
          ) : (
            <FlatStage {...props} />
          )}
        </Suspense>
      ),
    [props, hasWebGl2],
  );
  return (
    <>
      <div className="stage-frame">
        {picture}
        {props === null || !hasHintRoom ? null : (
          <p className={settings.hasDragged ? 'first-hint first-hint--done' : 'first-hint'}>
            <span>
              Drag the rim. {postureOf(instrument) === 'lap' ? 'The axis shows how the head has to tip and turn.' : 'The horn shows where it has to point.'}
            </span>
          </p>
        )}
      </div>
      <div className="looking">
        <Choice
          legend="Seen"
          legendHidden
          options={CAMERAS}
          value={settings.camera}
          onChange={(camera) => store.getState().set({ camera })}
        />
        <label className="tick">
          <input
            type="checkbox"
            checked={settings.toothNumbers}
            onChange={(event) => store.getState().set({ toothNumbers: event.target.checked })}
          />
          tooth numbers
        </label>
        <label className="tick">
          <input
            type="checkbox"
            checked={settings.cutOpen}
            onChange={(event) => store.getState().set({ cutOpen: event.target.checked })}
          />
          cut open
        </label>
      </div>
    </>
  );
}

/** What dragging would do just now, in words. */
export function DragHint(): ReactNode {
  const home = useApp((state) => movesHome(state.record, state.selected));
  return (
    <p className="note drag-hint">
      {home
        ? 'Drag the rim or move it with the arrow keys: this is home, so the home place moves, and every note with it.'
        : 'Drag the rim or move it with the arrow keys: this note’s travel changes.'}
    </p>
  );
}

function useStageProps(): StageProps | null {
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

interface FallBackProps {
  readonly to: ReactNode;
  readonly children: ReactNode;
}

/** A graphics failure costs the third dimension, not the page. */
class FallBack extends Component<FallBackProps, { readonly failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError(): { failed: boolean } {
    return { failed: true };
  }

  override render(): ReactNode {
    return this.state.failed ? this.props.to : this.props.children;
  }
}

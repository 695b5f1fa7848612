import { type ReactNode, Suspense, lazy, useCallback, useEffect, useMemo } from 'react';
import type { LiveSource } from '../../core/analysis';
import { shownMidi } from '../../notebook/noteNames';
import { teeth } from '../../records/library';
import { LazyStageSet } from '../../stage/lazyStageSet';
import type { StagePart, StageProps, StageSetScene } from '../../stage/props';
import { supportsWebGL2 } from '../../stage/webgl';
import { sayStage } from '../../words/stage';
import { FallBack } from '../FallBack';
import { PartMissing } from '../PartMissing';
import { useApp, useSession, useUnhurried } from '../SessionContext';
import { shownTransposition, stageWords } from '../describe';
import { type Follower, createFollower } from '../follower';
import { useStageProps } from '../useStageProps';
import { Caption } from './Caption';
import type { Other } from './other';

const FlatSet = lazy(async () => ({ default: (await import('../../stage/FlatSet')).FlatSet }));

/** Both in one picture. The page's own playhead moves the one, and the other goes along with it by note. */
export function BesideStage({ other }: { readonly other: Other }): ReactNode {
  const own = useStageProps();
  return own === null ? null : <Both own={own} other={other} />;
}

function Both({ own, other }: { readonly own: StageProps; readonly other: Other }): ReactNode {
  const { playhead } = useSession();
  const label = useUnhurried((state) => state.record.player.label);
  const { horn, view, naming } = useApp((state) => state.settings);
  const transposition = useApp(shownTransposition);
  const follower = useMemo(() => {
    const options = { horn, view };
    const made = createFollower(() => ({ analysis: other.analysis, live: other.live, options }));
    made.toTravel({ upMm: 0, rightMm: 0 });
    return made;
  }, [other, horn, view]);
  useEffect(() => goAlong(playhead, follower), [playhead, follower]);
  const noteName = useCallback((midi: number) => shownMidi(midi, transposition, naming), [transposition, naming]);
  const otherScene = useOtherScene(own, other, follower, noteName);
  const scenes = useMemo<readonly StageSetScene[]>(() => {
    const caption = (
      <p className="stage-caption">
        <strong>{label}</strong>
      </p>
    );
    return [{ key: 'own', props: own, caption }, otherScene];
  }, [own, otherScene, label]);
  return (
    <FallBack to={<PartMissing className="stage-waiting" />}>
      <Suspense fallback={null}>
        {supportsWebGL2() ? (
          <FallBack to={<FlatSet scenes={scenes} seen={BOTH} message={sayStage('contextLost')} />}>
            <LazyStageSet scenes={scenes} seen={BOTH} />
          </FallBack>
        ) : (
          <FlatSet scenes={scenes} seen={BOTH} />
        )}
      </Suspense>
    </FallBack>
  );
}

const BOTH = ['own', 'other'];

/** The other's part of the picture. What changes only the one's own, as the note that is chosen there, leaves it as it is: then it need not be drawn anew. */
function useOtherScene(own: StageProps, other: Other, follower: Follower, noteName: (midi: number) => string): StageSetScene {
  const { playhead } = useSession();
  const { view, naming } = useApp((state) => state.settings);
  const transposition = useApp(shownTransposition);
  const words = useMemo(() => stageWords(other.analysis, transposition, naming), [other, transposition, naming]);
  const { camera, horn, showToothNumbers, showHeldGhost, cutOpen, theme, reducedMotion, onDragStart, onDragTravel, onDragEnd, onNudge } = own;
  return useMemo(() => {
    const { analysis, arch } = other;
    const props: StageProps = {
      arch,
      teeth,
      rim: analysis.record.rim,
      lips: analysis.record.lips,
      lipLineMm: analysis.home.lipLineMm,
      analysis,
      path: other.path(view),
      live: follower,
      selected: null,
      without: WITHOUT_HANDLE,
      words,
      camera, horn, showToothNumbers, showHeldGhost, cutOpen, theme, reducedMotion, onDragStart, onDragTravel, onDragEnd, onNudge,
    };
    return { key: 'other', props, caption: <Caption name={other.name} follower={follower} driver={playhead} noteName={noteName} /> };
  }, [other, follower, playhead, noteName, view, words, camera, horn, showToothNumbers, showHeldGhost, cutOpen, theme, reducedMotion, onDragStart, onDragTravel, onDragEnd, onNudge]);
}

const WITHOUT_HANDLE: readonly StagePart[] = ['handle'];

/** Off the path, as while home is dragged, the other stands still. */
function goAlong(playhead: LiveSource, follower: Follower): () => void {
  let [asked, gone] = [false, false];
  const step = (): void => {
    asked = false;
    const frame = playhead.current();
    if (!gone && frame?.midi != null) follower.toPitch(frame.midi, frame.direction);
  };
  step();
  // A note that is clicked on the staff is shown as chosen and then as touched: the other is worked out once for both, still before the next picture.
  const stop = playhead.subscribe(() => {
    if (!asked) queueMicrotask(step);
    asked = true;
  });
  return () => {
    gone = true;
    stop();
  };
}

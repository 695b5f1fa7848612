import { type ReactNode, Suspense, lazy, useCallback, useEffect, useMemo } from 'react';
import type { LiveSource } from '../../core/analysis';
import { shownMidi } from '../../notebook/noteNames';
import { teeth } from '../../records/library';
import { LazyStageSet } from '../../stage/lazyStageSet';
import type { StageProps, StageSetScene } from '../../stage/props';
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
  const { playhead } = useSession();
  const own = useStageProps();
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
  const scenes = useMemo<readonly StageSetScene[] | null>(() => {
    if (own === null) return null;
    const { analysis, arch } = other;
    const props: StageProps = {
      ...own,
      arch,
      teeth,
      rim: analysis.record.rim,
      lips: analysis.record.lips,
      lipLineMm: analysis.home.lipLineMm,
      analysis,
      path: other.path(view),
      live: follower,
      selected: null,
      without: ['handle'],
      words: stageWords(analysis, transposition, naming),
    };
    return [
      {
        key: 'own',
        props: own,
        caption: (
          <p className="stage-caption">
            <strong>{label}</strong>
          </p>
        ),
      },
      { key: 'other', props, caption: <Caption name={other.name} follower={follower} driver={playhead} noteName={noteName} /> },
    ];
  }, [own, other, follower, playhead, view, transposition, naming, label, noteName]);
  if (scenes === null) return null;
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

/** Off the path, as while home is dragged, the other stands still. */
function goAlong(playhead: LiveSource, follower: Follower): () => void {
  const step = (): void => {
    const frame = playhead.current();
    if (frame?.midi != null) follower.toPitch(frame.midi, frame.direction);
  };
  step();
  return playhead.subscribe(step);
}

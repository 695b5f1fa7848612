import { type ReactNode, Suspense, lazy, useMemo } from 'react';
import type { ClassStep } from '../../records/classSchema';
import { LazyStageSet } from '../../stage/lazyStageSet';
import type { StageSetScene } from '../../stage/props';
import { supportsWebGL2 } from '../../stage/webgl';
import { FallBack } from '../FallBack';
import { Caption } from '../beside/Caption';
import type { StepScene } from './useStepScene';
import { FETCHING, NO_PICTURE } from './words';

const FlatSet = lazy(async () => ({ default: (await import('../../stage/FlatSet')).FlatSet }));

interface ClassStageProps {
  readonly step: ClassStep;
  readonly scene: StepScene;
  /** What is said of each player where two are shown; empty until there is something to say. */
  readonly said: readonly string[];
  readonly noteName: (midi: number) => string;
}

/** The picture of a step: one player, or two beside each other with who they are over each. */
export function ClassStage({ step, scene: { actors, followers, scenes, seen }, said, noteName }: ClassStageProps): ReactNode {
  const captioned = useMemo<readonly StageSetScene[]>(
    () =>
      scenes.map((one) => {
        const index = seen.indexOf(one.key);
        const words = step.who[index]?.caption ?? actors?.[index]?.label ?? '';
        const driver = followers[index === 0 ? 1 : 0];
        if (seen.length < 2 || index < 0) return one;
        return { ...one, caption: <Caption name={words} said={said[index] ?? ''} follower={followers[index]!} driver={driver} noteName={noteName} /> };
      }),
    [scenes, seen, step, actors, followers, said, noteName],
  );
  if (actors === null) return <p className="stage-waiting">{NO_PICTURE}</p>;
  const flat = <FlatSet scenes={captioned} seen={seen} />;
  return (
    <Suspense fallback={<p className="stage-waiting">{FETCHING}</p>}>
      {supportsWebGL2() ? (
        <FallBack to={flat}>
          <LazyStageSet scenes={captioned} seen={seen} />
        </FallBack>
      ) : (
        flat
      )}
    </Suspense>
  );
}

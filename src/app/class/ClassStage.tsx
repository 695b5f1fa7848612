import { type ReactNode, Suspense, lazy, useMemo } from 'react';
import type { ClassStep } from '../../records/classSchema';
import { LazyStageSet } from '../../stage/lazyStageSet';
import type { StageSetScene } from '../../stage/props';
import { supportsWebGL2 } from '../../stage/webgl';
import { sayStage } from '../../words/stage';
import { FallBack } from '../FallBack';
import { PartMissing } from '../PartMissing';
import { Caption } from '../beside/Caption';
import type { StepScene } from './useStepScene';
import { sayClass } from '../../words/class';

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
  if (actors === null) return <p className="stage-waiting">{sayClass('noPicture')}</p>;
  return (
    <FallBack to={<PartMissing className="stage-waiting" />}>
      <Suspense fallback={<p className="stage-waiting">{sayClass('pictureFetched')}</p>}>
        {supportsWebGL2() ? (
          <FallBack to={<FlatSet scenes={captioned} seen={seen} message={sayStage('contextLost')} />}>
            <LazyStageSet scenes={captioned} seen={seen} />
          </FallBack>
        ) : (
          <FlatSet scenes={captioned} seen={seen} />
        )}
      </Suspense>
    </FallBack>
  );
}

import { type ReactNode, Suspense, lazy, useMemo, useState } from 'react';
import { LazyStage } from '../stage/lazyStage';
import { sayStage } from '../words/stage';
import { supportsWebGL2 } from '../stage/webgl';
import { Choice } from '../notebook/Choice';
import { FallBack } from './FallBack';
import { PartMissing } from './PartMissing';
import { useApp, useSession } from './SessionContext';
import { besidePicture } from './besideDoor';
import type { CameraName } from './settings';
import { postureOf } from './describe';
import { useInRoom } from './measuringDoor';
import { movesHome } from './store';
import { useStageProps } from './useStageProps';
import { sayPage } from '../words/page';

const FlatStage = lazy(async () => ({ default: (await import('../stage/FlatStage')).FlatStage }));

const CAMERAS: readonly CameraName[] = ['three-quarter', 'face', 'mirror', 'side', 'above'];

/** The picture: teeth, lips, rim and horn, with the choice of where to look from. */
export function StagePane(): ReactNode {
  const hasWebGl2 = supportsWebGL2();
  const props = useStageProps();
  const settings = useApp((state) => state.settings);
  const instrument = useApp((state) => state.record.player.instrument);
  // Once it has stood there its room is kept, or the drawing would move at the moment the hand lets go.
  const [hasHintRoom] = useState(!settings.hasDragged);
  const { store } = useSession();
  const two = useInRoom(besidePicture);
  const picture = useMemo(
    () =>
      props === null ? (
        <p className="stage-waiting">{sayPage('noPicture')}</p>
      ) : (
        <FallBack to={<PartMissing className="stage-waiting" />}>
          <Suspense fallback={<p className="stage-waiting">{sayPage('pictureFetched')}</p>}>
            {hasWebGl2 ? (
              <FallBack to={<FlatStage {...props} message={sayStage('contextLost')} />}>
                <LazyStage {...props} />
              </FallBack>
            ) : (
              <FlatStage {...props} />
            )}
          </Suspense>
        </FallBack>
      ),
    [props, hasWebGl2],
  );
  return (
    <>
      <div className="stage-frame">
        {two ?? picture}
        {props === null || !hasHintRoom ? null : (
          <p className={settings.hasDragged ? 'first-hint first-hint--done' : 'first-hint'}>
            <span>{sayPage('firstHint', { posture: postureOf(instrument) })}</span>
          </p>
        )}
      </div>
      <div className="looking">
        <Choice
          legend={sayPage('seen')}
          legendHidden
          options={CAMERAS.map((value) => ({ value, label: sayPage(`camera-${value}`) }))}
          value={settings.camera}
          onChange={(camera) => store.getState().set({ camera })}
        />
        <label className="tick">
          <input
            type="checkbox"
            checked={settings.toothNumbers}
            onChange={(event) => store.getState().set({ toothNumbers: event.target.checked })}
          />
          {sayPage('toothNumbers')}
        </label>
        <label className="tick">
          <input
            type="checkbox"
            checked={settings.cutOpen}
            onChange={(event) => store.getState().set({ cutOpen: event.target.checked })}
          />
          {sayPage('cutOpen')}
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
      {sayPage(home ? 'dragHome' : 'dragNote')}
    </p>
  );
}

import { type ReactNode, Suspense, lazy, useMemo, useState } from 'react';
import { LazyStage } from '../stage/lazyStage';
import { supportsWebGL2 } from '../stage/webgl';
import { Choice } from '../notebook/Choice';
import { FallBack } from './FallBack';
import { useApp, useSession } from './SessionContext';
import { besidePicture } from './besideDoor';
import type { CameraName } from './settings';
import { postureOf } from './describe';
import { useInRoom } from './measuringDoor';
import { movesHome } from './store';
import { useStageProps } from './useStageProps';

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
  const two = useInRoom(besidePicture);
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
        {two ?? picture}
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

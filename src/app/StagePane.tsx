import { type ReactNode, Suspense, lazy, useDeferredValue, useMemo, useState } from 'react';
import { workingsOf } from '../core/analyse';
import { scannedJaw } from '../core/ownArch/scannedArch';
import { LazyStage } from '../stage/lazyStage';
import { sayStage } from '../words/stage';
import { drawsInSoftware, supportsWebGL2 } from '../stage/webgl';
import { Choice } from '../notebook/Choice';
import { formatFixed } from '../notebook/numberText';
import { FallBack } from './FallBack';
import { PartMissing } from './PartMissing';
import { useApp, useSession, useToldNote, useUnhurried } from './SessionContext';
import { besidePicture } from './besideDoor';
import type { CameraName } from './settings';
import { postureOf } from './describe';
import { useInRoom } from './measuringDoor';
import { movesHome } from './store';
import { useStageProps } from './useStageProps';
import { sayPage } from '../words/page';

const FlatStage = lazy(async () => ({ default: (await import('../stage/FlatStage')).FlatStage }));
const FlatThenStage = lazy(async () => ({ default: (await import('../stage/FlatThenStage')).FlatThenStage }));

const CAMERAS: readonly CameraName[] = ['three-quarter', 'face', 'mirror', 'side', 'above'];

/** The picture: teeth, lips, rim and horn, with the choice of where to look from. */
export function StagePane(): ReactNode {
  const settings = useApp((state) => state.settings);
  const instrument = useApp((state) => state.record.player.instrument);
  const isDrawn = useApp((state) => state.analysis !== null);
  // Once it has stood there its room is kept, or the drawing would move at the moment the hand lets go.
  const [hasHintRoom] = useState(!settings.hasDragged);
  const { store } = useSession();
  const two = useInRoom(besidePicture);
  return (
    <>
      <div className="stage-frame">
        {two ?? <Picture />}
        {!isDrawn || !hasHintRoom ? null : (
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
      {two === null ? <DrawnTeeth /> : null}
    </>
  );
}

/** Of the player on the page alone. */
function Picture(): ReactNode {
  const hasWebGl2 = supportsWebGL2();
  // Drawn after the words and numbers of the same change, so that neither waits for both.
  const props = useDeferredValue(useStageProps());
  return useMemo(
    () =>
      props === null ? (
        <p className="stage-waiting">{sayPage('noPicture')}</p>
      ) : (
        <FallBack to={<PartMissing className="stage-waiting" />}>
          <Suspense fallback={<p className="stage-waiting">{sayPage('pictureFetched')}</p>}>
            {hasWebGl2 ? (
              <FallBack to={<FlatStage {...props} message={sayStage('contextLost')} />}>
                {drawsInSoftware() ? <FlatThenStage {...props} /> : <LazyStage {...props} />}
              </FallBack>
            ) : (
              <FlatStage {...props} />
            )}
          </Suspense>
        </FallBack>
      ),
    [props, hasWebGl2],
  );
}

/** Whose teeth are drawn, where the arch is that of a scan: the picture would else be taken for the scan. */
function DrawnTeeth(): ReactNode {
  const analysis = useUnhurried((state) => state.analysis);
  if (analysis === null) return null;
  const { arch } = analysis.record;
  const [upper, lower] = [scannedJaw(arch, 'upper'), scannedJaw(arch, 'lower')];
  if (upper === null && lower === null) return null;
  const mm = formatFixed(Math.max(upper?.residualMm ?? 0, lower?.residualMm ?? 0), 2);
  return (
    <p className="note drawn-teeth">
      {sayPage('drawnTeeth', { jaws: lower === null ? 'upper' : upper === null ? 'lower' : 'both', mm, on: workingsOf(analysis).mouthOf === null ? 'arch' : 'scan' })}
    </p>
  );
}

/** What dragging would do just now, in words. */
export function DragHint(): ReactNode {
  const told = useToldNote();
  const home = useApp((state) => movesHome(state.record, told));
  return (
    <p className="note drag-hint">
      {sayPage(home ? 'dragHome' : 'dragNote')}
    </p>
  );
}

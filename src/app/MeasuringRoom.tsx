import type { ReactNode } from 'react';
import { useStore } from 'zustand';
import { rimEllipse } from '../measure/pictureResult';
import { MeasuringPicture } from '../notebook/measure/MeasuringPicture';
import { markHint, markName } from '../notebook/measure/markNames';
import { useSession } from './SessionContext';
import { type MeasuringStore, shownSource } from './measuring';

/** The picture that is shown, with its marks, in the stage's place; what is done to them is said for those who hear the page. */
export function MeasuringRoom({ store }: { readonly store: MeasuringStore }): ReactNode {
  const { store: page } = useSession();
  const state = useStore(store);
  const shown = shownSource(state);
  if (shown === undefined) return null;
  const { active } = state;
  const { present, past, future } = shown.marks;
  const actions = store.getState();
  const { announce } = page.getState();
  return (
    <MeasuringPicture
      key={shown.id}
      name={shown.file.name}
      image={shown.picture.shown}
      size={shown.picture}
      view={shown.view}
      marks={present}
      ellipse={rimEllipse(present)}
      active={active}
      canUndo={past.length > 0}
      canRedo={future.length > 0}
      onPut={(point) => {
        if (active === null || !actions.put(point)) return;
        const next = store.getState().active;
        announce(`${markName(active)} put. ${next === null ? 'All marks are put.' : `Next: ${markName(next)}, ${markHint(next, shown.view)}.`}`);
      }}
      onMove={(id, point, key) => {
        actions.move(id, point, key);
        announce(`${markName(id)} at ${point.x.toFixed(1)}, ${point.y.toFixed(1)}`);
      }}
      onSettle={actions.settle}
      onTake={(id) => {
        actions.take(id);
        announce(`${markName(id)} taken away.`);
      }}
      onUndo={actions.undo}
      onRedo={actions.redo}
    />
  );
}

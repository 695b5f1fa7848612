import type { ReactNode } from 'react';
import { useStore } from 'zustand';
import { rimEllipse } from '../measure/pictureResult';
import { MeasuringPicture } from '../notebook/measure/MeasuringPicture';
import { useSession } from './SessionContext';
import { spokenMarks } from './marking';
import { type MeasuringStore, shownSource } from './measuring';

/** The picture that is shown, with its marks, in the stage's place; what is done to them is said for those who hear the page. */
export function MeasuringRoom({ store }: { readonly store: MeasuringStore }): ReactNode {
  const { store: page } = useSession();
  const state = useStore(store);
  const shown = shownSource(state);
  if (shown === undefined) return null;
  const { present, past, future } = shown.marks;
  return (
    <MeasuringPicture
      key={shown.id}
      name={shown.file.name}
      image={shown.picture.shown}
      small={shown.picture.small}
      size={shown.picture}
      view={shown.view}
      marks={present}
      ellipse={rimEllipse(present)}
      canUndo={past.length > 0}
      canRedo={future.length > 0}
      {...spokenMarks(store, shown.view, page.getState().announce)}
    />
  );
}

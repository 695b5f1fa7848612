import { useDeferredValue, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import type { PlayerSpec } from '../core/specs';
import type { PictureView, ShareChoice } from '../records/sharedPicture';
import { usePlaying, useSession, useUnhurried } from './SessionContext';
import { viewOf } from './pictureView';
import { choiceFor, sharing } from './sharing';

/** What would be given away just now. */
export interface Given {
  readonly player: PlayerSpec;
  readonly lessonId: string;
  readonly view: PictureView;
  readonly choice: ShareChoice;
}

/** A moment behind a hand that types. While the path plays, the note is the one it began at: a link that changed with every note could not be copied. */
export function useGiven(): Given {
  const { store } = useSession();
  const player = useUnhurried((state) => state.player);
  const lessonId = useUnhurried((state) => state.lesson.id);
  const settings = useUnhurried((state) => state.settings);
  const chosen = useUnhurried((state) => state.selected);
  const playing = usePlaying();
  const [selected, setSelected] = useState(store.getState().selected);
  if (!playing && selected !== chosen) setSelected(chosen);
  const shared = useStore(sharing);
  const typed = useMemo(() => ({ player, lessonId, view: viewOf({ settings, selected }) }), [player, lessonId, settings, selected]);
  const behind = useDeferredValue(typed);
  // What goes along is never behind: whoever takes a tick away and copies at once must not give what they took away.
  return useMemo(() => ({ ...behind, choice: choiceFor(shared, behind.player.id) }), [behind, shared]);
}

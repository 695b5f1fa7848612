/** What the giver chose to give: for the link, its code and the one file alike. What was ticked for one player is not ticked for the next. */
import { createStore } from 'zustand/vanilla';
import { NOTHING_TICKED, type ShareChoice, type ShareExtent, type ShareTicks } from '../records/sharedPicture';

export interface SharingState {
  readonly extent: ShareExtent;
  /** Whose ticks these are. */
  readonly playerId: string;
  readonly ticks: ShareTicks;
  choose(extent: ShareExtent): void;
  tick(playerId: string, ticks: ShareTicks): void;
}

function createSharing() {
  return createStore<SharingState>()((set) => ({
    extent: 'lesson',
    playerId: '',
    ticks: NOTHING_TICKED,
    choose: (extent) => set({ extent }),
    tick: (playerId, ticks) => set({ playerId, ticks }),
  }));
}

export const sharing = createSharing();

export function choiceFor({ extent, playerId, ticks }: SharingState, id: string): ShareChoice {
  return { extent, ticks: playerId === id ? ticks : NOTHING_TICKED };
}

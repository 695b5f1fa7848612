/** Whether the player's label goes into what is saved: ticked for one player, it is not ticked for the next. */
import { useState } from 'react';
import { useApp } from './SessionContext';

export function useLabelTick(): readonly [ticked: boolean, tick: (wished: boolean) => void] {
  const playerId = useApp((state) => state.player.id);
  const [tickedFor, setTickedFor] = useState<string | null>(null);
  return [tickedFor === playerId, (wished) => setTickedFor(wished ? playerId : null)];
}

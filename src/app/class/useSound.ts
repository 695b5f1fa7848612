/** The notes of the first player's path as they are passed, once sound is wished for; it begins switched off and is forgotten with the class. */
import { useEffect, useRef } from 'react';
import { soundAlong } from '../sounding';
import type { StepScene } from './useStepScene';

export function useSound({ actors, followers, motion }: StepScene, on: boolean): void {
  const wished = useRef(on);
  useEffect(() => {
    wished.current = on;
  }, [on]);
  useEffect(() => {
    const [actor, follower] = [actors?.[0], followers[0]];
    if (actor === undefined || follower === undefined) return undefined;
    const { analysis } = actor;
    return soundAlong({
      store: { getState: () => ({ settings: { sound: wished.current, speed: 1 }, analysis }) },
      playhead: { current: follower.current, subscribe: follower.subscribe, isPlaying: motion.isPlaying, onPlaying: motion.subscribe },
    });
  }, [actors, followers, motion]);
}

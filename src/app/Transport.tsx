import type { ReactNode } from 'react';
import { useApp, usePlaying, useSession } from './SessionContext';

const SPEEDS = [0.25, 0.5, 1, 1.5, 2] as const;

/** Play and pause, there and back, speed, sound. */
export function Transport(): ReactNode {
  const { playhead, store } = useSession();
  const playing = usePlaying();
  const { loop, speed, sound } = useApp((state) => state.settings);
  const canPlay = useApp(({ live }) => live?.range != null && live.range.high > live.range.low);
  const { set } = store.getState();
  return (
    <div className="transport" role="group" aria-label="Playing path">
      <button
        type="button"
        className="transport__play"
        disabled={!canPlay}
        onClick={() => (playing ? playhead.pause() : playhead.play())}
      >
        {playing ? 'Pause' : 'Play'}
      </button>
      <span className="transport__options">
        <label className="tick">
          <input type="checkbox" checked={loop} onChange={(event) => set({ loop: event.target.checked })} />
          there and back
        </label>
        <label className="tick">
          <input type="checkbox" checked={sound} onChange={(event) => set({ sound: event.target.checked })} />
          sound
        </label>
        <label className="tick">
          speed
          <select value={String(speed)} onChange={(event) => set({ speed: Number(event.target.value) })}>
            {SPEEDS.map((one) => (
              <option key={one} value={one}>
                {one}×
              </option>
            ))}
          </select>
        </label>
      </span>
    </div>
  );
}

import { type ReactNode, useEffect, useRef } from 'react';
import { shownMidi } from '../notebook/noteNames';
import { formatFixed } from '../notebook/numberText';
import { useApp, usePlaying, useSession } from './SessionContext';

export interface TransportProps {
  /** Written minus sounding while written names are shown, else 0. */
  readonly shownTransposition: number;
}

const SPEEDS = [0.25, 0.5, 1, 1.5, 2] as const;

/** Play and pause, there and back, speed, sound; and where the rim is at this moment. */
export function Transport({ shownTransposition }: TransportProps): ReactNode {
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
      <LiveReadout shownTransposition={shownTransposition} />
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

/** The moving numbers: written into the page frame by frame, without rendering; hidden from screen readers, which have the sentence. */
function LiveReadout({ shownTransposition }: TransportProps): ReactNode {
  const { playhead, store } = useSession();
  const text = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    const write = (): void => {
      const frame = playhead.current();
      const home = store.getState().analysis?.home.follow.pose;
      if (text.current === null || frame === null || home === undefined) return;
      const { upMm, rightMm } = frame.travel;
      const up = frame.shown.elevationDeg - home.elevationDeg;
      const right = frame.shown.lateralDeg - home.lateralDeg;
      const note = frame.midi === null ? '' : shownMidi(Math.round(frame.midi), shownTransposition);
      const place = `${formatFixed(upMm, 1)}, ${formatFixed(rightMm, 1)}\u00a0mm`;
      text.current.textContent = `${note} \u2002${place} \u00b7 ${formatFixed(up, 1)}°, ${formatFixed(right, 1)}°`;
    };
    write();
    return playhead.subscribe(write);
  }, [playhead, store, shownTransposition]);
  return <span className="transport__now" ref={text} aria-hidden="true" />;
}

/** Frame by frame through the film, along it by a slider, and playing it slowly; without sound the notes are tapped while it plays. */
import { type ReactNode, useEffect, useRef, useState } from 'react';
import { sayFilming } from '../../../words/filming';
import { saidNumber } from '../../../words/numbers';
import { formatFixed } from '../../numberText';

export interface FilmBarProps {
  readonly frameIndex: number;
  readonly frameCount: number;
  /** Of the frame that is shown. */
  readonly timeS: number;
  /** Of the frame that is wished for: the same, once it has come. */
  readonly wishedS: number;
  readonly span: { readonly startS: number; readonly endS: number };
  onStep(frames: number): void;
  onTime(timeS: number): void;
  /** A note begins now; null: notes are not tapped. */
  readonly onTap: (() => void) | null;
}

const SPEEDS = [0.25, 0.5, 1] as const;

export function FilmBar({ frameIndex, frameCount, timeS, wishedS, span, onStep, onTime, onTap }: FilmBarProps): ReactNode {
  const [speed, setSpeed] = useState(0.5);
  const { playing, toggle } = usePlaying(wishedS, span.endS, speed, onTime);
  return (
    <div className="film-bar" role="group" aria-label={sayFilming('along')}>
      <span className="button-row button-row--wraps">
        <button type="button" className="transport__play" onClick={toggle}>
          {sayFilming(playing ? 'pause' : 'play')}
        </button>
        <button type="button" className="quiet" disabled={frameIndex <= 0} onClick={() => onStep(-1)}>
          {sayFilming('frameBack')}
        </button>
        <button type="button" className="quiet" disabled={frameIndex >= frameCount - 1} onClick={() => onStep(1)}>
          {sayFilming('frameOn')}
        </button>
        {onTap === null ? null : (
          <button type="button" onClick={onTap}>
            {sayFilming('tap')}
          </button>
        )}
        <label className="tick">
          {sayFilming('speed')}
          <select value={String(speed)} onChange={(event) => setSpeed(Number(event.target.value))}>
            {SPEEDS.map((one) => (
              <option key={one} value={one}>{`${saidNumber(one)}×`}</option>
            ))}
          </select>
        </label>
      </span>
      <label className="film-bar__along">
        <span className="only-heard">{sayFilming('time')}</span>
        <input
          type="range"
          min={span.startS}
          max={span.endS}
          step={0.01}
          value={wishedS}
          aria-valuetext={sayFilming('timeSaid', { seconds: formatFixed(wishedS, 2), frame: frameIndex + 1, of: frameCount })}
          onChange={(event) => onTime(Number(event.target.value))}
          onKeyDown={(event) => {
            // A step of the slider is a frame, whatever the frame's length.
            const by = event.key === 'ArrowRight' || event.key === 'ArrowUp' ? 1 : event.key === 'ArrowLeft' || event.key === 'ArrowDown' ? -1 : 0;
            if (by === 0) return;
            event.preventDefault();
            onStep(by);
          }}
        />
      </label>
      <span className="film-bar__time">{`${formatFixed(timeS, 2)} s`}</span>
      {/* While it plays the frames follow as they can, and the time is that of the one that is seen. */}
      <span className="film-bar__wish note">
        {wishedS === timeS || playing ? null : (
          <>
            <span aria-hidden="true">→ </span>
            <span className="only-heard">{sayFilming('onTheWay')} </span>
            {`${formatFixed(wishedS, 2)} s`}
          </>
        )}
      </span>
    </div>
  );
}

/** Time goes on from where it stands; the frames come as fast as they can be read. */
function usePlaying(timeS: number, endS: number, speed: number, onTime: (timeS: number) => void): { readonly playing: boolean; toggle(): void } {
  const [playing, setPlaying] = useState(false);
  const latest = useRef({ timeS, onTime });
  useEffect(() => {
    latest.current = { timeS, onTime };
  });
  useEffect(() => {
    if (!playing) return undefined;
    let before: number | null = null;
    let now = latest.current.timeS;
    let request = requestAnimationFrame(function run(ms) {
      now += before === null ? 0 : (speed * (ms - before)) / 1000;
      before = ms;
      latest.current.onTime(Math.min(now, endS));
      if (now >= endS) setPlaying(false);
      else request = requestAnimationFrame(run);
    });
    return () => cancelAnimationFrame(request);
  }, [playing, speed, endS]);
  return { playing, toggle: () => setPlaying(!playing) };
}

import type { ReactNode } from 'react';
import { instrumentById } from '../records/library';
import { useApp, usePlaying, useSession } from './SessionContext';
import { notationOf } from './describe';
import { LazyBeside } from './lazyBeside';
import type { Settings } from './settings';
import { saidNumber } from '../words/numbers';
import { sayPage } from '../words/page';

const SPEEDS = [0.25, 0.5, 1, 1.5, 2] as const;

/** Play and pause, there and back, which way, speed, sound, and the clef that is read in. */
export function Transport(): ReactNode {
  const { playhead, store } = useSession();
  const playing = usePlaying();
  const { loop, speed, sound, plays } = useApp((state) => state.settings);
  const hasWays = useApp(({ analysis }) => (analysis?.branches.length ?? 0) > 1);
  const canPlay = useApp(({ live }) => live?.range != null && live.range.high > live.range.low);
  const { set } = store.getState();
  return (
    <div className="transport" role="group" aria-label={sayPage('playing')}>
      <button
        type="button"
        className="transport__play"
        disabled={!canPlay}
        onClick={() => (playing ? playhead.pause() : playhead.play())}
      >
        {sayPage(playing ? 'pause' : 'play')}
      </button>
      <span className="transport__options">
        <label className="tick">
          <input type="checkbox" checked={loop} onChange={(event) => set({ loop: event.target.checked })} />
          {sayPage('thereAndBack')}
        </label>
        {hasWays && (
          <label className="tick">
            {sayPage('plays')}
            <select value={plays} onChange={(event) => set({ plays: event.target.value as Settings['plays'] })}>
              <option value="both">{sayPage('upThenDown')}</option>
              <option value="up">{sayPage('ascending')}</option>
              <option value="down">{sayPage('descending')}</option>
            </select>
          </label>
        )}
        <label className="tick">
          <input type="checkbox" checked={sound} onChange={(event) => set({ sound: event.target.checked })} />
          {sayPage('sound')}
        </label>
        <label className="tick">
          {sayPage('speed')}
          <select value={String(speed)} onChange={(event) => set({ speed: Number(event.target.value) })}>
            {SPEEDS.map((one) => (
              <option key={one} value={one}>
                {saidNumber(one)}×
              </option>
            ))}
          </select>
        </label>
        <ClefChoice />
        <LazyBeside />
      </span>
    </div>
  );
}

/** Only for instruments that are written in more than one clef. */
function ClefChoice(): ReactNode {
  const { store } = useSession();
  const instrument = useApp((state) => state.record.player.instrument);
  const clef = useApp((state) => state.settings.clef);
  const notations = instrumentById(instrument)?.notations ?? [];
  if (notations.length < 2) return null;
  return (
    <label className="tick">
      {sayPage('readIn')}
      <select
        value={notationOf(instrument, clef)?.clef}
        onChange={(event) => store.getState().set({ clef: event.target.value as Settings['clef'] })}
      >
        {notations.map((one) => (
          <option key={one.clef} value={one.clef}>
            {sayPage('clef', { clef: one.clef, transposed: one.transpositionSemitones === 0 ? 'no' : 'yes' })}
          </option>
        ))}
      </select>
    </label>
  );
}

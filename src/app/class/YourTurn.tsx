import { type ReactNode, useId, useMemo, useState } from 'react';
import { MovingText } from '../../notebook/Moving';
import { NumberField } from '../../notebook/NumberField';
import { TRAVEL_MM } from '../../records/readingRanges';
import { type Follower, pitchRange } from '../follower';
import { frameSentence } from './answer';
import type { Actor } from './cast';
import type { ClassMotion } from './motion';
import { sayClass } from '../../words/class';

interface YourTurnProps {
  readonly actor: Actor;
  readonly follower: Follower;
  readonly motion: ClassMotion;
  readonly noteName: (midi: number) => string;
}

const RANGE = { min: TRAVEL_MM[0], max: TRAVEL_MM[1], unit: 'mm' };

/** Numbers called out in the room: a travel, or a note of the player's path, and what the horn does. */
export function YourTurn({ actor, follower, motion, noteName }: YourTurnProps): ReactNode {
  const [travel, setTravel] = useState({ upMm: 0, rightMm: 0 });
  const [note, setNote] = useState('');
  const [refused, setRefused] = useState(false);
  const id = useId();
  const notes = useMemo(() => semitones(actor), [actor]);
  const go = (to: typeof travel, midi?: number): void => {
    const { live } = actor;
    const rests = (midi === undefined ? live.atTravel(to, SHOWN) : live.atPitch(midi, SHOWN)) !== null;
    setRefused(!rests);
    if (rests) motion.goTo(to, midi);
  };
  const goToNote = (value: string): void => {
    setNote(value);
    const at = value === '' ? null : actor.live.travelAt(Number(value));
    if (at === null) return;
    setTravel({ upMm: tenths(at.upMm), rightMm: tenths(at.rightMm) });
    go(at, Number(value));
  };
  const typed = (part: Partial<typeof travel>): void => {
    setNote('');
    setTravel({ ...travel, ...part });
  };
  return (
    <form
      className="klass-turn"
      onSubmit={(event) => {
        event.preventDefault();
        go(travel);
      }}
    >
      <fieldset>
        <legend className="only-heard">{sayClass('yourTurn')}</legend>
        <NumberField label={sayClass('turnUp')} value={travel.upMm} range={RANGE} step={0.5} places={1} onChange={(value) => typed({ upMm: value ?? 0 })} />
        <NumberField label={sayClass('turnRight')} value={travel.rightMm} range={RANGE} step={0.5} places={1} onChange={(value) => typed({ rightMm: value ?? 0 })} />
        <span className="klass-turn__note">
          <label htmlFor={id}>{sayClass('orNote')}</label>
          <select id={id} value={note} onChange={({ target }) => goToNote(target.value)}>
            <option value="">{sayClass('choose')}</option>
            {notes.map((midi) => (
              <option key={midi} value={midi}>
                {noteName(midi)}
              </option>
            ))}
          </select>
        </span>
        <span className="klass-turn__go">
          <button type="submit" className="primary">
            {sayClass('go')}
          </button>
          <button
            type="button"
            onClick={() => {
              typed({ upMm: 0, rightMm: 0 });
              go({ upMm: 0, rightMm: 0 });
            }}
          >
            {sayClass('home')}
          </button>
        </span>
      </fieldset>
      {refused ? <p role="alert">{sayClass('cannotRest')}</p> : null}
      <p className="klass-result">
        <MovingText of={follower} words={(frame) => (frame === null ? '' : frameSentence(actor, frame, 'follow'))} />
      </p>
      <p className="klass-result">
        <MovingText of={follower} words={(frame) => (frame === null ? '' : frameSentence(actor, frame, 'held'))} />
      </p>
    </form>
  );
}

const SHOWN = { horn: 'follow', view: 'seated' } as const;
const tenths = (value: number): number => Number(value.toFixed(1));

/** Every semitone from the lowest reading to the highest: the path goes through all of them. */
function semitones({ analysis }: Actor): readonly number[] {
  const range = pitchRange(analysis);
  return range === null ? [] : Array.from({ length: Math.floor(range.high) - Math.ceil(range.low) + 1 }, (_, step) => Math.ceil(range.low) + step);
}

import { type ReactNode, type RefObject, useSyncExternalStore } from 'react';
import { usePrefersReducedMotion } from '../capabilities';
import type { ClassMotion } from './motion';
import type { FullScreen } from './useFullScreen';
import * as words from './words';

interface ClassBarProps {
  readonly count: string;
  readonly motion: ClassMotion;
  /** Something moves in this step, and its question has been asked. */
  readonly plays: boolean;
  readonly toSay: boolean;
  /** null: this step has no notes to be heard. */
  readonly sound: boolean | null;
  readonly planning: boolean;
  readonly screen: FullScreen;
  readonly planButton: RefObject<HTMLButtonElement | null>;
  onForward(): void;
  onBack(): void;
  onToSay(): void;
  onSound(): void;
  onPlanning(): void;
  onLeave(): void;
}

/** What can be pressed, along the lower edge; everything in it has a key or can be reached by Tab. */
export function ClassBar(props: ClassBarProps): ReactNode {
  const { count, motion, plays, toSay, sound, planning, screen } = props;
  return (
    <nav className="klass-bar" aria-label={words.CONTROLS}>
      <span className="klass-bar__steps">
        <button type="button" onClick={props.onBack}>
          {words.BACK}
        </button>
        <span className="klass-bar__count">{count}</span>
        <button type="button" className="primary" onClick={props.onForward}>
          {words.FORWARD}
        </button>
      </span>
      {plays ? <PlayButton motion={motion} /> : null}
      {sound === null ? null : (
        <button type="button" aria-pressed={sound} onClick={props.onSound}>
          {words.SOUND}
        </button>
      )}
      <span className="klass-bar__more">
        <button type="button" aria-pressed={toSay} onClick={props.onToSay}>
          {words.TO_SAY}
        </button>
        <button ref={props.planButton} type="button" aria-expanded={planning} onClick={props.onPlanning}>
          {words.STEPS}
        </button>
        {screen.possible ? (
          <button type="button" aria-pressed={screen.on} onClick={screen.toggle}>
            {words.FULL_SCREEN}
          </button>
        ) : null}
        <button type="button" onClick={props.onLeave}>
          {words.LEAVE}
        </button>
      </span>
      <p className="only-heard">{words.KEYS}</p>
    </nav>
  );
}

function PlayButton({ motion }: { readonly motion: ClassMotion }): ReactNode {
  const playing = useSyncExternalStore(motion.subscribe, motion.isPlaying);
  const stands = useSyncExternalStore(motion.subscribe, motion.stands);
  const still = usePrefersReducedMotion();
  if (still) {
    return (
      <button type="button" onClick={stands === 'end' ? motion.toStart : motion.toEnd}>
        {stands === 'end' ? words.SHOW_START : words.SHOW_END}
      </button>
    );
  }
  return (
    <button type="button" onClick={playing ? motion.pause : motion.play}>
      {playing ? words.PAUSE : words.PLAY}
    </button>
  );
}

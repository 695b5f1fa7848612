import { type ReactNode, type RefObject, useSyncExternalStore } from 'react';
import { usePrefersReducedMotion } from '../capabilities';
import type { ClassMotion } from './motion';
import type { FullScreen } from './useFullScreen';
import { sayClass } from '../../words/class';

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
    <nav className="klass-bar" aria-label={sayClass('controls')}>
      <span className="klass-bar__steps">
        <button type="button" onClick={props.onBack}>
          {sayClass('back')}
        </button>
        <span className="klass-bar__count">{count}</span>
        <button type="button" className="primary" onClick={props.onForward}>
          {sayClass('next')}
        </button>
      </span>
      {plays ? <PlayButton motion={motion} /> : null}
      {sound === null ? null : (
        <button type="button" aria-pressed={sound} onClick={props.onSound}>
          {sayClass('sound')}
        </button>
      )}
      <span className="klass-bar__more">
        <button type="button" aria-pressed={toSay} onClick={props.onToSay}>
          {sayClass('toSay')}
        </button>
        <button ref={props.planButton} type="button" aria-expanded={planning} onClick={props.onPlanning}>
          {sayClass('steps')}
        </button>
        {screen.possible ? (
          <button type="button" aria-pressed={screen.on} onClick={screen.toggle}>
            {sayClass('fullScreen')}
          </button>
        ) : null}
        <button type="button" onClick={props.onLeave}>
          {sayClass('leave')}
        </button>
      </span>
      <p className="only-heard">{sayClass('keys')}</p>
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
        {sayClass(stands === 'end' ? 'showStart' : 'showEnd')}
      </button>
    );
  }
  return (
    <button type="button" onClick={playing ? motion.pause : motion.play}>
      {sayClass(playing ? 'pause' : 'play')}
    </button>
  );
}

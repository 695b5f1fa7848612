/**
 * The flat drawing at once, and the picture in three dimensions once that has really been drawn: it is made ready behind the drawing and takes its place
 * without a hand, a place or the focus being lost. For browsers that draw in three dimensions slowly: there a first picture takes seconds.
 */
import { Suspense, startTransition, useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { FlatStage } from './FlatStage';
import { LazyStage } from './lazyStage';
import type { StageProps } from './props';
import { slowedLive } from './slowedLive';
import { ownStageWords } from './words';

/** So many frames the drawing is seen to move before anything else is asked of the machine: on a busy one they take the longer. */
const FLAT_ALONE_FRAMES = 12;
/** Between two steps of the drawing while the picture is made ready, ms: where the processor draws it draws the page too, and goes on with the picture only in between. */
const STEP_MS = 120;

export function FlatThenStage(props: StageProps) {
  const [begun, setBegun] = useState(false);
  const [drawn, setDrawn] = useState(false);
  const [held, setHeld] = useState(false);
  const box = useRef<HTMLDivElement>(null);
  const focused = useRef<{ readonly ring: boolean } | null>(null);
  const over = drawn && !held;
  useEffect(() => {
    let frames = 0;
    let asked = requestAnimationFrame(function count() {
      frames += 1;
      if (frames < FLAT_ALONE_FRAMES) asked = requestAnimationFrame(count);
      else startTransition(() => setBegun(true));
    });
    return () => cancelAnimationFrame(asked);
  }, []);
  const noteFocus = useCallback(() => {
    const handle = document.activeElement;
    const isOn = handle !== null && handle.matches('.stage-handle') && box.current?.contains(handle) === true;
    focused.current = isOn ? { ring: handle.matches(':focus-visible') } : null;
  }, []);
  const { live } = props;
  const seldom = useMemo(() => slowedLive(live, STEP_MS), [live]);
  const onDrawn = useCallback(() => {
    noteFocus();
    setDrawn(true);
  }, [noteFocus]);
  const { onDragStart, onDragEnd } = props;
  const startHeld = useCallback(() => {
    setHeld(true);
    onDragStart();
  }, [onDragStart]);
  const endHeld = useCallback(() => {
    noteFocus();
    setHeld(false);
    onDragEnd();
  }, [onDragEnd, noteFocus]);
  useLayoutEffect(() => {
    const was = focused.current;
    if (!over || was === null) return;
    // `focusVisible` is in the HTML standard and not yet in TypeScript's types.
    const options: FocusOptions & { readonly focusVisible: boolean } = { preventScroll: true, focusVisible: was.ring };
    box.current?.querySelector<HTMLElement>('.stage-handle')?.focus(options);
  }, [over]);
  return (
    <div ref={box} className="stage-turns">
      {begun && (
        <Suspense fallback={null}>
          <div className={over ? 'stage-turn' : 'stage-turn stage-turn--coming'} inert={!over}>
            <LazyStage {...props} coming={!over} onDrawn={onDrawn} />
          </div>
        </Suspense>
      )}
      {!over && (
        <div className="stage-turn">
          <FlatStage {...props} live={begun && !held ? seldom : live} onDragStart={startHeld} onDragEnd={endHeld} message={ownStageWords().flatForNow} />
        </div>
      )}
    </div>
  );
}

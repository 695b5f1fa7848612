/** The jaw that the lips' table is made for: it follows the live jaw once that rests, since the table takes longer than a frame. */
import { useEffect, useState } from 'react';
import type { LiveSource } from '../core/analysis';
import type { JawSpec } from '../core/specs';
import { jawMove, moveSize } from './jawMove';

/** Longer than between two frames of a drag. */
const AT_REST_MS = 150;
/** A jaw that moved by less leaves the table as it is. */
const NOTICED_MM = 0.05;

export function useSettledJaw(live: LiveSource, own: JawSpec | null): JawSpec | null {
  const [settled, setSettled] = useState<{ readonly own: JawSpec | null; readonly jaw: JawSpec | null }>({ own, jaw: own });
  const jaw = settled.own === own ? settled.jaw : own;
  useEffect(() => {
    if (own === null) return undefined;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const consider = (): void => {
      clearTimeout(timer);
      const wanted = live.current()?.jaw ?? own;
      if (moveSize(jawMove(jaw, wanted)) > NOTICED_MM) timer = setTimeout(() => setSettled({ own, jaw: wanted }), AT_REST_MS);
    };
    consider();
    const stop = live.subscribe(consider);
    return () => {
      clearTimeout(timer);
      stop();
    };
  }, [live, own, jaw]);
  return jaw;
}

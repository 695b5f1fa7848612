/** Runs `update` in the frame loop when the live source has a new frame, and again when `update` itself has changed. */
import { useEffect, useRef } from 'react';
import { useFrame, useThree } from '@react-three/fiber';
import type { LiveFrame, LiveSource } from '../core/analysis';

export function useLiveFrame(live: LiveSource, update: (frame: LiveFrame) => void): void {
  const done = useRef<{ frame: LiveFrame | null; update: unknown }>({ frame: null, update: null });
  const invalidate = useThree((state) => state.invalidate);
  useEffect(() => invalidate(), [update, invalidate]);
  useFrame(() => {
    const frame = live.current();
    const last = done.current;
    if (!frame || (frame === last.frame && update === last.update)) return;
    last.frame = frame;
    last.update = update;
    update(frame);
  });
}

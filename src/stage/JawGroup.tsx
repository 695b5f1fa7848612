/** What belongs to the lower jaw: moved as one piece to where the jaw stands in the live frame. */
import { useCallback, useRef, type ReactNode } from 'react';
import type { Group } from 'three';
import type { LiveFrame, LiveSource } from '../core/analysis';
import type { JawSpec } from '../core/specs';
import { jawMove, writeJawMatrix } from './jawMove';
import { useLiveFrame } from './useLiveFrame';

interface JawGroupProps {
  /** Where the jaw stands in what is drawn inside. */
  readonly own: JawSpec | null;
  readonly live: LiveSource;
  readonly children: ReactNode;
}

export function JawGroup({ own, live, children }: JawGroupProps) {
  const group = useRef<Group>(null);
  const update = useCallback(
    ({ jaw }: LiveFrame) => {
      const object = group.current;
      if (!object) return;
      writeJawMatrix(jawMove(own, jaw), object.matrix.elements);
      object.matrixWorldNeedsUpdate = true;
    },
    [own],
  );
  useLiveFrame(live, update);
  return (
    <group ref={group} matrixAutoUpdate={false}>
      {children}
    </group>
  );
}

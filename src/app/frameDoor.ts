/** A wish to see what a reading was measured from, handed to the part that measures: that is fetched late, and takes it up when it has come. */
export interface FrameWish {
  readonly measuringId: string;
  /** Which of its films or pictures; null: all of them, to measure again. */
  readonly sourceIndex: number | null;
  /** The frame, that film's own time, s; null: nothing says which, or it is a picture. */
  readonly frameS: number | null;
}

export interface FrameDoor {
  wish(wish: FrameWish): void;
  /** The last wish, once; null: none since. */
  take(): FrameWish | null;
  subscribe(listener: () => void): () => void;
}

function createFrameDoor(): FrameDoor {
  let wished: FrameWish | null = null;
  const listeners = new Set<() => void>();
  return {
    wish: (wish) => {
      wished = wish;
      for (const listener of listeners) listener();
    },
    take: () => {
      const taken = wished;
      wished = null;
      return taken;
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
  };
}

export const frameDoor = createFrameDoor();

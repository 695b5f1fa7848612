/** Seeded random numbers (xoroshiro128+ of pure-rand): the generator is an argument everywhere, never a global. */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

export interface Random {
  /** In [0, 1). */
  uniform(): number;
  /** Whole, both ends included. */
  integer(low: number, high: number): number;
  /** Standard normal. */
  normal(): number;
}

/**
 * The same seed (a whole number; its low 32 bits count) gives the same numbers on every machine. `stream` (from 0) is a place in the
 * seed's own sequence, 2^64 numbers from the next: streams of one seed never meet.
 */
export function createRandom(seed: number, stream = 0): Random {
  if (!Number.isInteger(seed)) throw new RangeError(`createRandom: seed ${seed}; allowed: a whole number`);
  if (!Number.isInteger(stream) || stream < 0) throw new RangeError(`createRandom: stream ${stream}; allowed: a whole number from 0`);
  const generator = xoroshiro128plus(seed);
  // A small seed leaves most of the state's bits zero, and the first draws would lie near 0 or 1; the jump spreads them.
  for (let jumps = 0; jumps <= stream; jumps++) generator.jump();
  // Box–Muller gives two normals at a time: the second waits here.
  let waiting: number | null = null;
  const uniform = (): number => uniformFloat64(generator);
  return {
    uniform,
    integer: (low, high) => uniformInt(generator, low, high),
    normal(): number {
      if (waiting !== null) {
        const kept = waiting;
        waiting = null;
        return kept;
      }
      const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
      const angle = 2 * Math.PI * uniform();
      waiting = radius * Math.sin(angle);
      return radius * Math.cos(angle);
    },
  };
}

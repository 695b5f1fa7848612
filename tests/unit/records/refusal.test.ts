import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parsePlayers, parsePlayersText, playersFile } from '../../../src/records/schema';
import { fullPlayer } from '../../support/records';

const SEED = 20240611;

/** Every place in a JSON value, as a list of keys. */
function places(value: unknown, path: readonly PropertyKey[] = []): (readonly PropertyKey[])[] {
  if (typeof value !== 'object' || value === null) return [path];
  const inner = Array.isArray(value)
    ? value.flatMap((item, index) => places(item, [...path, index]))
    : Object.entries(value).flatMap(([key, item]) => places(item, [...path, key]));
  return [path, ...inner];
}

function replaced(value: unknown, path: readonly PropertyKey[], by: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return by;
  const copy = (Array.isArray(value) ? [...(value as unknown[])] : { ...(value as object) }) as Record<PropertyKey, unknown>;
  copy[key] = replaced(copy[key], rest, by);
  return copy;
}

describe(`one spoiled place (seed ${SEED})`, () => {
  const whole = playersFile([fullPlayer()]);
  const somewhere = fc.constantFrom(...places(whole));

  it('is either allowed, and comes through unchanged, or refused in one line that names it or what holds it', () => {
    fc.assert(
      fc.property(somewhere, fc.oneof(fc.jsonValue(), fc.double(), fc.string()), (path, value) => {
        const spoiled = replaced(whole, path, value);
        const parsed = parsePlayers(spoiled);
        if (parsed.kind === 'players') {
          expect(playersFile(parsed.players)).toEqual(spoiled);
          return;
        }
        expect(parsed.message).not.toMatch(/[\p{Cc}\p{Zl}\p{Zp}]/u);
        expect(parsed.message).toContain('; allowed');
        const [top] = path;
        expect(parsed.message.startsWith(top === undefined ? '' : String(top))).toBe(true);
      }),
      { seed: SEED, numRuns: 3000 },
    );
  });

  it('a file that is allowed stays the same through its file text', () => {
    fc.assert(
      fc.property(somewhere, fc.oneof(fc.jsonValue(), fc.double({ noNaN: true, noDefaultInfinity: true })), (path, value) => {
        const parsed = parsePlayers(replaced(whole, path, value));
        if (parsed.kind === 'refused') return;
        expect(parsePlayersText(JSON.stringify(playersFile(parsed.players)))).toEqual(JSON.parse(JSON.stringify(parsed)));
      }),
      { seed: SEED, numRuns: 1000 },
    );
  });
});

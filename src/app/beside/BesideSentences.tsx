import { type ReactNode, useMemo } from 'react';
import type { ReadingAnalysis } from '../../core/analysis';
import { MovingText } from '../../notebook/Moving';
import { noteAsShown } from '../../notebook/noteNames';
import { useSession } from '../SessionContext';
import { postureOf } from '../describe';
import { pitchRange } from '../follower';
import { useEntry } from '../useEntry';
import type { Other } from './other';
import { type Way, comparedWords, wayOf, wayWords } from './twoPlayers';
import { sayBeside } from '../../words/beside';

/** What the other player's rim and horn do at the chosen note, and how far the two are apart there; in step with a hand that drags. */
export function BesideSentences({ other }: { readonly other: Other }): ReactNode {
  const { chosen, store } = useSession();
  const entry = useEntry();
  const words = useMemo(() => {
    // The other stands still while one's own rim is dragged, and a hand on the staff comes to the same notes again: worked out once a note.
    const known = new Map<string, Way | null>();
    const otherWay = ({ midi, direction }: ReadingAnalysis): Way | null => {
      const key = `${midi} ${direction}`;
      const before = known.get(key);
      if (before !== undefined) return before;
      const range = pitchRange(other.analysis, direction);
      const has = range !== null && midi >= range.low && midi <= range.high;
      const way = has ? wayOf(other.analysis, other.live, null, midi, direction) : null;
      known.set(key, way);
      return way;
    };
    return (reading: ReadingAnalysis): string => {
      const note = noteAsShown(reading.note, entry);
      const way = otherWay(reading);
      if (way === null) return sayBeside('otherHasNoNote', { name: other.name, note });
      const own: Way = { travel: reading.travel, swing: reading.changeFromHome, posture: postureOf(store.getState().record.player.instrument) };
      return `${other.name}: ${wayWords(way, null, note)} ${comparedWords(own, way)}`;
    };
  }, [other, entry, store]);
  return (
    <p className="sentence sentence--beside">
      <MovingText of={chosen} words={words} />
    </p>
  );
}

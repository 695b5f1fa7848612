import type { ReactNode } from 'react';
import { withLesson, withoutLesson } from '../core/lessons';
import { LessonsPart } from '../notebook/kept/LessonsPart';
import { FilesPart } from '../notebook/kept/FilesPart';
import { Keeping, PlayersPart } from '../notebook/kept/PlayersPart';
import { useKept, useRecords } from './RecordsContext';
import { useApp, useSession, useUnhurried } from './SessionContext';
import { useFiles } from './useFiles';
import { sayPage } from '../words/page';

/** Said where it cannot be missed: that nothing is being kept, or that this player is open elsewhere. */
export function KeepingNotice(): ReactNode {
  const records = useRecords();
  const { keeping } = useKept();
  if (keeping.state !== 'not-kept' && keeping.state !== 'elsewhere') return null;
  return <Keeping keeping={keeping} onTakeOver={keeping.state === 'elsewhere' ? () => void records.takeOver() : null} />;
}

/** The lessons of the player on the page, and everybody kept in this browser. */
export function KeptPane(): ReactNode {
  const { store } = useSession();
  const records = useRecords();
  const kept = useKept();
  const player = useUnhurried((state) => state.player);
  const lessonId = useApp((state) => state.lesson.id);
  const { onSaveDamaged, ...shownFiles } = useFiles();
  const { changePlayer, openLesson, settle } = store.getState();
  return (
    <section className="chapter" id="lessons" aria-labelledby="lessons-heading">
      <h2 id="lessons-heading">{sayPage('headingLessons')}</h2>
      <LessonsPart
        player={player}
        lessonId={lessonId}
        onOpen={openLesson}
        onNew={records.newLesson}
        onChange={(lesson, key) => changePlayer((now) => withLesson(now, lesson), key)}
        onDelete={(id) => changePlayer((now) => withoutLesson(now, id))}
        onSettle={settle}
      />
      <PlayersPart
        players={kept.players}
        openId={player.id}
        keeping={kept.keeping}
        deleted={kept.deleted}
        damaged={kept.damaged}
        onSaveDamaged={(id) => onSaveDamaged(kept.damaged.find((one) => one.id === id)?.text ?? '')}
        onOpen={(id) => void records.open(id)}
        onDelete={(id) => void records.remove(id)}
        onPutBack={(id) => void records.putBack(id)}
        onTakeOver={kept.keeping.state === 'elsewhere' ? () => void records.takeOver() : null}
      />
      <FilesPart {...shownFiles} label={player.label} keptCount={kept.players.length} />
    </section>
  );
}

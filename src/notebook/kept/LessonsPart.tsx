import { type ReactNode, useId } from 'react';
import type { LessonSpec, PlayerSpec } from '../../core/specs';
import { MOST_LESSONS } from '../../records/playerSchema';
import { LONGEST_REMARK } from '../../records/readingRanges';
import { sayKept } from '../../words/kept';
import { AskOnce } from './AskOnce';
import { lessonName, readingsWords } from './words';

export interface LessonsPartProps {
  readonly player: PlayerSpec;
  readonly lessonId: string;
  onOpen(id: string): void;
  onNew(): void;
  onChange(lesson: LessonSpec, key: string): void;
  onDelete(id: string): void;
  onSettle(): void;
}

/** This player's lessons, the newest first: one is open, any can be. */
export function LessonsPart({ player, lessonId, onOpen, onNew, onChange, onDelete, onSettle }: LessonsPartProps): ReactNode {
  return (
    <div className="part">
      <h3>{sayKept('lessonsOf', { named: player.label === '' ? 'no' : 'yes', player: player.label })}</h3>
      <ol className="kept-list" reversed>
        {player.lessons.toReversed().map((lesson) => (
          <li key={lesson.id} className="kept-list__row" aria-current={lesson.id === lessonId ? 'true' : undefined}>
            <span className="kept-list__name">
              {lessonName(player, lesson)}
              {lesson.id === lessonId ? <span className="kept-list__open"> {sayKept('isOpen')}</span> : null}
            </span>
            <span className="note">{readingsWords(lesson)}</span>
            <span className="kept-list__actions">
              {lesson.id === lessonId ? null : (
                <button type="button" className="quiet" onClick={() => onOpen(lesson.id)}>
                  {sayKept('open')}
                  <span className="only-heard"> {lessonName(player, lesson)}</span>
                </button>
              )}
              {player.lessons.length < 2 ? null : (
                <AskOnce
                  what={lessonName(player, lesson)}
                  consequence={sayKept('undoBack', { films: (lesson.measurings ?? []).length === 0 ? 'no' : 'yes' })}
                  onYes={() => onDelete(lesson.id)}
                />
              )}
            </span>
            {lesson.id === lessonId ? <LessonFields lesson={lesson} onChange={onChange} onSettle={onSettle} /> : null}
          </li>
        ))}
      </ol>
      <p>
        <button type="button" disabled={player.lessons.length >= MOST_LESSONS} onClick={onNew}>
          {sayKept('newLesson')}
        </button>
      </p>
      {player.lessons.length >= MOST_LESSONS ? <p className="note">{sayKept('mostLessons', { most: MOST_LESSONS })}</p> : null}
      <p className="note">{sayKept('newLessonHint')}</p>
    </div>
  );
}

interface LessonFieldsProps extends Pick<LessonsPartProps, 'onChange' | 'onSettle'> {
  readonly lesson: LessonSpec;
}

function LessonFields({ lesson, onChange, onSettle }: LessonFieldsProps): ReactNode {
  const id = useId();
  const { date: _date, remark: _remark, ...rest } = lesson;
  const change = (date: string, remark: string, key: string): void =>
    onChange({ ...rest, ...(date !== '' && { date }), ...(remark !== '' && { remark }) }, key);
  return (
    <div className="fields kept-list__fields">
      <div className="picker">
        <label htmlFor={`${id}-date`}>{sayKept('day')}</label>
        <input
          id={`${id}-date`}
          type="date"
          max="9999-12-31"
          value={lesson.date ?? ''}
          onChange={(event) => change(event.target.value, lesson.remark ?? '', 'lesson-date')}
          onBlur={onSettle}
        />
      </div>
      <div className="picker kept-list__remark">
        <label htmlFor={`${id}-remark`}>{sayKept('lessonRemark')}</label>
        <textarea
          id={`${id}-remark`}
          rows={2}
          maxLength={LONGEST_REMARK}
          value={lesson.remark ?? ''}
          onChange={(event) => change(lesson.date ?? '', event.target.value, 'lesson-remark')}
          onBlur={onSettle}
        />
      </div>
    </div>
  );
}

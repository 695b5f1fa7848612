import type { ReactNode } from 'react';
import { dayWords } from '../../words/days';
import { sayMarking } from '../../words/marking';
import { AskOnce } from '../kept/AskOnce';
import { megabytes } from './byteWords';
import './keptMeasurings.css';

export interface KeptMeasuringShown {
  readonly id: string;
  readonly kind: 'pictures' | 'film';
  /** null: it cannot be read. */
  readonly date: string | null;
  readonly files: readonly string[];
  readonly readingCount: number;
  /** Its films that are kept in this browser, and their size. */
  readonly films: { readonly count: number; readonly bytes: number };
  /** What the reader is told before it is deleted. */
  readonly deleting: string;
}

export interface KeptMeasuringsProps {
  readonly measurings: readonly KeptMeasuringShown[];
  /** Every film kept in this browser, whoever's it is. */
  readonly allFilms: { readonly count: number; readonly bytes: number };
  /** Why films could not be forgotten; null: nothing went wrong. */
  readonly message: string | null;
  readonly isLocked: boolean;
  onAgain(id: string): void;
  onForget(id: string): void;
  onForgetAll(): void;
  onDelete(id: string): void;
}

/** What this lesson's readings were measured from: marks and numbers, and the films themselves only where they were asked to be kept. */
export function KeptMeasurings(props: KeptMeasuringsProps): ReactNode {
  const { measurings, allFilms, message } = props;
  if (measurings.length === 0 && allFilms.count === 0) return null;
  return (
    <div className="part">
      {measurings.length === 0 ? null : (
        <>
          <h3>{sayMarking('measured')}</h3>
          <ul className="kept-list">
            {measurings.map((measuring) => (
              <Row key={measuring.id} {...props} measuring={measuring} />
            ))}
          </ul>
        </>
      )}
      {allFilms.count === 0 ? null : (
        <div className="kept-films">
          <span className="note">{sayMarking('allFilms', { count: allFilms.count, size: megabytes(allFilms.bytes) })}</span>
          <AskOnce
            verb={sayMarking('forget')}
            what={sayMarking('everyFilm')}
            consequence={sayMarking('everyFilmForgotten')}
            button={sayMarking('forgetEveryFilm')}
            onYes={props.onForgetAll}
          />
        </div>
      )}
      {message === null ? null : (
        <p className="caution" role="alert">
          <strong>{sayMarking('films')}</strong> {message}
        </p>
      )}
    </div>
  );
}

function Row({ measuring, isLocked, onAgain, onForget, onDelete }: KeptMeasuringsProps & { readonly measuring: KeptMeasuringShown }): ReactNode {
  const { id, kind, date, files, readingCount, films, deleting } = measuring;
  const names = filesWords(files);
  return (
    <li className="kept-list__row kept-measuring">
      <span className="kept-list__name">{date === null ? sayMarking('cannotBeRead') : dayWords(date)}</span>
      <span className="note">
        {date === null
          ? sayMarking('readingsFrom', { count: readingCount, files: names })
          : sayMarking('readingsFromKept', { count: readingCount, files: names, kept: keptWords(kind, files.length, films) })}
      </span>
      <span className="kept-list__actions">
        {date === null ? null : (
          <button type="button" className="quiet" onClick={() => onAgain(id)}>
            {sayMarking('measureAgain')}
            <span className="only-heard"> {names}</span>
          </button>
        )}
        {films.count === 0 ? null : (
          <AskOnce
            verb={sayMarking('forget')}
            what={sayMarking('filmsOf', { count: films.count, files: names })}
            consequence={sayMarking('forgotten')}
            button={
              <>
                {sayMarking('forgetFilms', { count: films.count })}
                <span className="only-heard"> {sayMarking('forgetOf', { files: names })}</span>
              </>
            }
            onYes={() => onForget(id)}
          />
        )}
        {isLocked ? null : <AskOnce what={sayMarking('marksIn', { files: names })} consequence={deleting} onYes={() => onDelete(id)} />}
      </span>
    </li>
  );
}

function keptWords(kind: KeptMeasuringShown['kind'], files: number, { count, bytes }: KeptMeasuringShown['films']): string {
  if (kind === 'pictures') return sayMarking('picturesNotKept', { count: files });
  if (count === 0) return sayMarking('filmsNotKept', { count: files });
  const size = megabytes(bytes);
  return count < files ? sayMarking('someFilmsKept', { count, of: files, size }) : sayMarking('filmsKept', { count: files, size });
}

function filesWords(files: readonly string[]): string {
  const [first = sayMarking('aPicture'), second, ...more] = files;
  if (second === undefined) return first;
  return more.length === 0 ? sayMarking('twoFiles', { first, second }) : sayMarking('andOthers', { first, count: more.length + 1 });
}

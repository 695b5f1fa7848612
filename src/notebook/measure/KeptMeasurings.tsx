import type { ReactNode } from 'react';
import { counted } from '../../core/words';
import { dayWords } from '../../print/sheetText';
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
          <h3>Measured in this lesson</h3>
          <ul className="kept-list">
            {measurings.map((measuring) => (
              <Row key={measuring.id} {...props} measuring={measuring} />
            ))}
          </ul>
        </>
      )}
      {allFilms.count === 0 ? null : (
        <div className="kept-films">
          <span className="note">
            Kept in this browser for all players together: {counted(allFilms.count, 'film')}, {megabytes(allFilms.bytes)}.
          </span>
          <AskOnce
            verb="Forget"
            what="every film kept in this browser"
            consequence="Marks and readings stay; to see a frame again, the file is asked for."
            button="Forget every film kept in this browser"
            onYes={props.onForgetAll}
          />
        </div>
      )}
      {message === null ? null : (
        <p className="caution" role="alert">
          <strong>Films.</strong> {message}
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
      <span className="kept-list__name">{date === null ? 'Cannot be read' : dayWords(date)}</span>
      <span className="note">
        {counted(readingCount, 'reading')} from {names}
        {date === null ? '' : `; ${keptWords(kind, files.length, films)}`}
      </span>
      <span className="kept-list__actions">
        {date === null ? null : (
          <button type="button" className="quiet" onClick={() => onAgain(id)}>
            Measure again<span className="only-heard"> {names}</span>
          </button>
        )}
        {films.count === 0 ? null : (
          <AskOnce
            verb="Forget"
            what={`${films.count === 1 ? 'the film' : 'the films'} kept of ${names}`}
            consequence="Marks and readings stay, and a copy of this player loses it too; to see a frame again, the file is asked for."
            button={
              <>
                {films.count === 1 ? 'Forget the film' : 'Forget the films'}
                <span className="only-heard"> of {names}</span>
              </>
            }
            onYes={() => onForget(id)}
          />
        )}
        {isLocked ? null : <AskOnce what={`the marks in ${names}`} consequence={deleting} onYes={() => onDelete(id)} />}
      </span>
    </li>
  );
}

function keptWords(kind: KeptMeasuringShown['kind'], files: number, { count, bytes }: KeptMeasuringShown['films']): string {
  if (kind === 'pictures') return files === 1 ? 'the picture itself is not kept' : 'the pictures themselves are not kept';
  if (count === 0) return files === 1 ? 'the film itself is not kept' : 'the films themselves are not kept';
  return `${count < files ? `${count} of ${files} films are` : files === 1 ? 'the film is' : 'the films are'} kept here, ${megabytes(bytes)}`;
}

function filesWords(files: readonly string[]): string {
  const [first = 'a picture', second, ...more] = files;
  if (second === undefined) return first;
  return more.length === 0 ? `${first} and ${second}` : `${first} and ${counted(more.length + 1, 'other')}`;
}

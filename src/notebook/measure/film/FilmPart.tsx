/** A take on film, from the marks to the readings: what stands beside the film while it is open. */
import type { ReactNode } from 'react';
import { NOTE_NAMES_ALLOWED, noteNamed } from '../../../core/noteNaming';
import { midiOf } from '../../../core/pitch';
import { counted } from '../../../core/words';
import { Picker } from '../../Choice';
import { NumberField } from '../../NumberField';
import { shownMidi } from '../../noteNames';
import { formatFixed } from '../../numberText';
import { MarksList } from '../MarksList';
import { VIEWS, markHint, markName } from '../markNames';
import { nextMark } from '../marksEdits';
import { HORN_MARK_RANGE, LENS_HINTS, LENS_RANGE, hornMarkSdMm } from '../PictureFields';
import { NotesList } from '../timeLine/NotesList';
import { noteHeardName } from './noteHeardName';
import type { FilmPartProps, FollowedShown, OpenFilmShown, WorkingShown } from './props';

export function FilmPart(props: FilmPartProps): ReactNode {
  const shown = props.films.find(({ id }) => id === props.shownId);
  if (shown === undefined) return props.working === null ? null : <Working working={props.working} onStop={props.onStop} />;
  return (
    <>
      <FilmsList {...props} />
      {props.working === null ? null : <Working working={props.working} onStop={props.onStop} />}
      {shown.told.map((words) => (
        <p key={words} className="note">
          {words}
        </p>
      ))}
      <NextStep shown={shown} active={props.active} />
      <FilmFields key={shown.id} shown={shown} {...props} />
      <MarksList
        marks={shown.marks}
        view={shown.view}
        active={props.active}
        snaps={props.snaps}
        onActivate={props.onActivate}
        onTake={props.onTake}
        onSnaps={props.onSnaps}
      />
      <Following shown={shown} {...props} />
      <Notes {...props} />
      <Accepting {...props} />
    </>
  );
}

function Working({ working: { words, part, leftS }, onStop }: { readonly working: WorkingShown; onStop(): void }): ReactNode {
  return (
    <div className="film-work" role="group" aria-label={words}>
      <span>{words}</span>
      {part === null ? <progress aria-label={words} /> : <progress aria-label={words} value={part} max={1} />}
      <span className="film-work__left note">{leftS === null ? '' : `${Math.ceil(leftS)} s left`}</span>
      <button type="button" onClick={onStop}>
        Stop
      </button>
    </div>
  );
}

function FilmsList({ films, shownId, working, onShow, onCloseFilm }: FilmPartProps): ReactNode {
  return (
    <ul className="kept-list" aria-label="Open films">
      {films.map(({ id, name, view, followed, markedFrames }) => (
        <li key={id} className="kept-list__row open-picture" aria-current={id === shownId || undefined}>
          <span className="kept-list__name">{name}</span>
          <span className="note">
            {[
              VIEWS.find(({ value }) => value === view)?.label,
              followed !== null ? `followed, ${counted(followed.frames, 'frame')}` : markedFrames === 0 ? 'not marked yet' : `${counted(markedFrames, 'frame')} marked`,
            ].join(' · ')}
          </span>
          <span className="kept-list__actions">
            {id === shownId ? null : (
              <button type="button" className="quiet" aria-label={`Show ${name}`} onClick={() => onShow(id)}>
                Show
              </button>
            )}
            <button type="button" className="quiet" disabled={working !== null} aria-label={`Close ${name}`} onClick={() => onCloseFilm(id)}>
              Close
            </button>
          </span>
        </li>
      ))}
    </ul>
  );
}

function NextStep({ shown, active }: { readonly shown: OpenFilmShown; readonly active: FilmPartProps['active'] }): ReactNode {
  const isDone = nextMark(shown.marks, shown.view) === null;
  return (
    <p className="measure__next">
      {active !== null ? (
        <>
          <strong>{markName(active)}:</strong> {markHint(active, shown.view)}. Tap the picture.
        </>
      ) : shown.followed === null || shown.followed.isBehind ? (
        isDone ? (
          <>
            <strong>All marks are put.</strong> Now follow them through the film.
          </>
        ) : (
          <>
            <strong>Choose a frame</strong> where rim and head are sharp, and a mark below.
          </>
        )
      ) : (
        <>
          <strong>Look along the film.</strong> Where a mark has come off, choose it below and put it again; then follow once more.
        </>
      )}
    </p>
  );
}

function FilmFields({ shown, lens, outerDiameterMm, ...on }: FilmPartProps & { readonly shown: OpenFilmShown }): ReactNode {
  const isFront = shown.view === 'front';
  return (
    <div className="part">
      <h3>This film</h3>
      <div className="fields">
        <Picker label="Seen" options={VIEWS} value={shown.view} onChange={(value) => on.onView(value as OpenFilmShown['view'])} />
        {isFront ? (
          <>
            <NumberField
              label="Lens, as on a full-frame camera"
              value={Number(lens.millimetres.toFixed(1))}
              range={LENS_RANGE}
              step={1}
              places={1}
              hint={LENS_HINTS[lens.from]}
              onChange={(value) => on.onLens(value)}
            />
            <NumberField
              label="Horn’s far mark before the rim"
              value={shown.hornMarkMm?.value ?? null}
              range={HORN_MARK_RANGE}
              step={5}
              places={0}
              optional
              hint="By a ruler along the horn: it makes the angles from the front surer."
              onChange={(value) => on.onHornMark(value === null ? null : { value, sd: hornMarkSdMm(value) })}
            />
          </>
        ) : null}
        {shown.offset === null ? null : (
          <NumberField
            label="Began later than the first film by"
            value={shown.offset.seconds}
            range={OFFSET_RANGE}
            step={0.01}
            places={3}
            optional
            hint={shown.offset.words}
            onChange={(value) => {
              if (value !== null) on.onOffset(value);
            }}
          />
        )}
      </div>
      {isFront ? (
        <p className="note">
          Millimetres come from the lesson’s rim, {outerDiameterMm} mm across the outside. Change it under <a href="#player">Player</a> if it is another.
        </p>
      ) : null}
    </div>
  );
}

const OFFSET_RANGE = { min: -600, max: 600, unit: 's' };

function Following({ shown, working, onFollow, onTime }: FilmPartProps & { readonly shown: OpenFilmShown }): ReactNode {
  return (
    <div className="part">
      <h3>Through the film</h3>
      <div className="button-row button-row--wraps">
        <button
          type="button"
          className={shown.followed === null || shown.followed.isBehind ? 'primary' : undefined}
          disabled={working !== null || shown.markedFrames === 0}
          onClick={onFollow}
        >
          {shown.followed === null ? 'Follow the marks through the film' : 'Follow once more'}
        </button>
      </div>
      {shown.followed === null ? (
        <p className="note">One marked frame is enough. Frames before and after it are followed by themselves.</p>
      ) : (
        <FollowedWords followed={shown.followed} onTime={onTime} />
      )}
    </div>
  );
}

const MOST_LOST_SHOWN = 6;

function FollowedWords({ followed, onTime }: { readonly followed: FollowedShown; onTime(timeS: number): void }): ReactNode {
  const { lost, problems, isBehind } = followed;
  const more = lost.length - MOST_LOST_SHOWN;
  return (
    <>
      {isBehind ? <p className="note">The marks have changed since: follow once more.</p> : null}
      {problems.map((words) => (
        <p key={words} className="caution">
          <strong>Missing.</strong> {words}
        </p>
      ))}
      {lost.length === 0 ? (
        <p className="note">Nothing was lost.</p>
      ) : (
        <ul className="kept-list" aria-label="Lost on the way">
          {lost.slice(0, MOST_LOST_SHOWN).map(({ what, startS, endS }) => (
            <li key={`${what} ${startS}`} className="kept-list__row open-picture">
              <span className="kept-list__name">{what}</span>
              <span className="note">{`lost from ${formatFixed(startS, 2)} to ${formatFixed(endS, 2)} s`}</span>
              <span className="kept-list__actions">
                <button type="button" className="quiet" onClick={() => onTime(startS)}>
                  Go there
                </button>
              </span>
            </li>
          ))}
        </ul>
      )}
      {more > 0 ? <p className="note">{`and ${counted(more, 'more stretch', 'more stretches')}, shaded on the time line.`}</p> : null}
    </>
  );
}

function Notes(props: FilmPartProps): ReactNode {
  const { notes, entry, tuning, homeMidi, isHomeGiven } = props;
  const named = [...new Set(notes.flatMap(({ midi }) => (midi === null ? [] : [Math.round(midi)])))].toSorted((a, b) => a - b);
  const nameOf = (midi: number): string => shownMidi(midi, entry.shownTransposition, entry.naming);
  return (
    <div className="part">
      <h3>Notes</h3>
      {notes.length === 0 ? (
        <p className="note">No note was heard. Play the film and tap where each note begins, or choose a film with sound.</p>
      ) : (
        <>
          <p className="note">
            {tuning === null ? '' : `${tuning} `}
            {named.length === 0
              ? 'The notes have no names yet: choose one in the list, and type its name.'
              : homeMidi !== null && named.includes(homeMidi)
                ? `Travel counts from ${nameOf(homeMidi)}${isHomeGiven ? ', the lesson’s home' : ''}.`
                : homeMidi !== null
                  ? `The lesson’s home, ${nameOf(homeMidi)}, was not played in this take: travel cannot be told from it.`
                  : 'Choose the note that travel counts from.'}
          </p>
          {isHomeGiven || named.length === 0 ? null : (
            <Picker
              label="Home note"
              options={[...(homeMidi === null ? [{ value: '', label: 'choose' }] : []), ...named.map((midi) => ({ value: String(midi), label: nameOf(midi) }))]}
              value={homeMidi === null ? '' : String(homeMidi)}
              onChange={(value) => {
                if (value !== '') props.onHome(Number(value));
              }}
            />
          )}
          <NotesList
            {...props}
            nameOf={(note) => noteHeardName(note, entry)}
            midiNamed={(text) => {
              const note = noteNamed(text, { naming: entry.naming ?? 'scientific', transpositionSemitones: entry.shownTransposition });
              return note === null ? null : midiOf(note);
            }}
            allowedNames={NOTE_NAMES_ALLOWED[entry.naming ?? 'scientific']}
          />
          <div className="button-row button-row--wraps">
            <button type="button" className="quiet" disabled={!props.canUndoNotes} onClick={props.onUndoNotes}>
              Undo note
            </button>
            <button type="button" className="quiet" disabled={!props.canRedoNotes} onClick={props.onRedoNotes}>
              Redo note
            </button>
          </div>
        </>
      )}
    </div>
  );
}

function Accepting(props: FilmPartProps): ReactNode {
  const isAny = props.seen.some(({ travel, elevation, lateral }) => travel !== null || elevation !== null || lateral !== null);
  return (
    <div className="part">
      {props.isFilmKept ? (
        <p className="note">The film itself is kept in this browser; it can be forgotten under “Measured in this lesson”.</p>
      ) : (
        <>
          <label className="tick">
            <input type="checkbox" checked={props.keepsFilm} onChange={(event) => props.onKeepsFilm(event.target.checked)} />
            keep the film itself in this browser too
          </label>
          <p className="note">
            It is kept when the take is accepted, and can be forgotten at any time. Of anybody under age, keep it only if their parents agree to that too.
          </p>
        </>
      )}
      <div className="button-row button-row--wraps">
        <button type="button" className="primary" disabled={props.isLocked || !isAny || props.working !== null} onClick={props.onAccept}>
          Accept as a take
        </button>
        <button type="button" onClick={props.onClose}>
          {props.isFilmKept ? 'Close the film' : 'Close and forget the film'}
        </button>
      </div>
      <p className="note">
        The readings go into {props.lessonName}; one step back takes them out again. Marks, notes and what was followed stay with them.
      </p>
      {props.accepted === null ? null : <p role="status">{props.accepted}</p>}
    </div>
  );
}

/** A take on film, from the marks to the readings: what stands beside the film while it is open. */
import type { ReactNode } from 'react';
import { NOTE_NAMES_ALLOWED, noteNamed } from '../../../core/noteNaming';
import { midiOf } from '../../../core/pitch';
import { counted } from '../../../core/words';
import { Picker } from '../../Choice';
import { NumberField } from '../../NumberField';
import { shownMidi } from '../../noteNames';
import { MarksList } from '../MarksList';
import { VIEWS } from '../markNames';
import { nextMark } from '../marksEdits';
import { NextStep } from '../NextStep';
import { HornMarkField, LensField, RimScale } from '../ScaleFields';
import { NotesList } from '../timeLine/NotesList';
import { Accepting } from './Accepting';
import { Following } from './Following';
import { noteHeardName } from './noteHeardName';
import type { FilmPartProps, OpenFilmShown, WorkingShown } from './props';

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
      <NextStep active={props.active} view={shown.view}>
        <WhatNext {...shown} />
      </NextStep>
      <FilmFields key={shown.id} shown={shown} {...props} />
      <MarksList {...props} marks={shown.marks} view={shown.view} />
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

/** What a film asks for where no single mark is. */
function WhatNext({ marks, view, followed }: OpenFilmShown): ReactNode {
  if (followed !== null && followed.isBehind === null) {
    return (
      <>
        <strong>Look along the film.</strong> Where a mark has come off, choose it below and put it again; then follow once more.
      </>
    );
  }
  return nextMark(marks, view) === null ? (
    <>
      <strong>All marks are put.</strong> Now follow them through the film.
    </>
  ) : (
    <>
      <strong>Choose a frame</strong> where rim and head are sharp, and a mark below.
    </>
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
            <LensField lens={lens} onLens={on.onLens} />
            <HornMarkField mark={shown.hornMarkMm} hint="By a ruler along the horn: it makes the angles from the front surer." onHornMark={on.onHornMark} />
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
      {isFront ? <RimScale outerDiameterMm={outerDiameterMm} /> : null}
    </div>
  );
}

const OFFSET_RANGE = { min: -600, max: 600, unit: 's' };

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
            sideways={entry.sideways}
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

/** A take on film, from the marks to the readings: what stands beside the film while it is open. */
import type { ReactNode } from 'react';
import { NOTE_NAMES_ALLOWED, noteNamed } from '../../../core/noteNaming';
import { midiOf } from '../../../core/pitch';
import { sayFilming } from '../../../words/filming';
import { sayMarking } from '../../../words/marking';
import { Picker } from '../../Choice';
import { NumberField } from '../../NumberField';
import { shownMidi } from '../../noteNames';
import { MarksList } from '../MarksList';
import { viewName, views } from '../markNames';
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
      <span className="film-work__left note">{leftS === null ? '' : sayFilming('secondsLeft', { seconds: Math.ceil(leftS) })}</span>
      <button type="button" onClick={onStop}>
        {sayFilming('stop')}
      </button>
    </div>
  );
}

function FilmsList({ films, shownId, working, onShow, onCloseFilm }: FilmPartProps): ReactNode {
  return (
    <ul className="kept-list" aria-label={sayFilming('films')}>
      {films.map(({ id, name, view, followed, markedFrames }) => (
        <li key={id} className="kept-list__row open-picture" aria-current={id === shownId || undefined}>
          <span className="kept-list__name">{name}</span>
          <span className="note">
            {[
              viewName(view),
              followed !== null
                ? sayFilming('followedFrames', { count: followed.frames })
                : markedFrames === 0
                  ? sayFilming('notMarked')
                  : sayFilming('markedFrames', { count: markedFrames }),
            ].join(' · ')}
          </span>
          <span className="kept-list__actions">
            {id === shownId ? null : (
              <button type="button" className="quiet" aria-label={sayMarking('showFile', { file: name })} onClick={() => onShow(id)}>
                {sayMarking('show')}
              </button>
            )}
            <button type="button" className="quiet" disabled={working !== null} aria-label={sayFilming('closeFile', { file: name })} onClick={() => onCloseFilm(id)}>
              {sayFilming('close')}
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
        <strong>{sayFilming('lookAlong')}</strong> {sayFilming('lookAlongRest')}
      </>
    );
  }
  return nextMark(marks, view) === null ? (
    <>
      <strong>{sayMarking('allPut')}</strong> {sayFilming('nowFollow')}
    </>
  ) : (
    <>
      <strong>{sayFilming('chooseFrame')}</strong> {sayFilming('chooseFrameRest')}
    </>
  );
}

function FilmFields({ shown, lens, outerDiameterMm, ...on }: FilmPartProps & { readonly shown: OpenFilmShown }): ReactNode {
  const isFront = shown.view === 'front';
  return (
    <div className="part">
      <h3>{sayFilming('thisFilm')}</h3>
      <div className="fields">
        <Picker label={sayMarking('seen')} options={views()} value={shown.view} onChange={(value) => on.onView(value as OpenFilmShown['view'])} />
        {isFront ? (
          <>
            <LensField lens={lens} onLens={on.onLens} />
            <HornMarkField mark={shown.hornMarkMm} hint={sayFilming('hornMarkHint')} onHornMark={on.onHornMark} />
          </>
        ) : null}
        {shown.offset === null ? null : (
          <NumberField
            label={sayFilming('began')}
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
      <h3>{sayFilming('notes')}</h3>
      {notes.length === 0 ? (
        <p className="note">{sayFilming('noNotes')}</p>
      ) : (
        <>
          <p className="note">
            {tuning === null ? '' : `${tuning} `}
            {named.length === 0
              ? sayFilming('noNames')
              : homeMidi !== null && named.includes(homeMidi)
                ? sayFilming('countsFrom', { note: nameOf(homeMidi), given: isHomeGiven ? 'yes' : 'no' })
                : homeMidi !== null
                  ? sayFilming('homeNotPlayed', { note: nameOf(homeMidi) })
                  : sayFilming('chooseHome')}
          </p>
          {isHomeGiven || named.length === 0 ? null : (
            <Picker
              label={sayFilming('homeNote')}
              options={[...(homeMidi === null ? [{ value: '', label: sayFilming('choose') }] : []), ...named.map((midi) => ({ value: String(midi), label: nameOf(midi) }))]}
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
              {sayFilming('undoNote')}
            </button>
            <button type="button" className="quiet" disabled={!props.canRedoNotes} onClick={props.onRedoNotes}>
              {sayFilming('redoNote')}
            </button>
          </div>
        </>
      )}
    </div>
  );
}

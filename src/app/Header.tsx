import { type ReactNode, useId } from 'react';
import { Choice } from '../notebook/Choice';
import { CLASS_BUTTON_ID, openClass } from './classDoor';
import { LanguagePicker } from './LanguagePicker';
import { notebookLibrary } from './library';
import { useInStageRoom } from './measuringDoor';
import { useApp, useSession, useUnhurried } from './SessionContext';
import { useKept, useRecords } from './RecordsContext';
import { dayWords } from '../words/days';
import { sayPage } from '../words/page';

/** Who is on the page and which lesson, the way to a player of one's own, and the steps back and forward. */
export function Header(): ReactNode {
  const { store } = useSession();
  const theme = useApp((state) => state.settings.theme);
  const canUndo = useApp((state) => state.history.past.length > 0);
  const canRedo = useApp((state) => state.history.future.length > 0);
  const { undo, redo, set } = store.getState();
  const records = useRecords();
  return (
    <header className="masthead">
      <h1 className="wordmark">Rimpath</h1>
      <div className="masthead__group" role="group" aria-label={sayPage('whoseRecord')}>
        <PlayerPicker />
        <LessonPicker />
        <button
          type="button"
          className="primary"
          onClick={() => {
            void records.startOwn().then(nameAtHand);
          }}
        >
          {sayPage('startOwn')}
        </button>
      </div>
      <div className="masthead__group masthead__steps" role="group" aria-label={sayPage('stepsBackAndForward')}>
        <button type="button" className="quiet" disabled={!canUndo} onClick={undo}>
          {sayPage('undo')}
        </button>
        <button type="button" className="quiet" disabled={!canRedo} onClick={redo}>
          {sayPage('redo')}
        </button>
      </div>
      <ClassButton />
      <Choice legend={sayPage('theme')} legendHidden options={themes()} value={theme} onChange={(next) => set({ theme: next })} />
      <LanguagePicker />
    </header>
  );
}

/** A film that is open has no page of its own to come back to: the class waits for it, and says so. */
function ClassButton(): ReactNode {
  const { store } = useSession();
  const isMeasuring = useInStageRoom() !== null;
  return (
    <button type="button" id={CLASS_BUTTON_ID} onClick={isMeasuring ? () => store.getState().notify(sayPage('classWaits')) : openClass}>
      {sayPage('classView')}
    </button>
  );
}

const themes = () => [{ value: 'paper', label: sayPage('paper') }, { value: 'projector', label: sayPage('projector') }] as const;

/** The name is marked whole: what is typed next stands in its place. */
function nameAtHand(): void {
  const label = document.getElementById('player-label');
  if (!(label instanceof HTMLInputElement)) return;
  label.focus();
  label.select();
}

const INVENTED = 'invented:';

function PlayerPicker(): ReactNode {
  const records = useRecords();
  const { players } = useKept();
  const openId = useApp((state) => state.player.id);
  const label = useApp((state) => state.player.label);
  const id = useId();
  const isKept = players.some((one) => one.id === openId);
  return (
    <span className="masthead__picker">
      <label htmlFor={id} className="masthead__label">
        {sayPage('player')}
      </label>
      <select
        id={id}
        value={openId}
        onChange={({ target: { value } }) => {
          if (value.startsWith(INVENTED)) void records.openInvented(value.slice(INVENTED.length));
          else void records.open(value);
        }}
      >
        {isKept ? null : <option value={openId}>{label === '' ? sayPage('withoutLabel') : label}</option>}
        {players.length === 0 ? null : (
          <optgroup label={sayPage('keptHere')}>
            {players.map((one) => (
              <option key={one.id} value={one.id}>
                {one.id === openId ? label : one.label}
              </option>
            ))}
          </optgroup>
        )}
        <optgroup label={sayPage('invented')}>
          {notebookLibrary.players.map((one) => (
            <option key={one.id} value={`${INVENTED}${one.id}`}>
              {one.name}
            </option>
          ))}
        </optgroup>
      </select>
    </span>
  );
}

function LessonPicker(): ReactNode {
  const { store } = useSession();
  const player = useUnhurried((state) => state.player);
  const openId = useApp((state) => state.lesson.id);
  const id = useId();
  if (player.lessons.length < 2) return null;
  return (
    <span className="masthead__picker">
      <label htmlFor={id} className="masthead__label">
        {sayPage('lesson')}
      </label>
      <select id={id} value={openId} onChange={({ target: { value } }) => store.getState().openLesson(value)}>
        {player.lessons.toReversed().map((lesson) => (
          <option key={lesson.id} value={lesson.id}>
            {sayPage('lessonPlace', { place: player.lessons.indexOf(lesson) + 1, dated: lesson.date === undefined ? 'no' : 'yes', day: lesson.date === undefined ? '' : dayWords(lesson.date) })}
          </option>
        ))}
      </select>
    </span>
  );
}

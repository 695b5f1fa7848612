/** Pictures of the stage as files, and the path as a film: choices, progress and what came of it. */
import type { ReactNode } from 'react';
import { Choice, Picker } from '../Choice';
import {
  CANCEL, FILMING, FILM_FORMAT, FILM_HEADING, FILM_NOTE, FILM_SIZE, MAKE_FILM, NO_ENCODER, NO_FILM_SOUND, ONE_NOTE, PICTURES_NOTHING, SAVE_PNG, SAVE_SOUND, SAVE_SVG,
  SLOW_STAGE, SHOWN, SHOWN_FLAT, SHOWN_STAGE, SVG_NOTE, THERE, THERE_AND_BACK, WAY, WIDTH, WITH_LABEL, WITH_SOUND, filmFormatName, filmProgress,
} from './pictureWords';

export const PNG_WIDTHS = ['1280', '1920', '2560', '3840'] as const;
export const FILM_SIZES = ['1280 × 720', '1920 × 1080'] as const;

export interface PictureChoices {
  readonly flat: boolean;
  readonly pngWidth: (typeof PNG_WIDTHS)[number];
  readonly filmSize: (typeof FILM_SIZES)[number];
  /** Null: the first that this browser can write. */
  readonly container: 'mp4' | 'webm' | null;
  readonly andBack: boolean;
  readonly withSound: boolean;
  readonly withLabel: boolean;
}

export interface PicturesPartProps {
  readonly choices: PictureChoices;
  /** False: there is nothing to take a picture of. */
  readonly canTake: boolean;
  /** False: this browser draws flat only. */
  readonly hasStage: boolean;
  /** True: it draws without a graphics card, so that a film of the stage takes long. */
  readonly isSlow: boolean;
  readonly hasLabel: boolean;
  /** What can be written here at the chosen size; null while that is not known. */
  readonly formats: readonly { readonly container: 'mp4' | 'webm'; readonly silent: boolean }[] | null;
  readonly hasPath: boolean;
  /** A picture or a sound is being made. */
  readonly busy: boolean;
  readonly film: { readonly part: number; readonly secondsLeft: number | null } | null;
  readonly message: string;
  onChoose(choices: Partial<PictureChoices>): void;
  onPng(): void;
  onSvg(): void;
  onFilm(): void;
  onSound(): void;
  onCancel(): void;
}

export function PicturesPart(props: PicturesPartProps): ReactNode {
  const { choices, canTake, hasStage, hasLabel, busy, film, message, onChoose } = props;
  if (!canTake) return <p className="note">{PICTURES_NOTHING}</p>;
  return (
    <div className="share-part">
      {hasStage && (
        <Choice
          legend={SHOWN}
          options={[{ value: 'stage', label: SHOWN_STAGE }, { value: 'flat', label: SHOWN_FLAT }]}
          value={choices.flat ? 'flat' : 'stage'}
          onChange={(shown) => onChoose({ flat: shown === 'flat' })}
        />
      )}
      <div className="share-choices">
        <Picker
          label={WIDTH}
          options={PNG_WIDTHS.map((value) => ({ value, label: `${value} px` }))}
          value={choices.pngWidth}
          onChange={(pngWidth) => onChoose({ pngWidth: pngWidth as PictureChoices['pngWidth'] })}
        />
        <span className="button-row">
          <button type="button" disabled={busy || film !== null} onClick={props.onPng}>{SAVE_PNG}</button>
          <button type="button" disabled={busy || film !== null} onClick={props.onSvg}>{SAVE_SVG}</button>
        </span>
      </div>
      {!choices.flat && <p className="note">{SVG_NOTE}</p>}
      <h4>{FILM_HEADING}</h4>
      <Film {...props} />
      {hasLabel && (
        <label className="tick">
          <input type="checkbox" checked={choices.withLabel} onChange={(event) => onChoose({ withLabel: event.target.checked })} />
          {WITH_LABEL}
        </label>
      )}
      <p className="note" role="status">{message}</p>
    </div>
  );
}

function Film({ choices, formats, hasPath, isSlow, busy, film, onChoose, onFilm, onSound, onCancel }: PicturesPartProps): ReactNode {
  if (!hasPath) return <p className="note">{ONE_NOTE}</p>;
  const sound = <button type="button" disabled={busy || film !== null} onClick={onSound}>{SAVE_SOUND}</button>;
  if (formats !== null && formats.length === 0) {
    return (
      <>
        <p className="note">{NO_ENCODER}</p>
        <p className="button-row">{sound}</p>
      </>
    );
  }
  const chosen = formats?.find(({ container }) => container === choices.container) ?? formats?.[0];
  return (
    <>
      <p className="note">{isSlow && !choices.flat ? SLOW_STAGE : FILM_NOTE}</p>
      <Choice legend={FILM_SIZE} options={FILM_SIZES.map((value) => ({ value, label: value }))} value={choices.filmSize} onChange={(filmSize) => onChoose({ filmSize })} />
      {formats !== null && chosen !== undefined && formats.length > 1 && (
        <Choice
          legend={FILM_FORMAT}
          options={formats.map(({ container, silent }) => ({ value: container, label: filmFormatName(container, silent) }))}
          value={chosen.container}
          onChange={(container) => onChoose({ container })}
        />
      )}
      <Choice
        legend={WAY}
        options={[{ value: 'there', label: THERE }, { value: 'back', label: THERE_AND_BACK }]}
        value={choices.andBack ? 'back' : 'there'}
        onChange={(way) => onChoose({ andBack: way === 'back' })}
      />
      {chosen?.silent === true ? <p className="note">{NO_FILM_SOUND}</p> : (
        <label className="tick">
          <input type="checkbox" checked={choices.withSound} onChange={(event) => onChoose({ withSound: event.target.checked })} />
          {WITH_SOUND}
        </label>
      )}
      <p className="button-row share-progress">
        {film === null ? (
          <button type="button" disabled={busy || formats === null} onClick={onFilm}>{MAKE_FILM}</button>
        ) : (
          <>
            <progress max={100} value={Math.floor(film.part * 100)} aria-label={FILMING} />
            <span>{filmProgress(film.part, film.secondsLeft)}</span>
            <button type="button" ref={takeFocus} onClick={onCancel}>{CANCEL}</button>
          </>
        )}
        {sound}
      </p>
    </>
  );
}

/** The button that was pressed is gone: this one has taken its place. */
function takeFocus(button: HTMLButtonElement | null): void {
  if (button !== null && document.activeElement === document.body) button.focus();
}

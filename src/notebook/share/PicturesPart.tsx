/** Pictures of the stage as files, and the path as a film: choices, progress and what came of it. */
import type { ReactNode } from 'react';
import { Choice, Picker } from '../Choice';
import { filmFormatName, filmProgress } from './pictureWords';
import { sayPictures } from '../../words/pictures';

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
  if (!canTake) return <p className="note">{sayPictures('nothing')}</p>;
  return (
    <div className="share-part">
      {hasStage && (
        <Choice
          legend={sayPictures('shown')}
          options={[{ value: 'stage', label: sayPictures('shownStage') }, { value: 'flat', label: sayPictures('shownFlat') }]}
          value={choices.flat ? 'flat' : 'stage'}
          onChange={(shown) => onChoose({ flat: shown === 'flat' })}
        />
      )}
      <div className="share-choices">
        <Picker
          label={sayPictures('width')}
          options={PNG_WIDTHS.map((value) => ({ value, label: `${value} px` }))}
          value={choices.pngWidth}
          onChange={(pngWidth) => onChoose({ pngWidth: pngWidth as PictureChoices['pngWidth'] })}
        />
        <span className="button-row button-row--wraps">
          <button type="button" disabled={busy || film !== null} onClick={props.onPng}>{sayPictures('savePng')}</button>
          <button type="button" disabled={busy || film !== null} onClick={props.onSvg}>{sayPictures('saveSvg')}</button>
        </span>
      </div>
      {!choices.flat && <p className="note">{sayPictures('svgNote')}</p>}
      <h4>{sayPictures('film')}</h4>
      <Film {...props} />
      {hasLabel && (
        <label className="tick">
          <input type="checkbox" checked={choices.withLabel} onChange={(event) => onChoose({ withLabel: event.target.checked })} />
          {sayPictures('withLabel')}
        </label>
      )}
      <p className="note" role="status">{message}</p>
    </div>
  );
}

function Film({ choices, formats, hasPath, isSlow, busy, film, onChoose, onFilm, onSound, onCancel }: PicturesPartProps): ReactNode {
  if (!hasPath) return <p className="note">{sayPictures('oneNote')}</p>;
  const sound = <button type="button" disabled={busy || film !== null} onClick={onSound}>{sayPictures('saveSound')}</button>;
  if (formats !== null && formats.length === 0) {
    return (
      <>
        <p className="note">{sayPictures('noEncoder')}</p>
        <p className="button-row">{sound}</p>
      </>
    );
  }
  const chosen = formats?.find(({ container }) => container === choices.container) ?? formats?.[0];
  return (
    <>
      <p className="note">{isSlow && !choices.flat ? sayPictures('slow') : sayPictures('filmNote')}</p>
      <Choice legend={sayPictures('size')} options={FILM_SIZES.map((value) => ({ value, label: value }))} value={choices.filmSize} onChange={(filmSize) => onChoose({ filmSize })} />
      {formats !== null && chosen !== undefined && formats.length > 1 && (
        <Choice
          legend={sayPictures('file')}
          options={formats.map(({ container, silent }) => ({ value: container, label: filmFormatName(container, silent) }))}
          value={chosen.container}
          onChange={(container) => onChoose({ container })}
        />
      )}
      <Choice
        legend={sayPictures('way')}
        options={[{ value: 'there', label: sayPictures('there') }, { value: 'back', label: sayPictures('thereAndBack') }]}
        value={choices.andBack ? 'back' : 'there'}
        onChange={(way) => onChoose({ andBack: way === 'back' })}
      />
      {chosen?.silent === true ? <p className="note">{sayPictures('noSound')}</p> : (
        <label className="tick">
          <input type="checkbox" checked={choices.withSound} onChange={(event) => onChoose({ withSound: event.target.checked })} />
          {sayPictures('withSound')}
        </label>
      )}
      <p className="button-row share-progress">
        {film === null ? (
          <button type="button" disabled={busy || formats === null} onClick={onFilm}>{sayPictures('makeFilm')}</button>
        ) : (
          <>
            <progress max={100} value={Math.floor(film.part * 100)} aria-label={sayPictures('filming')} />
            <span>{filmProgress(film.part, film.secondsLeft)}</span>
            <button type="button" ref={takeFocus} onClick={onCancel}>{sayPictures('cancel')}</button>
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

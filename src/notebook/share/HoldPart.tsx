/** What can be printed: made on request, each with its size in words and its two files. */
import { type ReactNode, useEffect, useRef } from 'react';
import type { HeldFigures } from '../../solids/heldThings';
import { type HeldId, finenessWords, pegWords, sizeWords } from './holdWords';
import { sayHold } from '../../words/hold';

export interface HeldRow {
  readonly id: HeldId;
  /** Figures of what was made, or a sentence that says why it was not. */
  readonly made: HeldFigures | string;
}

export type HoldState =
  | { readonly kind: 'none'; readonly changed: boolean }
  | { readonly kind: 'making'; readonly done: number; readonly of: number }
  | { readonly kind: 'made'; readonly rows: readonly HeldRow[]; readonly pegNames: readonly string[]; readonly pegsLeftOut: number };

export interface HoldPartProps {
  /** Null: nothing can be made. */
  readonly state: HoldState | null;
  readonly rimMm: number;
  readonly withLabel: boolean;
  readonly hasLabel: boolean;
  readonly message: string;
  onMake(): void;
  onCancel(): void;
  onSave(id: HeldId, kind: 'stl' | 'glb'): void;
  onWithLabel(wished: boolean): void;
}

export function HoldPart(props: HoldPartProps): ReactNode {
  const { state, message } = props;
  const place = useFocusKept(state?.kind);
  return (
    <div className="share-part" ref={place}>
      <p>{sayHold('intro')}</p>
      <p className="note">{sayHold('caution')}</p>
      {state === null ? <p className="note">{sayHold('nothing')}</p> : <Making {...props} state={state} />}
      <p className="note" role="status">{state?.kind === 'made' && message === '' ? sayHold('made', { count: state.rows.filter(({ made }) => typeof made !== 'string').length }) : message}</p>
    </div>
  );
}

function Making(props: HoldPartProps & { readonly state: HoldState }): ReactNode {
  const { state } = props;
  switch (state.kind) {
    case 'none':
      return (
        <p className="button-row">
          <button type="button" className="primary" onClick={props.onMake}>{sayHold(state.changed ? 'makeAnew' : 'make')}</button>
        </p>
      );
    case 'making':
      return (
        <p className="button-row share-progress">
          <progress max={state.of} value={state.done} aria-label={sayHold('making')} />
          <span>{sayHold('makingOf', { done: state.done, of: state.of })}</span>
          <button type="button" onClick={props.onCancel}>{sayHold('cancel')}</button>
        </p>
      );
    case 'made':
      return <Made {...props} state={state} />;
  }
}

function Made({ state, rimMm, withLabel, hasLabel, onSave, onWithLabel }: HoldPartProps & { readonly state: Extract<HoldState, { kind: 'made' }> }): ReactNode {
  return (
    <>
      <ul className="share-files">
        {state.rows.map(({ id, made }) => (
          <li key={id}>
            <div className="share-files__what" tabIndex={-1}>
              <strong>{sayHold(`thing-${id}`)}</strong>
              {typeof made === 'string' ? <p className="note">{made}</p> : <p>{sizeWords(id, made, rimMm)}</p>}
              {typeof made === 'string' ? null : (
                <p className="note">{id === 'pegs' ? pegWords(made.raised, state.pegNames, state.pegsLeftOut) : finenessWords(id, made)}</p>
              )}
            </div>
            {typeof made === 'string' ? null : (
              <span className="share-files__saves">
                {(['stl', 'glb'] as const).map((kind) => (
                  <button key={kind} type="button" aria-label={sayHold('saveThingAs', { format: kind.toUpperCase(), thing: sayHold(`thing-${id}`) })} onClick={() => onSave(id, kind)}>
                    {sayHold('saveAs', { format: kind.toUpperCase() })}
                  </button>
                ))}
              </span>
            )}
          </li>
        ))}
      </ul>
      {hasLabel && (
        <label className="tick">
          <input type="checkbox" checked={withLabel} onChange={(event) => onWithLabel(event.target.checked)} />
          {sayHold('withLabel')}
        </label>
      )}
      <p className="note">{sayHold('files')}</p>
    </>
  );
}

/** What was pressed is gone with every step: the focus goes on to what has taken its place. */
function useFocusKept(kind: HoldState['kind'] | undefined) {
  const place = useRef<HTMLDivElement>(null);
  const before = useRef(kind);
  useEffect(() => {
    const was = before.current;
    before.current = kind;
    if (was === kind || was === undefined || document.activeElement !== document.body) return;
    place.current?.querySelector<HTMLElement>(kind === 'made' ? '.share-files__what' : 'button')?.focus();
  }, [kind]);
  return place;
}

/** One jaw's scan, from the file to the fitted arch. */
import { type ReactNode, useId, useLayoutEffect, useRef } from 'react';
import type { ArchFamily } from '../../core/specs';
import { MM_PER, type ScanUnit } from '../../scans/scanUnits';
import type { JawName } from '../../scans/startView';
import { sayScans } from '../../words/scans';
import { Choice, Picker } from '../Choice';
import { FileDoor } from '../FileDoor';
import { familyOptions } from '../ownArch/words';
import { DifferencePart } from './DifferencePart';
import { MarkingPart } from './MarkingPart';
import { type JawEdits, type JawWork, type PictureSource, TEETH } from './props';
import { fittedWords, foundWords, frameWords, numberName, numberWords, unitName, unitWords } from './words';

export interface JawPartProps extends JawEdits {
  readonly jaw: JawName;
  readonly work: JawWork;
  readonly source: PictureSource | null;
}

export function JawPart(props: JawPartProps): ReactNode {
  const { jaw, work, source } = props;
  const { phase, opened, settled, refusal } = work;
  const heading = useId();
  const isLacking = work.unit === null || TEETH.some((tooth) => work.marks[tooth] === undefined);
  const isBusy = phase === 'reading' || phase === 'settling' || phase === 'preparing';
  const head = useRef<HTMLHeadingElement>(null);
  const fit = useRef<HTMLButtonElement>(null);
  const isFocusLost = useRef(false);
  // Once what comes instead stands there.
  useLayoutEffect(() => {
    if (!isFocusLost.current) return;
    isFocusLost.current = false;
    (fit.current === null || fit.current.disabled ? head.current : fit.current)?.focus({ preventScroll: true });
  });
  const loseFocus = (): void => {
    isFocusLost.current = true;
  };
  return (
    <section className="scan-jaw" aria-labelledby={heading}>
      <h4 id={heading} ref={head} tabIndex={-1}>{sayScans('jaw', { jaw })}</h4>
      {phase === 'reading' ? null : (
        <Passing onFocusLost={loseFocus}>
          <ScanDoor {...props} onFocusLost={loseFocus} />
        </Passing>
      )}
      <div role="status">
        {isBusy ? (
          <Passing onFocusLost={loseFocus}>
            <Busy {...props} />
          </Passing>
        ) : null}
      </div>
      {refusal === null ? null : (
        <p className="caution" role="alert">
          {work.opened === null ? `${work.fileName}: ${refusal}` : refusal}
        </p>
      )}
      {opened === null || source === null ? null : (
        <>
          <ul className="scan-found">
            {foundWords(work.fileName, opened, work.unit === null ? null : MM_PER[work.unit]).map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
          <UnitChoice {...props} />
          <MarkingPart
            key={work.fileName + opened.triangles}
            jaw={jaw}
            work={work}
            source={source}
            first={opened.view}
            onSides={(sides) => props.onSides(jaw, sides)}
            onMark={(tooth, place) => props.onMark(jaw, tooth, place)}
          />
          <div className="fields">
            <Picker
              label={sayScans('form')}
              options={[{ value: NEAREST, label: sayScans('nearest') }, ...familyOptions()]}
              value={work.family ?? NEAREST}
              onChange={(value) => props.onFamily(jaw, value === NEAREST ? null : (value as ArchFamily))}
            />
          </div>
          <p className="button-row button-row--wraps">
            <button
              ref={fit}
              type="button"
              className="primary"
              disabled={isLacking}
              // Not disabled while it is at work: whoever pressed it keeps the focus.
              aria-disabled={isBusy}
              aria-describedby={isLacking ? `${heading}-lacking` : undefined}
              onClick={() => isBusy || props.onSettle(jaw)}
            >
              {settled === null ? sayScans('settle') : sayScans('settleAgain')}
            </button>
            {isLacking ? (
              <span id={`${heading}-lacking`} className="number-field__hint">
                {sayScans(work.unit === null ? 'lackingUnit' : 'lackingMarks')}
              </span>
            ) : null}
          </p>
          {settled === null ? null : (
            <>
              <p>{fittedWords(settled)}</p>
              <p className="note">{frameWords(settled)}</p>
              <details>
                <summary>{sayScans('numbersHead')}</summary>
                <dl className="scan-numbers">
                  {settled.numbers.map((number) => (
                    <div key={number.name}>
                      <dt>{numberName(number.name)}</dt>
                      <dd>{numberWords(number)}</dd>
                    </div>
                  ))}
                </dl>
              </details>
              <DifferencePart jaw={jaw} settled={settled} source={source} />
            </>
          )}
        </>
      )}
    </section>
  );
}

const NEAREST = 'nearest';
const UNITS: readonly ScanUnit[] = ['mm', 'cm', 'm', 'inch'];

function ScanDoor({ jaw, work, onFile, onAway, onFocusLost }: JawPartProps & { onFocusLost(): void }): ReactNode {
  const isOpen = work.opened !== null;
  return (
    <FileDoor
      isSmall={isOpen}
      ask={isOpen ? sayScans('chooseOther') : sayScans('choose', { jaw })}
      note={sayScans('orDrop')}
      accept=".stl,.ply,.obj"
      name={sayScans('fileLabel', { jaw })}
      onFiles={([file]) => {
        if (file !== undefined) onFile(jaw, file);
      }}
    >
      {isOpen ? (
        <Passing onFocusLost={onFocusLost}>
          <button type="button" className="quiet" onClick={() => onAway(jaw)}>
            {sayScans('away')}
          </button>
        </Passing>
      ) : null}
    </FileDoor>
  );
}

/** What goes from the page again, with the focus perhaps. */
function Passing({ children, onFocusLost }: { readonly children: ReactNode; onFocusLost(): void }): ReactNode {
  const own = useRef<HTMLDivElement>(null);
  const tell = useRef(onFocusLost);
  useLayoutEffect(() => {
    const element = own.current;
    const told = tell.current;
    return () => {
      if (element?.contains(document.activeElement) === true) told();
    };
  }, []);
  return <div ref={own}>{children}</div>;
}

function Busy({ jaw, work, onStop }: JawPartProps): ReactNode {
  const percent = Math.floor(100 * work.part);
  const words =
    work.phase === 'reading' ? sayScans('reading', { name: work.fileName, percent }) : work.phase === 'settling' ? sayScans('settling', { percent }) : sayScans('preparing', { percent });
  return (
    <p className="scan-busy">
      <span>{words}</span>
      <progress value={work.part} aria-label={words} />
      <button type="button" onClick={() => onStop(jaw)}>
        {sayScans('stop')}
      </button>
    </p>
  );
}

function UnitChoice({ jaw, work, onUnit }: JawPartProps): ReactNode {
  const { opened, unit } = work;
  if (opened === null) return null;
  return (
    <div>
      <p className={opened.unit?.sure === true ? 'note' : 'caution'}>{unitWords(opened)}</p>
      <Choice<ScanUnit | 'none'>
        legend={sayScans('unit')}
        options={UNITS.map((value) => ({ value, label: unitName(value, 'label') }))}
        value={unit ?? 'none'}
        onChange={(value) => value === 'none' || onUnit(jaw, value)}
      />
    </div>
  );
}

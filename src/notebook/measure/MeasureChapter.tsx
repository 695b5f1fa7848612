import { type ReactNode, useEffect, useRef } from 'react';
import { sayApp } from '../../words/app';
import { sayMarking } from '../../words/marking';
import { FilesDoor } from './FilesDoor';
import { MarksList } from './MarksList';
import { PictureFields } from './PictureFields';
import { PicturesList } from './PicturesList';
import { undoKeys } from './MeasuringPicture';
import { nextMark, nextWithout, placeOf } from './marksEdits';
import { NextStep } from './NextStep';
import type { MeasureChapterProps, OpenPicture } from './props';
import { linesSaid, notSure, problemSaid, resultLines } from './resultWords';
import './measure.css';

/** Pictures in, readings out. While pictures are open the one that is shown stands in the stage's place. */
export function MeasureChapter(props: MeasureChapterProps): ReactNode {
  const { pictures, shownId, isOpening, refusals } = props;
  const shown = pictures.find(({ id }) => id === shownId);
  const isOpen = shown !== undefined;
  const isAny = isOpen || props.film !== null;
  const heading = useRef<HTMLHeadingElement>(null);
  const wasOpen = useRef(isAny);
  useEffect(() => {
    // What had the focus may be gone with the pictures.
    if (wasOpen.current && !isAny) heading.current?.focus();
    wasOpen.current = isAny;
  }, [isAny]);
  return (
    <section className="chapter measure" id="measure" aria-labelledby="measure-heading" onKeyDown={isOpen ? undoKeys(props) : undefined}>
      <h2 id="measure-heading" ref={heading} tabIndex={-1}>
        {sayApp('measureChapter')}
      </h2>
      {isOpen || props.film !== null ? null : (
        <p>{sayMarking('begin')}</p>
      )}
      {props.asked}
      <FilesDoor isOpening={isOpening} open={isOpen ? 'pictures' : props.film !== null ? 'films' : null} onFiles={props.onFiles} />
      <p className="note">{sayMarking('stay')}</p>
      {refusals.map((words) => (
        <p key={words} className="caution" role="alert">
          <strong>{sayMarking('notDone')}</strong> {words}
        </p>
      ))}
      {isOpen ? <Open {...props} shown={shown} /> : props.film}
      {props.accepted === null || isOpen ? null : <p role="status">{props.accepted}</p>}
      {props.kept}
    </section>
  );
}

function Open({ shown, ...props }: MeasureChapterProps & { readonly shown: OpenPicture }): ReactNode {
  const { active } = props;
  return (
    <>
      <PicturesList {...props} />
      <NextStep active={active} view={shown.view} beside={<LeaveOut {...props} shown={shown} />}>
        {nextMark(shown.marks, shown.view) === null ? (
          <>
            <strong>{sayMarking('allPut')}</strong> {sayMarking('allPutRest')}
          </>
        ) : (
          <>
            <strong>{sayMarking('leftOut')}</strong> {sayMarking('leftOutRest')}
          </>
        )}
      </NextStep>
      <Result shown={shown} props={props} />
      <PictureFields key={shown.id} shown={shown} {...props} />
      <MarksList {...props} marks={shown.marks} view={shown.view} />
      <div className="part">
        <div className="button-row button-row--wraps">
          <button type="button" className="primary" disabled={props.isLocked} onClick={props.onAccept}>
            {sayMarking('accept')}
          </button>
          <button type="button" onClick={props.onClose}>
            {sayMarking('close')}
          </button>
        </div>
        <p className="note">{sayMarking('goInto', { lesson: props.lessonName })}</p>
        {props.accepted === null ? null : <p role="status">{props.accepted}</p>}
      </div>
    </>
  );
}

function LeaveOut({ shown, active, onActivate }: Pick<MeasureChapterProps, 'active' | 'onActivate'> & { readonly shown: OpenPicture }): ReactNode {
  if (active === null || placeOf(active).kind !== 'landmark') return null;
  return (
    <button type="button" className="quiet measure__leave" onClick={() => onActivate(nextWithout(shown.marks, shown.view, active))}>
      {sayMarking('leaveOut')}
    </button>
  );
}

function Result({ shown, props }: { readonly shown: OpenPicture; readonly props: MeasureChapterProps }): ReactNode {
  const { result, view } = shown;
  const isHome = shown.id === props.homeId;
  const lines = resultLines(result, isHome, props.shareBy, props.entry.sideways);
  const isBegun = lines.length > 0 || result.ellipse !== null;
  return (
    <div className="part measure__result">
      <h3>{sayMarking('result')}</h3>
      {lines.length === 0 ? null : (
        <dl className="measure__lines">
          {lines.map(({ name, value, margin }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>
                <span className="measure__number measured-ink">{value}</span> {margin}
              </dd>
            </div>
          ))}
        </dl>
      )}
      {view === 'front' && isHome && result.travel !== null ? <p>{sayMarking('pictureIsHome')}</p> : null}
      {view === 'front' && props.homeRefused !== null ? (
        <p className="caution">
          <strong>{sayMarking('travelWaits')}</strong> {props.homeRefused}
        </p>
      ) : null}
      {result.problems.map((problem) => (
        <p key={problemSaid(problem)} className="note">
          {problemSaid(problem)}
        </p>
      ))}
      {isBegun ? <p className="note">{sayMarking('bandWords', { unsure: notSure(view) })}</p> : null}
      <p className="only-heard" aria-live="polite">
        {linesSaid(lines)}
      </p>
    </div>
  );
}

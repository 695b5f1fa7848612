import { type ReactNode, useEffect, useRef } from 'react';
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
        From pictures and film
      </h2>
      {isOpen || props.film !== null ? null : (
        <p>
          Take travel, the horn’s angles and the upper lip’s share from photographs, or note by note from a take on film: mark rim, head and horn, and the numbers
          come as you go. A phone in front of the player is enough; a second one from the side makes the bell’s angle surer.
        </p>
      )}
      {props.asked}
      <FilesDoor isOpening={isOpening} open={isOpen ? 'pictures' : props.film !== null ? 'films' : null} onFiles={props.onFiles} />
      <p className="note">
        Pictures and films stay on this machine and are not sent anywhere. Of anybody under age, take and use them only if their parents agree. A file’s name goes into the record and into files made of it
        once readings are accepted: rename a file that names a person first, if nobody else shall read it.
      </p>
      {refusals.map((words) => (
        <p key={words} className="caution" role="alert">
          <strong>Not done.</strong> {words}
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
            <strong>All marks are put.</strong> Drag one to mend it, or choose one below.
          </>
        ) : (
          <>
            <strong>The rest is left out.</strong> Choose a mark below to put it, or drag one to mend it.
          </>
        )}
      </NextStep>
      <Result shown={shown} props={props} />
      <PictureFields key={shown.id} shown={shown} {...props} />
      <MarksList {...props} marks={shown.marks} view={shown.view} />
      <div className="part">
        <div className="button-row button-row--wraps">
          <button type="button" className="primary" disabled={props.isLocked} onClick={props.onAccept}>
            Accept as readings
          </button>
          <button type="button" onClick={props.onClose}>
            Close the pictures
          </button>
        </div>
        <p className="note">
          The readings go into {props.lessonName}; one step back takes them out again. The marks are kept with them; the pictures are not.
        </p>
        {props.accepted === null ? null : <p role="status">{props.accepted}</p>}
      </div>
    </>
  );
}

function LeaveOut({ shown, active, onActivate }: Pick<MeasureChapterProps, 'active' | 'onActivate'> & { readonly shown: OpenPicture }): ReactNode {
  if (active === null || placeOf(active).kind !== 'landmark') return null;
  return (
    <button type="button" className="quiet measure__leave" onClick={() => onActivate(nextWithout(shown.marks, shown.view, active))}>
      Leave it out
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
      <h3>What the marks say</h3>
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
      {view === 'front' && isHome && result.travel !== null ? <p>This picture is home: travel is counted from its rim.</p> : null}
      {view === 'front' && props.homeRefused !== null ? (
        <p className="caution">
          <strong>Travel waits.</strong> {props.homeRefused}
        </p>
      ) : null}
      {result.problems.map((problem) => (
        <p key={problemSaid(problem)} className="note">
          {problemSaid(problem)}
        </p>
      ))}
      {isBegun ? <p className="note">± is a 95 % band, from how exactly marks can be put. {notSure(view)}</p> : null}
      <p className="only-heard" aria-live="polite">
        {linesSaid(lines)}
      </p>
    </div>
  );
}

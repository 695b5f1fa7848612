/** The hand-out itself: one page for one player, in true size. What might not fit is shortened by `sheetText`, never cut off by the paper. */
import { type CSSProperties, type ReactNode, useMemo } from 'react';
import type { Analysis } from '../core/analysis';
import type { ReadingBand } from '../core/bands';
import type { Findings } from '../core/findings/findings';
import { CAUTIONS } from './cautionWords';
import { FigureDrawing } from './FigureDrawing';
import { aboveFigure } from './aboveFigure';
import { handOutSentences } from './handOutSentences';
import type { Posture } from './instrumentWords';
import { CONTENT_WIDTH_MM, FIGURE_WIDTHS_MM, PAPERS, type Paper, contentHeightMm } from './paper';
import { LABEL_LIMIT, TRY_LIMIT, TRY_LINES, shortened, shortenedLines } from './sheetText';
import { sideFigure } from './sideFigure';
import { dayWords } from '../words/days';
import { sayPrint } from '../words/print';
import './handOut.css';

export interface HandOutProps {
  readonly analysis: Analysis;
  /** What the readings say; null where that is not known. */
  readonly findings: Findings | null;
  readonly bands: readonly ReadingBand[] | null;
  readonly label: string;
  readonly instrumentName: string;
  readonly posture: Posture;
  /** The day, as in 2026-03-01. */
  readonly date: string;
  readonly whatToTry: string;
  readonly paper: Paper;
  /** The exercise as notation, as wide as `CONTENT_WIDTH_MM`; it is engraved elsewhere. */
  readonly staff: ReactNode;
  /** Under two systems the figures are less high. */
  readonly staffSystems: 1 | 2;
  /** A sounding note as the reader sees it. Kept the same between renders. */
  noteLabel(note: string): string;
}

export function HandOut(props: HandOutProps): ReactNode {
  const { analysis, findings, bands, posture, noteLabel, paper } = props;
  const size = PAPERS[paper];
  const heightMm = size.figureHeightMm[props.staffSystems === 2 ? 'two' : 'one'];
  const figures = useMemo(() => {
    const words = { posture, noteLabel };
    return {
      side: sideFigure(analysis, words, { widthMm: FIGURE_WIDTHS_MM.side, heightMm }),
      above: aboveFigure(analysis, words, { widthMm: FIGURE_WIDTHS_MM.above, heightMm }),
    };
  }, [analysis, posture, noteLabel, heightMm]);
  const sentences = handOutSentences({ analysis, findings, bands, posture, noteLabel });
  const toTry = shortenedLines(props.whatToTry, TRY_LIMIT, TRY_LINES, TRY_LINE_LETTERS);
  const lengths = {
    '--paper-width': `${size.widthMm}mm`,
    '--paper-height': `${size.heightMm}mm`,
    '--content-width': `${CONTENT_WIDTH_MM}mm`,
    '--content-height': `${contentHeightMm(size)}mm`,
    '--beside': `${size.besideMm}mm`,
    '--above': `${size.aboveMm}mm`,
  } as CSSProperties;
  return (
    <article className="hand-out-sheet" style={lengths} aria-label={sayPrint('handOut')}>
      <div className="hand-out-content">
        <header>
          <h3>{shortened(props.label, LABEL_LIMIT) || sayPrint('player')}</h3>
          <p>{shortened(props.instrumentName, LABEL_LIMIT)} · {dayWords(props.date)}</p>
        </header>
        <section data-figure="staff">
          <h4>{sayPrint('exerciseHeading')}</h4>
          {analysis.readings.length === 0 ? <p>{sayPrint('noNotes')}</p> : props.staff}
          <p className="hand-out-small">{analysis.readings.length === 0 ? '' : sayPrint(posture === 'lap' ? 'staffLap' : 'staffHeld')}{problemWords(analysis.problems.length)}</p>
        </section>
        <div className="hand-out-figures">
          <div data-figure="side"><FigureDrawing figure={figures.side} /></div>
          <div data-figure="above"><FigureDrawing figure={figures.above} /></div>
        </div>
        <div className="hand-out-columns">
          <section>
            <h4>{sayPrint('whatThisShows')}</h4>
            <p>{sentences.rim}</p>
            <p>{sentences.horn}</p>
            <p>{sentences.held}</p>
            {bands !== null && /±/u.test(Object.values(sentences).join('')) && <p className="hand-out-small">{sayPrint('bandNote')}</p>}
          </section>
          <section>
            <h4>{sayPrint('whatToTry')}</h4>
            {toTry === '' ? <RuledLines few /> : <p className="hand-out-try">{toTry}</p>}
          </section>
        </div>
        <RuledLines />
        <footer>
          <p><strong>{sayPrint('caution')}</strong> {CAUTIONS.geometry} {CAUTIONS.pain} {CAUTIONS.braces} {CAUTIONS.placement} {CAUTIONS.change}</p>
          <p>{sayPrint(posture === 'lap' ? 'geometryLap' : 'geometryHeld')}</p>
        </footer>
      </div>
    </article>
  );
}

/** As many lines to write on as there may be room for; what has none is hidden. */
const MOST_LINES = 20;
const FEW_LINES = 4;

/** Borders, since a browser may be told to print no backgrounds. */
function RuledLines({ few = false }: { readonly few?: boolean }): ReactNode {
  return (
    <div className={few ? 'hand-out-ruled hand-out-ruled-few' : 'hand-out-ruled'} aria-hidden="true">
      {Array.from({ length: few ? FEW_LINES : MOST_LINES }, (_, line) => <div key={line} />)}
    </div>
  );
}

/** About how many letters one line of "what to try" holds. */
const TRY_LINE_LETTERS = 34;

const problemWords = (count: number): string => (count === 0 ? '' : sayPrint('leftOut', { count }));

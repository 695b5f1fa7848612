/** The hand-out as it will be printed, fitted into the notebook, with what can be chosen and done beside it. */
import { type ReactNode, useId, useLayoutEffect, useRef, useState } from 'react';
import { HandOut, type HandOutProps } from './HandOut';
import { PAPERS, type Paper } from './paper';
import { type PrintFont, download, pngFile, svgFile } from './saveFigure';
import { fileNamePart } from '../core/fileNames';
import { sayPrint } from '../words/print';

export interface HandOutPreviewProps extends Omit<HandOutProps, 'paper'> {
  /** Set into saved figures. */
  readonly fonts: readonly PrintFont[];
  onWhatToTry(text: string): void;
}

const FIGURES = [
  { key: 'side', name: 'sideName' },
  { key: 'above', name: 'aboveName' },
  { key: 'staff', name: 'staffName' },
] as const;

export function HandOutPreview({ fonts, onWhatToTry, ...page }: HandOutPreviewProps): ReactNode {
  const id = useId();
  const [paper, setPaper] = useState<Paper>('a4');
  const [message, setMessage] = useState('');
  const sheet = useRef<HTMLDivElement>(null);
  const [frame, widthPx] = useWidth();
  const { widthMm, cssSize, aboveMm, besideMm } = PAPERS[paper];
  const zoom = widthPx === 0 ? 1 : Math.min(1, (widthPx - FRAME_PX) / (widthMm * PX_PER_MM));

  const save = (figure: string, kind: 'svg' | 'png'): void => {
    const svg = sheet.current?.querySelector<SVGSVGElement>(`[data-figure='${figure}'] svg`);
    if (!svg) {
      setMessage(sayPrint('nothingToSave'));
      return;
    }
    const name = `${fileNamePart(page.label)}-${figure}.${kind}`;
    const file = kind === 'png' ? pngFile(svg, fonts) : svgFile(svg, fonts).then((text) => new Blob([text], { type: 'image/svg+xml' }));
    file.then(
      (ready) => {
        download(ready, name);
        setMessage(sayPrint('savedAs', { name }));
      },
      () => setMessage(sayPrint('notMade', { name })),
    );
  };

  return (
    <div className="hand-out">
      <style>{`@page { size: ${cssSize}; margin: ${aboveMm}mm ${besideMm}mm; }`}</style>
      <fieldset className="choice">
        <legend className="choice__legend">{sayPrint('paper')}</legend>
        <div className="choice__options">
          {(Object.keys(PAPERS) as Paper[]).map((one) => (
            <label key={one} className="choice__option">
              <input type="radio" name={`${id}-paper`} value={one} checked={one === paper} onChange={() => setPaper(one)} />
              <span>{PAPERS[one].name()}</span>
            </label>
          ))}
        </div>
      </fieldset>
      <div className="hand-out-field">
        <label htmlFor={`${id}-try`}>{sayPrint('whatToTry')}</label>
        <textarea id={`${id}-try`} rows={4} value={page.whatToTry} onChange={(event) => onWhatToTry(event.target.value)} aria-describedby={`${id}-try-hint`} />
        <p id={`${id}-try-hint`} className="number-field__hint">{sayPrint('tryHint')}</p>
      </div>
      <p className="button-row">
        <button type="button" className="primary" onClick={() => window.print()}>{sayPrint('print')}</button>
      </p>
      <div className="hand-out-view" ref={frame}>
        <div className="hand-out-frame" style={{ zoom }} ref={sheet}>
          <HandOut {...page} paper={paper} />
        </div>
      </div>
      <ul className="hand-out-saves">
        {FIGURES.map(({ key, name }) => (
          <li key={key}>
            <span>{sayPrint(name)}</span>
            <button type="button" aria-label={sayPrint('saveSvgOf', { figure: sayPrint(name) })} onClick={() => save(key, 'svg')}>{sayPrint('saveSvg')}</button>
            <button type="button" aria-label={sayPrint('savePngOf', { figure: sayPrint(name) })} onClick={() => save(key, 'png')}>{sayPrint('savePng')}</button>
          </li>
        ))}
      </ul>
      <p className="hand-out-message" role="status">{message}</p>
    </div>
  );
}

const PX_PER_MM = 96 / 25.4;
/** The frame's own borders. */
const FRAME_PX = 2;

/** Width that the preview has, followed as it changes; 0 until it is known. */
function useWidth() {
  const ref = useRef<HTMLDivElement>(null);
  const [widthPx, setWidthPx] = useState(0);
  useLayoutEffect(() => {
    const element = ref.current;
    if (element === null) return undefined;
    const measure = (): void => setWidthPx(element.clientWidth);
    measure();
    const sizes = new ResizeObserver(measure);
    sizes.observe(element);
    return () => sizes.disconnect();
  }, []);
  return [ref, widthPx] as const;
}

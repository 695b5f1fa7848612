import { type ReactNode, useEffect, useRef } from 'react';
import { LinkCode, type LinkCodeProps } from '../../print/LinkCode';
import { sayShare } from '../../words/share';

export interface LargeCodeProps extends LinkCodeProps {
  onClose(): void;
}

/** The code over the whole page, for the projector: as large as the window lets it be. Escape closes it, and the focus goes back to where it was. */
export function LargeCode({ onClose, ...code }: LargeCodeProps): ReactNode {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const shown = dialog.current;
    shown?.showModal();
    return () => shown?.close();
  }, []);
  return (
    <dialog ref={dialog} className="large-code" aria-label={sayShare('largeCode')} onClose={onClose}>
      <LinkCode {...code} />
      <p>{sayShare('pointCamera')}</p>
      <button type="button" onClick={() => dialog.current?.close()}>
        {sayShare('close')}
      </button>
    </dialog>
  );
}

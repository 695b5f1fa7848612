import type { ReactNode } from 'react';
import type { FilePartProps } from './props';
import { FILE_WORDS } from './words';

/** The picture as one file that opens anywhere. */
export function FilePart({ goes, state, failure, isOneFile, onSave }: FilePartProps): ReactNode {
  return (
    <>
      <p className="note">{FILE_WORDS.what}</p>
      <p className="note">{goes}</p>
      <p>
        <button type="button" disabled={state === 'making'} onClick={onSave}>
          {FILE_WORDS.save}
        </button>
      </p>
      <p className="note" role="status">
        {state === 'making' ? FILE_WORDS.making : state === 'made' ? FILE_WORDS.made : state === 'failed' ? FILE_WORDS.failed(failure ?? '') : ''}
      </p>
      <p className="note">
        {isOneFile ? `${FILE_WORDS.isOneFile} ` : ''}
        {FILE_WORDS.leftOut} {FILE_WORDS.keeps}
      </p>
    </>
  );
}

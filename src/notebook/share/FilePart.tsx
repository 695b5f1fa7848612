import type { ReactNode } from 'react';
import type { FilePartProps } from './props';
import { sayShare } from '../../words/share';

/** The picture as one file that opens anywhere. */
export function FilePart({ goes, state, failure, isOneFile, onSave }: FilePartProps): ReactNode {
  return (
    <>
      <p className="note">{sayShare('fileIs')}</p>
      <p className="note">{goes}</p>
      <p>
        <button type="button" disabled={state === 'making'} onClick={onSave}>
          {sayShare('saveFile')}
        </button>
      </p>
      <p className="note" role="status">
        {state === 'making' ? sayShare('fileMaking') : state === 'made' ? sayShare('fileMade') : state === 'failed' ? sayShare('fileFailed', { why: failure ?? '' }) : ''}
      </p>
      <p className="note">{sayShare('fileLeavesOut', { here: isOneFile ? 'yes' : 'no' })}</p>
    </>
  );
}

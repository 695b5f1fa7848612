/** The player's own arch from a scan: both jaws, what they make of the angles, the record, and what is kept. */
import { type ReactNode, useState } from 'react';
import { scannedJaw } from '../../core/ownArch/scannedArch';
import type { ScannedArchSpec } from '../../core/specs';
import type { JawName } from '../../scans/startView';
import { sayScans } from '../../words/scans';
import { Choice } from '../Choice';
import { formatFixed } from '../numberText';
import { JawPart } from './JawPart';
import { NotesPart } from './NotesPart';
import type { ScanPartProps } from './props';
import { megabytesWords } from './words';
import '../measure/measure.css';
import './scan.css';

const JAWS: readonly JawName[] = ['upper', 'lower'];

export function ScanPart(props: ScanPartProps): ReactNode {
  const { record, message, notes } = props;
  const [keep, setKeep] = useState(true);
  const isReady = JAWS.some((jaw) => props[jaw].ready !== null);
  return (
    <div className="scan-part">
      <p className="note">{sayScans('intro')}</p>
      <p className="caution">
        <strong>{sayScans('privateHead')}</strong> {sayScans('private')}
      </p>
      {'single' in record.arch ? (
        <p className="note">{sayScans('single')}</p>
      ) : (
        <>
          {record.arch.scanned === undefined ? null : <OwnScan {...props} scanned={record.arch.scanned} />}
          <div className="scan-jaws">
            {JAWS.map((jaw) => (
              <JawPart key={jaw} {...props} jaw={jaw} work={props[jaw]} source={props.pictures(jaw)} />
            ))}
          </div>
          <NotesPart notes={notes} noteLabel={props.noteLabel} />
          {isReady ? (
            <div className="scan-accept">
              <label className="tick">
                <input type="checkbox" checked={keep} onChange={(event) => setKeep(event.target.checked)} />
                {sayScans('keep')}
              </label>
              <p className="button-row button-row--wraps">
                <button type="button" className="primary" onClick={() => props.onAccept(keep)}>
                  {sayScans('accept')}
                </button>
                <span className="number-field__hint">{sayScans('acceptHint')}</span>
              </p>
            </div>
          ) : null}
        </>
      )}
      <div role="status">{message === null ? null : <p>{message}</p>}</div>
      <Kept {...props} />
    </div>
  );
}

/** The arch in the record is that of a scan: where the rim rests, and whether the scan is here. */
function OwnScan(props: ScanPartProps & { readonly scanned: ScannedArchSpec }): ReactNode {
  const { record, scanned, kept, isAtHand, onScan, onRestOn, onForget } = props;
  const jaws = JAWS.filter((jaw) => scannedJaw(record.arch, jaw) !== null);
  const own = kept.filter(({ id }) => id === scanned.id);
  return (
    <div className="scan-own">
      {jaws.length === 0 ? (
        <p className="note">{sayScans('changedByHand')}</p>
      ) : (
        <p>{sayScans('own', { jaws: jaws.map((jaw) => sayScans('ownJaw', { jaw, rms: formatFixed(scanned[jaw]!.residualMm, 2) })).join('; ') })}</p>
      )}
      {jaws.length > 0 && isAtHand ? (
        <>
          <Choice<'scan' | 'arch'>
            legend={sayScans('restOn')}
            options={[{ value: 'scan', label: sayScans('restScan') }, { value: 'arch', label: sayScans('restArch') }]}
            value={onScan ? 'scan' : 'arch'}
            onChange={(value) => onRestOn(value === 'scan')}
          />
          <p className="note">{sayScans('bandsOnArch')}</p>
        </>
      ) : null}
      {isAtHand || jaws.length === 0 ? null : <p className="note">{own.length > 0 ? sayScans('coming') : sayScans('notHere')}</p>}
      {own.length > 0 || isAtHand ? (
        <p className="button-row button-row--wraps">
          {own.length > 0 ? <span>{sayScans('keptHere', { size: megabytesWords(sizeOf(own)) })}</span> : null}
          <button type="button" onClick={() => onForget(scanned.id)}>
            {sayScans('forget')}
          </button>
          <span className="number-field__hint">{sayScans('forgetHint')}</span>
        </p>
      ) : null}
    </div>
  );
}

/** Everybody's, where there are more than the player's own. */
function Kept({ record, kept, onForget }: ScanPartProps): ReactNode {
  const own = 'single' in record.arch ? undefined : record.arch.scanned?.id;
  if (kept.every(({ id }) => id === own)) return null;
  return (
    <p>
      <button type="button" onClick={() => onForget()}>
        {sayScans('forgetAll', { count: new Set(kept.map(({ id }) => id)).size, size: megabytesWords(sizeOf(kept)) })}
      </button>
    </p>
  );
}

const sizeOf = (scans: readonly { readonly bytes: number }[]): number => scans.reduce((sum, { bytes }) => sum + bytes, 0);

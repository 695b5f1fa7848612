import { type ReactNode, useId, useRef, useState } from 'react';
import { LinkCode } from '../../print/LinkCode';
import { NOTHING_TICKED } from '../../records/sharedPicture';
import { copyText } from '../readings/copyText';
import { LargeCode } from './LargeCode';
import { WhatGoes } from './WhatGoes';
import type { LinkPartProps, ShownLink } from './props';
import { codeTooLongWords, lengthWords, linkTooLongWords } from './words';
import './share.css';
import { sayShare } from '../../words/share';

/** The picture as a link and as a code to scan. */
export function LinkPart(props: LinkPartProps): ReactNode {
  const { link } = props;
  return (
    <>
      <p className="note">{sayShare('linkIs')}</p>
      <WhatGoes {...props} />
      {link.kind === 'link' ? <Given {...props} link={link} /> : <p>{whyNone(link)}</p>}
    </>
  );
}

function whyNone(link: Exclude<ShownLink, { kind: 'link' }>): string {
  if (link.kind === 'no-address') return sayShare('noAddress');
  return link.kind === 'too-long' ? linkTooLongWords(link.characters) : sayShare('linkRefused', { why: link.message });
}

interface GivenProps extends LinkPartProps {
  readonly link: Extract<ShownLink, { kind: 'link' }>;
}

function Given({ link: { address, code }, onHandOn, ...rest }: GivenProps): ReactNode {
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  const [told, setTold] = useState<{ readonly of: string; readonly words: string } | null>(null);
  const copy = async (): Promise<void> => {
    const copied = await copyText(address);
    if (!copied) {
      field.current?.focus();
      field.current?.select();
    }
    setTold({ of: address, words: sayShare(copied ? 'copied' : 'notCopied') });
  };
  return (
    <>
      <div className="picker">
        <label htmlFor={id}>{sayShare('link')}</label>
        <input id={id} ref={field} type="text" className="share-link" readOnly value={address} onFocus={({ target }) => target.select()} />
      </div>
      <p className="button-row button-row--wraps">
        <button type="button" onClick={() => void copy()}>
          {sayShare('copy')}
        </button>
        {onHandOn === null ? null : (
          <button type="button" onClick={() => onHandOn(address)}>
            {sayShare('handOn')}
          </button>
        )}
      </p>
      <p className="note" role="status">
        {told?.of === address ? told.words : lengthWords(address.length)}
      </p>
      {code.kind === 'code' ? (
        <Code squares={code.squares} />
      ) : (
        <>
          <p>{codeTooLongWords(code.squaresASide)}</p>
          <Shorter {...rest} />
        </>
      )}
    </>
  );
}

/** What could be left out. */
function Shorter({ choice: { extent, ticks }, tryOuts, onExtent, onTicks }: Omit<LinkPartProps, 'link' | 'onHandOn'>): ReactNode {
  const ways = [
    { words: sayShare('withoutTicked'), isOne: Object.values(ticks).includes(true), take: () => onTicks(NOTHING_TICKED) },
    { words: sayShare('withoutTryOuts'), isOne: extent === 'lesson' && tryOuts > 0, take: () => onExtent('readings') },
    { words: sayShare('onlyNote'), isOne: extent !== 'note', take: () => onExtent('note') },
  ].filter(({ isOne }) => isOne);
  if (ways.length === 0) return null;
  return (
    <p className="button-row button-row--wraps share-shorter">
      <span>{sayShare('shorter')}</span>
      {ways.map(({ words, take }) => (
        <button key={words} type="button" onClick={take}>
          {words}
        </button>
      ))}
    </p>
  );
}

function Code({ squares }: { readonly squares: readonly (readonly boolean[])[] }): ReactNode {
  const [isLarge, setLarge] = useState(false);
  const label = sayShare('code', { squares: squares.length });
  return (
    <>
      <div className="share-code">
        <LinkCode squares={squares} label={label} />
      </div>
      <p>
        <button type="button" onClick={() => setLarge(true)}>
          {sayShare('large')}
        </button>
      </p>
      {isLarge ? <LargeCode squares={squares} label={label} onClose={() => setLarge(false)} /> : null}
    </>
  );
}

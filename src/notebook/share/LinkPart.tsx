import { type ReactNode, useId, useRef, useState } from 'react';
import { LinkCode } from '../../print/LinkCode';
import { NOTHING_TICKED } from '../../records/sharedPicture';
import { copyText } from '../readings/copyText';
import { LargeCode } from './LargeCode';
import { WhatGoes } from './WhatGoes';
import type { LinkPartProps, ShownLink } from './props';
import { LINK_WORDS, codeLabel, codeTooLongWords, lengthWords, linkTooLongWords } from './words';
import './share.css';

/** The picture as a link and as a code to scan. */
export function LinkPart(props: LinkPartProps): ReactNode {
  const { link } = props;
  return (
    <>
      <p className="note">{LINK_WORDS.what}</p>
      <WhatGoes {...props} />
      {link.kind === 'link' ? <Given {...props} link={link} /> : <p>{whyNone(link)}</p>}
    </>
  );
}

function whyNone(link: Exclude<ShownLink, { kind: 'link' }>): string {
  if (link.kind === 'no-address') return LINK_WORDS.noAddress;
  return link.kind === 'too-long' ? linkTooLongWords(link.characters) : LINK_WORDS.refused(link.message);
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
    setTold({ of: address, words: copied ? LINK_WORDS.copied : LINK_WORDS.notCopied });
  };
  return (
    <>
      <div className="picker">
        <label htmlFor={id}>{LINK_WORDS.field}</label>
        <input id={id} ref={field} type="text" className="share-link" readOnly value={address} onFocus={({ target }) => target.select()} />
      </div>
      <p className="button-row button-row--wraps">
        <button type="button" onClick={() => void copy()}>
          {LINK_WORDS.copy}
        </button>
        {onHandOn === null ? null : (
          <button type="button" onClick={() => onHandOn(address)}>
            {LINK_WORDS.handOn}
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
    { words: LINK_WORDS.withoutTicked, isOne: Object.values(ticks).includes(true), take: () => onTicks(NOTHING_TICKED) },
    { words: LINK_WORDS.withoutTryOuts, isOne: extent === 'lesson' && tryOuts > 0, take: () => onExtent('readings') },
    { words: LINK_WORDS.onlyNote, isOne: extent !== 'note', take: () => onExtent('note') },
  ].filter(({ isOne }) => isOne);
  if (ways.length === 0) return null;
  return (
    <p className="button-row button-row--wraps share-shorter">
      <span>{LINK_WORDS.shorter}</span>
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
  const label = codeLabel(squares.length);
  return (
    <>
      <div className="share-code">
        <LinkCode squares={squares} label={label} />
      </div>
      <p>
        <button type="button" onClick={() => setLarge(true)}>
          {LINK_WORDS.large}
        </button>
      </p>
      {isLarge ? <LargeCode squares={squares} label={label} onClose={() => setLarge(false)} /> : null}
    </>
  );
}

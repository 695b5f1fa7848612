import type { ReactNode } from 'react';
import type { ShareTicks } from '../../records/sharedPicture';
import { Choice } from '../Choice';
import type { WhatGoesProps } from './props';
import { WHAT_GOES_WORDS, whatGoesWords } from './words';

/** What goes along with a link or a file: nothing that names anybody and no word anybody wrote, unless it is ticked. */
export function WhatGoes(props: WhatGoesProps): ReactNode {
  const { choice, measurings, onExtent, onTicks } = props;
  const { ticks } = choice;
  const tick = (name: keyof ShareTicks, label: string): ReactNode => (
    <label className="tick">
      <input type="checkbox" checked={ticks[name]} onChange={({ target }) => onTicks({ ...ticks, [name]: target.checked })} />
      {label}
    </label>
  );
  return (
    <>
      <Choice legend={WHAT_GOES_WORDS.legend} options={WHAT_GOES_WORDS.extents} value={choice.extent} onChange={onExtent} />
      <fieldset className="share-ticks">
        <legend className="choice__legend">{WHAT_GOES_WORDS.ticksLegend}</legend>
        {tick('label', WHAT_GOES_WORDS.label)}
        {tick('remarks', WHAT_GOES_WORDS.remarks)}
        {measurings === 0 ? null : tick('measurings', WHAT_GOES_WORDS.measurings(measurings))}
      </fieldset>
      <p className="note">{whatGoesWords(props)}</p>
    </>
  );
}

import type { ReactNode } from 'react';
import type { ShareExtent, ShareTicks } from '../../records/sharedPicture';
import { saySharing } from '../../words/sharing';
import { Choice } from '../Choice';
import type { WhatGoesProps } from './props';
import { whatGoesWords } from './words';
import { sayShare } from '../../words/share';

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
      <Choice legend={sayShare('howMuch')} options={EXTENTS.map((value) => ({ value, label: sayShare(`extent-${value}`) }))} value={choice.extent} onChange={onExtent} />
      <fieldset className="share-ticks">
        <legend className="choice__legend">{sayShare('alongWithIt')}</legend>
        {tick('label', sayShare('labelAndDay'))}
        {tick('remarks', sayShare('remarks'))}
        {measurings === 0 ? null : tick('measurings', sayShare('measurings', { count: measurings }))}
      </fieldset>
      <p className="note">
        {whatGoesWords(props)}
        {ticks.measurings && !ticks.label && measurings > 0 ? ` ${saySharing('measuredDay')}` : null}
      </p>
    </>
  );
}

const EXTENTS: readonly ShareExtent[] = ['lesson', 'readings', 'note'];

import type { ReactNode } from 'react';
import { sayApp } from '../words/app';
import { useGuest, useGuestState } from './GuestContext';
import { useRecords } from './RecordsContext';
import './styles/guest.css';
import { sayPage } from '../words/page';

/** Over the whole page: what somebody shared, with the two ways on; and why something that was opened cannot be shown. */
export function GuestBand(): ReactNode {
  return (
    <>
      <Refused />
      <Shown />
    </>
  );
}

/** Above all else, so that on a phone too it is seen without being looked for. */
function Refused(): ReactNode {
  const guest = useGuest();
  const { refused } = useGuestState();
  if (refused === null) return null;
  return (
    <section className="guest-band guest-band--refused" aria-label={sayApp('notShown')}>
      <p role="alert">{refused}</p>
      <p className="guest-band__ways">
        <button type="button" onClick={() => guest.refuse(null)}>
          {sayApp('close')}
        </button>
      </p>
    </section>
  );
}

function Shown(): ReactNode {
  const guest = useGuest();
  const { shelf } = useRecords();
  const { kind, from, hasOwn } = useGuestState();
  if (kind === 'none') return null;
  return (
    <section className="guest-band" aria-label={sayPage('guest')}>
      <p role="status">{sayPage(kind === 'aside' ? 'guestAside' : from === 'link' ? 'guestShown' : shelf.lasting ? 'guestFile' : 'guestFileNowhere')}</p>
      <p className="guest-band__ways">
        {kind === 'aside' ? (
          <button type="button" onClick={() => void guest.again()}>
            {sayPage('guestAgain')}
          </button>
        ) : (
          <>
            <button type="button" className="primary" onClick={() => void guest.keep()}>
              {sayPage('guestKeep')}
            </button>
            <button type="button" onClick={() => void guest.back()}>
              {sayPage(hasOwn ? 'guestBack' : 'guestPutAside')}
            </button>
          </>
        )}
      </p>
    </section>
  );
}

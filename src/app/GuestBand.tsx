import type { ReactNode } from 'react';
import { GUEST_WORDS } from '../notebook/share/guestWords';
import { useGuest, useGuestState } from './GuestContext';
import { useRecords } from './RecordsContext';
import './styles/guest.css';

/** Over the whole page while what somebody shared is on it: whose it is, and the two ways on. */
export function GuestBand(): ReactNode {
  const guest = useGuest();
  const { shelf } = useRecords();
  const { kind, from, hasOwn } = useGuestState();
  if (kind === 'none') return null;
  return (
    <section className="guest-band" aria-label={GUEST_WORDS.region}>
      <p role="status">{kind === 'aside' ? GUEST_WORDS.aside : from === 'link' ? GUEST_WORDS.shown : shelf.lasting ? GUEST_WORDS.shownFile : GUEST_WORDS.shownFileNowhere}</p>
      <p className="guest-band__ways">
        {kind === 'aside' ? (
          <button type="button" onClick={() => void guest.again()}>
            {GUEST_WORDS.again}
          </button>
        ) : (
          <>
            <button type="button" className="primary" onClick={() => void guest.keep()}>
              {GUEST_WORDS.keep}
            </button>
            <button type="button" onClick={() => void guest.back()}>
              {hasOwn ? GUEST_WORDS.back : GUEST_WORDS.putAside}
            </button>
          </>
        )}
      </p>
    </section>
  );
}

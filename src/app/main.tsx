import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { analyse } from '../core/analyse';
import { createLive } from '../core/live';
import { openShelf } from '../records/shelf';
import { App } from './App';
import { GuestContext } from './GuestContext';
import { SessionContext } from './SessionContext';
import { forgetAddress, watchAddress } from './address';
import { arrivalOf } from './arrival';
import { prefersReducedMotion } from './capabilities';
import { afterRest, browserIdle } from './idle';
import { describeSelected } from './describe';
import { createGuest, guestStart, named } from './guest';
import { offlineOfPage } from './offlinePage';
import { RecordsContext } from './RecordsContext';
import { startLanguage } from './language';
import { embeddedPicture } from './ownPage';
import { keepPage, loadStart } from './persistence';
import { createRecords } from './records';
import { createSession } from './session';
import { StandInsContext } from './scans/StandInsContext';
import { standInAlong } from './scans/standInAlong';
import { createStandIns, mouthFor } from './scans/standIns';
import { soundAlong } from './sounding';
import '../staff/signs/signs.css';
import './styles/fonts.css';
import './styles/theme.css';
import './styles/base.css';
import './styles/page.css';
import './styles/notebook.css';
import './styles/readings.css';
import './styles/kept.css';
import { sayPage } from '../words/page';

const notSpoken = await startLanguage();
const shelf = await openShelf();
const saved = await loadStart(shelf);
const arrival = await arrivalOf(window.location.hash, embeddedPicture);
const shared = arrival.kind === 'picture' ? { ...arrival.picture, player: named(arrival.picture.player) } : null;
const isFile = arrival.kind === 'picture' && arrival.from === 'file';
const standIns = createStandIns();
const session = createSession(
  { analyse: (record, before, detail) => analyse(record, before, detail, mouthFor(standIns.getState(), record.arch)), createLive },
  { request: (callback) => window.requestAnimationFrame(callback), cancel: (handle) => window.cancelAnimationFrame(handle) },
  browserIdle,
  afterRest,
  shared === null ? saved.start : guestStart(shared, saved.start.settings),
  (state) => describeSelected(state) ?? sayPage('cannotRest'),
);
const records = createRecords(session.store, shelf, shared === null ? saved : { revision: 0, own: false, guest: true });
const guest = createGuest(session.store, records, { picture: shared, from: isFile ? 'file' : 'link', refused: arrival.kind === 'refused' ? arrival.message : null, place: { ...saved.start, own: saved.own } }, forgetAddress);
keepPage(session.store, window, () => records.current().guest);
soundAlong(session);
standInAlong(session.store, standIns, afterRest);
records.onRemoved((player) => {
  void import('./scans/forgetLeftScan').then(({ forgetLeftScan }) => forgetLeftScan(player, shelf, () => session.store.getState().player)).catch(() => undefined);
});
watchAddress(guest);
const offline = offlineOfPage(window);
// What the shelf itself has to say stands on the page as long as it is true.
if (saved.message !== null && saved.message !== shelf.message) session.store.getState().notify(saved.message);
if (notSpoken !== null) session.store.getState().notify(notSpoken);

const root = document.getElementById('root');
if (root === null) throw new Error('index.html has no element with the id "root"');
createRoot(root).render(
  <StrictMode>
    <SessionContext value={session}>
      <RecordsContext value={records}>
        <GuestContext value={guest}>
          <StandInsContext value={standIns}>
            <App offline={offline} />
          </StandInsContext>
        </GuestContext>
      </RecordsContext>
    </SessionContext>
  </StrictMode>,
);
// One file opens on a moving path, as the page does when it is new here.
const showsItself = shared === null ? saved.firstVisit : isFile;
if (showsItself && !prefersReducedMotion()) session.playhead.play();

import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { analyse } from '../core/analyse';
import { createLive } from '../core/live';
import { openShelf } from '../records/shelf';
import { App } from './App';
import { SessionContext } from './SessionContext';
import { prefersReducedMotion } from './capabilities';
import { afterRest, browserIdle } from './idle';
import { describeSelected } from './describe';
import { offlineOfPage } from './offlinePage';
import { RecordsContext } from './RecordsContext';
import { keepPage, loadStart } from './persistence';
import { createRecords } from './records';
import { createSession } from './session';
import { soundAlong } from './sounding';
import '../staff/signs/signs.css';
import './styles/fonts.css';
import './styles/theme.css';
import './styles/base.css';
import './styles/page.css';
import './styles/notebook.css';
import './styles/readings.css';
import './styles/kept.css';

const shelf = await openShelf();
const saved = await loadStart(shelf);
const session = createSession(
  { analyse, createLive },
  { request: (callback) => window.requestAnimationFrame(callback), cancel: (handle) => window.cancelAnimationFrame(handle) },
  browserIdle,
  afterRest,
  saved.start,
  (state) => describeSelected(state) ?? 'The rim cannot rest there.',
);
const records = createRecords(session.store, shelf, saved);
keepPage(session.store, window);
soundAlong(session);
const offline = offlineOfPage(window);
// What the shelf itself has to say stands on the page as long as it is true.
if (saved.message !== null && saved.message !== shelf.message) session.store.getState().notify(saved.message);

const root = document.getElementById('root');
if (root === null) throw new Error('index.html has no element with the id "root"');
createRoot(root).render(
  <StrictMode>
    <SessionContext value={session}>
      <RecordsContext value={records}>
        <App offline={offline} />
      </RecordsContext>
    </SessionContext>
  </StrictMode>,
);
if (saved.firstVisit && !prefersReducedMotion()) session.playhead.play();

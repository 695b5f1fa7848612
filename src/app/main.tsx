import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { analyse } from '../core/analyse';
import { createLive } from '../core/live';
import { App } from './App';
import { SessionContext } from './SessionContext';
import { prefersReducedMotion } from './capabilities';
import { afterRest, browserIdle } from './idle';
import { describeSelected } from './describe';
import { keepSaved, loadStart } from './persistence';
import { createSession } from './session';
import { soundAlong } from './sounding';
import '../staff/signs/signs.css';
import './styles/fonts.css';
import './styles/theme.css';
import './styles/base.css';
import './styles/page.css';
import './styles/notebook.css';

const saved = loadStart();
const session = createSession(
  { analyse, createLive },
  { request: (callback) => window.requestAnimationFrame(callback), cancel: (handle) => window.cancelAnimationFrame(handle) },
  browserIdle,
  afterRest,
  saved.start,
  (state) => describeSelected(state) ?? 'The rim cannot rest there.',
);
keepSaved(session.store, window);
soundAlong(session);
if (saved.message !== null) session.store.getState().notify(saved.message);

const root = document.getElementById('root');
if (root === null) throw new Error('index.html has no element with the id "root"');
createRoot(root).render(
  <StrictMode>
    <SessionContext value={session}>
      <App />
    </SessionContext>
  </StrictMode>,
);
if (saved.firstVisit && !prefersReducedMotion()) session.playhead.play();

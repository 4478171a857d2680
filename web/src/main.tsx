// Starts the page.
import { render } from 'preact';
import { cutOff } from './api/client';
import { App } from './app';
import { listenForScans } from './benches/scan_listener';
import { startOutbox } from './outbox/outbox';
import { followLinks } from './route';
import { followPreferences } from './session/preferences';
import { loadSession, sessionUnknown } from './session/session';
import './style/base.css';
import './style/widgets.css';
import './style/job.css';
import './style/section.css';
import './style/step.css';
import './style/proof.css';
import './style/sweep.css';
import './style/screens.css';
import { askUntilBack } from './api/heartbeat';
import { whenIdle } from './widgets/turn';

followPreferences();
followLinks();
listenForScans();
askUntilBack();
cutOff.subscribe((off) => {
  if (!off && sessionUnknown.value) void loadSession();
});

/** Most often the session is here before this script is; then the first screen is drawn once. */
const sessionPatienceMs = 100;
const asked = loadSession();
void asked.then(startOutbox);
void Promise.race([asked, new Promise((done) => setTimeout(done, sessionPatienceMs))]).finally(() => {
  const page = document.getElementById('page');
  if (page) render(<App />, page);
});

if ('serviceWorker' in navigator && window.isSecureContext && import.meta.env.PROD)
  window.addEventListener('load', () => whenIdle(() => void navigator.serviceWorker.register('/sw.js')));

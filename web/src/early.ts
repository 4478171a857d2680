// Asks for what the first screen is made of while the page itself is still on its way: a small script of its own, the
// first in the markup. Shares no code with the page, else it would have to wait for it; api/asked_early.ts takes over.
import type { AskedEarly } from './api/asked_early';

(() => {
  const asked = new Map<string, AskedEarly>();

  const ask = (path: string) => {
    const giveUp = new AbortController();
    const headers = { Accept: 'application/json' };
    const answer = fetch(path, { headers, credentials: 'same-origin', signal: giveUp.signal });
    // Who takes the answer hears that there was none; nobody need take it.
    answer.catch(() => {});
    asked.set(path, { answer, giveUp });
  };

  /** Data are only asked for where somebody signed in; whether that still holds the server says. */
  const somebodySignedIn = () => {
    try {
      return Boolean(localStorage.getItem('pumpwright/person'));
    } catch {
      return false;
    }
  };

  ask('/api/session');
  const job = /^\/job\/([^/]+)/.exec(location.pathname);
  if (somebodySignedIn()) {
    if (job) ask(`/api/jobs/${job[1]}`);
    else if (location.pathname === '/') ask('/api/jobs');
  }
  window.pumpwrightAsked = asked;
})();

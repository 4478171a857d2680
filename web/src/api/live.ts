// Tells when something changed on the server, so that two tablets on one job see each other's readings.
import { get } from './client';

export interface Change {
  seq: number;
  type?: string;
  actor?: string;
  check?: string;
  stream?: string;
}

/**
 * Listens until the returned function is called. The browser reconnects by itself; `onOpen` is called at every
 * connection, since changes may have been missed before it.
 */
export function listen(path: string, onChange: (change: Change) => void, onOpen: () => void): () => void {
  if (typeof EventSource === 'undefined') return () => {};
  let source: EventSource | null = null;
  let timer: ReturnType<typeof setTimeout> | null = null;
  let pauseMs = 1000;
  const connect = () => {
    source = new EventSource(path);
    source.addEventListener('open', () => {
      pauseMs = 1000;
      onOpen();
    });
    source.addEventListener('change', (event) => {
      try {
        onChange(JSON.parse((event as MessageEvent<string>).data) as Change);
      } catch {
        onOpen();
      }
    });
    source.addEventListener('error', () => {
      // The browser does not say why; asking for anything tells whether we are cut off.
      void get('/api/health').catch(() => {});
      if (source?.readyState !== EventSource.CLOSED) return;
      timer = setTimeout(connect, pauseMs);
      pauseMs = Math.min(pauseMs * 2, 30_000);
    });
  };
  connect();
  return () => {
    if (timer) clearTimeout(timer);
    source?.close();
  };
}

// While cut off, asks now and then whether the server is back, so that what is kept goes out without anyone waiting.
import { CutOff, cutOff, get } from './client';

const firstPauseMs = 2000;
const longestPauseMs = 20_000;

export function askUntilBack(): void {
  let pause = firstPauseMs;
  let timer: ReturnType<typeof setTimeout> | null = null;
  const ask = async () => {
    timer = null;
    try {
      await get('/api/health');
    } catch (error) {
      if (!(error instanceof CutOff)) return;
      pause = Math.min(pause * 1.6, longestPauseMs);
      timer = setTimeout(ask, pause);
    }
  };
  cutOff.subscribe((off) => {
    if (off && timer === null) timer = setTimeout(ask, pause);
    if (!off) pause = firstPauseMs;
  });
  window.addEventListener('online', () => {
    if (cutOff.value && timer === null) void ask();
  });
}

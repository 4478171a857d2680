// The page's first picture leaves the drawings out, so that the input is there first; they follow one by one when the
// browser has nothing more urgent to do. Later pictures leave nothing out.
import { useEffect, useState } from 'preact/hooks';

const longestWaitMs = 500;

/** Runs `act` when nothing more urgent is to be done. */
export function whenIdle(act: () => void): void {
  if (typeof requestIdleCallback === 'function') requestIdleCallback(act, { timeout: longestWaitMs });
  else setTimeout(act, 50);
}

const waiting: (() => void)[] = [];
let running = false;
let calm = false;

function next(): void {
  const act = waiting.shift();
  if (!act) {
    running = false;
    calm = true;
    return;
  }
  act();
  whenIdle(next);
}

/** False until it is this drawing's turn. */
export function useTurn(): boolean {
  const [mine, setMine] = useState(calm);
  useEffect(() => {
    if (mine) return;
    waiting.push(() => setMine(true));
    if (!running) whenIdle(next);
    running = true;
  }, []);
  return mine;
}

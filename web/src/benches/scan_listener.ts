// A keyboard scanner may type a tag at any time, on any screen: fast keys and Enter open the job. Not while a reading is
// typed: an indicator that acts as a keyboard types just as fast.
import { jobNumberOf, nothingTyped, takeKey } from '../calc/scanner';
import { address, go } from '../route';
import { me } from '../session/session';

export function listenForScans(): void {
  let typed = nothingTyped;
  document.addEventListener(
    'keydown',
    (event) => {
      const target = event.target as HTMLElement | null;
      if (!me.value || target?.closest('[data-typing],.check-card,form,[role=dialog]')) {
        typed = nothingTyped;
        return;
      }
      const step = takeKey(typed, event.key, event.timeStamp);
      typed = step.typed;
      if (step.scanned === null) return;
      event.preventDefault();
      go(address.job(jobNumberOf(step.scanned)));
    },
    true,
  );
}

// What a screen reader is told when a verdict comes in or the connection goes.
import { signal } from '@preact/signals';

const words = signal('');

export function announce(text: string): void {
  words.value = '';
  setTimeout(() => {
    words.value = text;
  }, 50);
}

export function Announcements() {
  return (
    <div class="unseen" role="status" aria-live="polite">
      {words.value}
    </div>
  );
}

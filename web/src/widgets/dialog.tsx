// A dialog that keeps the keyboard inside and gives the focus back; closes on Escape.
import type { ComponentChildren } from 'preact';
import { useEffect, useId, useRef } from 'preact/hooks';
import { t } from '../text/text';

const focusable =
  'a[href],button:not([disabled]),input:not([disabled]),select,textarea,summary,[tabindex="0"]';

export function Dialog(props: { title: string; onClose: () => void; children: ComponentChildren }) {
  const box = useRef<HTMLDivElement>(null);
  const id = useId();
  useEffect(() => {
    const before = document.activeElement as HTMLElement | null;
    const scroll = document.documentElement.classList;
    scroll.add('dialog-open');
    box.current?.querySelector<HTMLElement>('[data-first]')?.focus();
    if (!box.current?.contains(document.activeElement)) box.current?.focus();
    return () => {
      scroll.remove('dialog-open');
      before?.focus();
    };
  }, []);
  const onKey = (event: KeyboardEvent) => {
    if (event.key === 'Escape') {
      event.stopPropagation();
      props.onClose();
    }
    if (event.key !== 'Tab' || !box.current) return;
    const all = [...box.current.querySelectorAll<HTMLElement>(focusable)];
    const first = all[0];
    const last = all[all.length - 1];
    const at = document.activeElement;
    if (event.shiftKey && (at === first || at === box.current)) {
      event.preventDefault();
      last?.focus();
    } else if (!event.shiftKey && at === last) {
      event.preventDefault();
      first?.focus();
    }
  };
  return (
    <div class="dialog-back">
      <div
        class="dialog"
        role="dialog"
        aria-modal="true"
        aria-labelledby={id}
        tabIndex={-1}
        ref={box}
        onKeyDown={onKey}
      >
        <header class="dialog-head">
          <h2 id={id}>{props.title}</h2>
          <button type="button" class="button button-plain" onClick={props.onClose}>
            {t('close')}
          </button>
        </header>
        {props.children}
      </div>
    </div>
  );
}

// Where a sweep's numbers arrive: from an indicator that acts as a keyboard, from the pad, from a serial line, by hand.
// Wherever the focus is within, characters go to the reading and Enter takes it to the next place.
import type { ComponentChildren } from 'preact';
import { useRef } from 'preact/hooks';
import { isReadingKey } from '../calc/typed_number';

export interface TypingProps {
  text: string;
  label: string;
  onText: (text: string) => void;
  onEnter: () => void;
  /** Backspace with nothing typed. */
  onUndo: () => void;
  /** Arrow keys move the lit place. */
  onMove: (by: 1 | -1) => void;
  children: ComponentChildren;
  error: string | null;
}

export function Typing(props: TypingProps) {
  const input = useRef<HTMLInputElement>(null);
  // Keys can come faster than the page is drawn again: an indicator sends a whole number in a few milliseconds.
  const now = useRef(props.text);
  now.current = props.text;
  const set = (text: string) => {
    now.current = text;
    props.onText(text);
  };
  const onKey = (event: KeyboardEvent) => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const typed = now.current;
    const inField = event.target === input.current;
    if (event.key === 'Enter') {
      if (typed === '' && !inField) return;
      props.onEnter();
    } else if (event.key === 'Backspace') {
      if (typed === '') props.onUndo();
      else set(typed.slice(0, -1));
    } else if (event.key === 'ArrowRight' || event.key === 'ArrowLeft') {
      props.onMove(event.key === 'ArrowRight' ? 1 : -1);
    } else if (isReadingKey(event.key)) {
      if (event.key === ' ' && typed === '') return;
      set(typed + event.key);
      input.current?.focus();
    } else return;
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <div class="typing" data-typing onKeyDown={onKey}>
      <div class="readout">
        <label for="sweep-typed">{props.label}</label>
        <input
          id="sweep-typed"
          ref={input}
          class="readout-input"
          value={props.text}
          inputMode="none"
          autocomplete="off"
          aria-invalid={props.error ? 'true' : undefined}
          aria-describedby={props.error ? 'sweep-typed-error' : undefined}
          onInput={(e) => set(e.currentTarget.value)}
        />
      </div>
      {props.error && (
        <p class="field-error" id="sweep-typed-error" role="alert">
          {props.error}
        </p>
      )}
      {props.children}
    </div>
  );
}

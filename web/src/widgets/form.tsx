// Fields, choices and messages shared by every form: label above, error below and tied to its field.
import type { ComponentChildren, JSX } from 'preact';
import { useId } from 'preact/hooks';
import type { ServerError } from '../api/types';
import { say } from '../session/preferences';
import { t } from '../text/text';

export function errorText(error: ServerError): string {
  const valid = error.valid ? ` ${t('validWouldBe', { valid: error.valid })}` : '';
  return say(error.text) + valid;
}

/** True when the error names this field, as a plain name or at the end of a JSON pointer. */
export function isAbout(error: ServerError | null, field: string): boolean {
  if (!error?.field) return false;
  return error.field === field || error.field.endsWith(`/${field}`) || error.field.endsWith(`.${field}`);
}

export interface FieldProps {
  label: string;
  value: string;
  onValue: (value: string) => void;
  error?: string | null;
  hint?: string;
  type?: string;
  autoComplete?: string;
  inputMode?: JSX.HTMLAttributes<HTMLInputElement>['inputMode'];
  list?: readonly string[];
  required?: boolean;
  big?: boolean;
  disabled?: boolean;
  inputRef?: { current: HTMLInputElement | null };
}

export function Field(props: FieldProps) {
  const id = useId();
  const described = [props.error ? `${id}-error` : '', props.hint ? `${id}-hint` : '']
    .filter(Boolean)
    .join(' ');
  return (
    <div class={`field${props.big ? ' field-big' : ''}`}>
      <label for={id}>{props.label}</label>
      {props.hint && (
        <p class="hint" id={`${id}-hint`}>
          {props.hint}
        </p>
      )}
      <input
        id={id}
        ref={props.inputRef ?? null}
        type={props.type ?? 'text'}
        value={props.value}
        autocomplete={props.autoComplete ?? 'off'}
        autocapitalize="off"
        spellcheck={false}
        inputMode={props.inputMode}
        list={props.list ? `${id}-list` : undefined}
        required={props.required}
        disabled={props.disabled}
        aria-invalid={props.error ? 'true' : undefined}
        aria-describedby={described || undefined}
        onInput={(e) => props.onValue(e.currentTarget.value)}
      />
      {props.list && (
        <datalist id={`${id}-list`}>
          {props.list.map((v) => (
            <option key={v} value={v} />
          ))}
        </datalist>
      )}
      {props.error && (
        <p class="field-error" id={`${id}-error`} role="alert">
          {props.error}
        </p>
      )}
    </div>
  );
}

export interface Option {
  value: string;
  label: string;
}

export function Select(props: {
  label: string;
  value: string;
  options: readonly Option[];
  onValue: (value: string) => void;
  error?: string | null;
  empty?: string;
}) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{props.label}</label>
      <select
        id={id}
        value={props.value}
        aria-invalid={props.error ? 'true' : undefined}
        aria-describedby={props.error ? `${id}-error` : undefined}
        onChange={(e) => props.onValue(e.currentTarget.value)}
      >
        {props.empty !== undefined && <option value="">{props.empty}</option>}
        {props.options.map((o) => (
          <option key={o.value} value={o.value}>
            {o.label}
          </option>
        ))}
      </select>
      {props.error && (
        <p class="field-error" id={`${id}-error`} role="alert">
          {props.error}
        </p>
      )}
    </div>
  );
}

export function TextArea(props: { label: string; value: string; onValue: (value: string) => void }) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{props.label}</label>
      <textarea id={id} rows={3} value={props.value} onInput={(e) => props.onValue(e.currentTarget.value)} />
    </div>
  );
}

/** One of a few, as large targets in a row; a radio group to the keyboard and to a screen reader. */
export function Choice(props: {
  label: string;
  value: string;
  options: readonly (Option & { picture?: ComponentChildren; hint?: string })[];
  onValue: (value: string) => void;
  hideLabel?: boolean;
}) {
  const name = useId();
  return (
    <fieldset class="choice">
      <legend class={props.hideLabel ? 'unseen' : ''}>{props.label}</legend>
      <div class="choice-row">
        {props.options.map((o) => (
          <label key={o.value} class={`choice-card${o.value === props.value ? ' chosen' : ''}`}>
            <input
              type="radio"
              name={name}
              value={o.value}
              checked={o.value === props.value}
              onChange={() => props.onValue(o.value)}
            />
            {o.picture}
            <span class="choice-word">{o.label}</span>
            {o.hint && <span class="hint">{o.hint}</span>}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

export function Notice({
  kind,
  children,
}: {
  kind: 'caution' | 'error' | 'plain';
  children: ComponentChildren;
}) {
  return (
    <div class={`notice notice-${kind}`} role={kind === 'error' ? 'alert' : undefined}>
      {kind === 'caution' && (
        <svg class="notice-icon" viewBox="0 0 24 24" aria-hidden="true">
          <path d="M12 2.5L23 21.5H1Z" class="caution-shape" />
          <path d="M12 9v6M12 17.4v1.6" class="caution-bar" />
        </svg>
      )}
      <div>{children}</div>
    </div>
  );
}

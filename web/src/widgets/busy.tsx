// Progress for anything that takes longer than a second; shorter waits show nothing, so that the page does not flicker.
import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { t } from '../text/text';

export function Busy({ what }: { what?: string }) {
  const [shown, setShown] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setShown(true), 700);
    return () => clearTimeout(timer);
  }, []);
  if (!shown) return null;
  return (
    <div class="busy" role="status">
      <span class="busy-bar" aria-hidden="true" />
      {what ?? t('working')}
    </div>
  );
}

/** A button that shows it is at work and can not be pressed twice meanwhile. */
export function WorkButton(props: {
  onPress: () => Promise<void> | void;
  kind?: 'main' | 'plain' | 'danger';
  disabled?: boolean;
  submit?: boolean;
  children: ComponentChildren;
}) {
  const [working, setWorking] = useState(false);
  const press = async () => {
    if (working) return;
    setWorking(true);
    try {
      await props.onPress();
    } finally {
      setWorking(false);
    }
  };
  return (
    <button
      type={props.submit ? 'submit' : 'button'}
      class={`button button-${props.kind ?? 'plain'}`}
      disabled={props.disabled}
      aria-busy={working}
      onClick={props.submit ? undefined : () => void press()}
    >
      {props.children}
    </button>
  );
}

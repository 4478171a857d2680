// Changes to the shop as events, and the one way their forms show what came of it.
import { useState } from 'preact/hooks';
import type { ServerError } from '../api/types';
import { dismiss, keptOf, record } from '../outbox/outbox';
import { t } from '../text/text';
import { errorText, Notice } from '../widgets/form';

export interface ShopAct {
  error: ServerError | null;
  said: string | null;
  /** True when it was accepted or is kept to be sent. */
  run: (type: string, payload: object) => Promise<boolean>;
}

export function useShopAct(): ShopAct {
  const [error, setError] = useState<ServerError | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const run = async (type: string, payload: object) => {
    setError(null);
    setSaid(null);
    const outcome = await record({ stream: 'shop', type, payload });
    if (outcome.state === 'refused') {
      setError(outcome.error);
      // The form still holds what was entered and shows why; a copy in the outbox would only be in the way.
      const text = JSON.stringify(payload);
      for (const k of keptOf('shop')) if (k.state === 'refused' && k.payload === text) await dismiss(k);
      return false;
    }
    setSaid(outcome.state === 'kept' ? t('keptOnTabletPlain') : t('saved'));
    return true;
  };
  return { error, said, run };
}

export function ActResult({ act }: { act: ShopAct }) {
  return (
    <>
      {act.error && <Notice kind="error">{errorText(act.error)}</Notice>}
      {act.said && <p role="status">{act.said}</p>}
    </>
  );
}

// The shop itself: people, tablets, instruments, limits, pump sheets, step texts, and who changed what.
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { CutOff, get, Refused } from '../api/client';
import type { ServerError, ShopView } from '../api/types';
import { whenSent } from '../outbox/outbox';
import { address } from '../route';
import { say, timeText } from '../session/preferences';
import { Banner, Header } from '../shell';
import { type TextKey, t } from '../text/text';
import { Busy } from '../widgets/busy';
import { errorText, Notice } from '../widgets/form';
import { Instruments } from './instruments';
import { Limits } from './limits';
import { OldRecords } from './old_records';
import { Devices, People } from './people';
import { Sheets, StepTexts } from './sheets';

const shop = signal<ShopView | null>(null);
const shopError = signal<ServerError | null>(null);
const shopCutOff = signal(false);

export async function refreshShop(): Promise<void> {
  try {
    shop.value = await get<ShopView>('/api/shop');
    shopError.value = null;
    shopCutOff.value = false;
  } catch (error) {
    if (error instanceof Refused) shopError.value = error.error;
    else if (error instanceof CutOff) shopCutOff.value = true;
    else throw error;
  }
}

const parts: [string, TextKey][] = [
  ['people', 'people'],
  ['devices', 'devices'],
  ['instruments', 'instruments'],
  ['limits', 'limits'],
  ['sheets', 'sheets'],
  ['texts', 'stepTexts'],
  ['old', 'oldRecords'],
  ['log', 'whoChangedWhat'],
];

function Log({ view }: { view: ShopView }) {
  const lines = [...view.log].sort((a, b) => b.seq - a.seq);
  return (
    <section class="panel">
      <h2>{t('whoChangedWhat')}</h2>
      <ol class="log" tabIndex={0} aria-label={t('whoChangedWhat')}>
        {lines.map((l) => (
          <li key={l.seq}>
            <span class="who">
              {timeText(l.at)} · {l.actor}
            </span>
            {say(l.text)}
          </li>
        ))}
      </ol>
    </section>
  );
}

function Part({ part, view }: { part: string; view: ShopView }) {
  const done = () => void refreshShop();
  switch (part) {
    case 'devices':
      return <Devices view={view} onDone={done} />;
    case 'instruments':
      return <Instruments view={view} />;
    case 'limits':
      return <Limits view={view} />;
    case 'sheets':
      return <Sheets view={view} />;
    case 'texts':
      return <StepTexts view={view} />;
    case 'old':
      return <OldRecords view={view} />;
    case 'log':
      return <Log view={view} />;
    default:
      return <People view={view} onDone={done} />;
  }
}

export function ShopPage({ part }: { part: string }) {
  useEffect(() => {
    void refreshShop();
    return whenSent((stream) => {
      if (stream === 'shop') void refreshShop();
    });
  }, []);
  const view = shop.value;
  return (
    <>
      <Header title={t('shop')} sub={view?.name ?? ''} />
      <Banner />
      <main id="main" class="shop">
        <h1>{t('shop')}</h1>
        <nav class="check-tabs" aria-label={t('shopParts')}>
          {parts.map(([word, key]) => (
            <a key={word} href={address.shop(word)} aria-current={word === part ? 'page' : undefined}>
              {t(key)}
            </a>
          ))}
        </nav>
        {shopError.value && <Notice kind="error">{errorText(shopError.value)}</Notice>}
        {shopCutOff.value && <Notice kind="plain">{t('noAnswer')}</Notice>}
        {!view && !shopError.value && !shopCutOff.value && <Busy />}
        {view && <Part part={part} view={view} />}
      </main>
    </>
  );
}

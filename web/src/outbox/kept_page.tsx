// Everything this tablet still holds: what waits for the network, and what the server refused, with its reason.
import type { ReadingPayload } from '../api/types';
import { rawText } from '../job/raw_reading';
import { address } from '../route';
import { timeText } from '../session/preferences';
import { Banner, Header } from '../shell';
import { type TextKey, t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { errorText, Notice } from '../widgets/form';
import { NotJudged } from '../widgets/verdict';
import { dismiss, flush, type Kept, kept, tryAgain } from './outbox';

const names: Record<string, TextKey> = {
  reading: 'eventReading',
  'step-done': 'eventStepDone',
  'hold-released': 'eventHoldReleased',
  'deviation-accepted': 'eventDeviation',
  note: 'eventNote',
  'attachment-added': 'eventPhoto',
  placed: 'eventPlaced',
  waiting: 'eventWaiting',
};

function what(item: Kept): string {
  const name = names[item.type];
  const payload = JSON.parse(item.payload) as Record<string, unknown>;
  const about = payload.check ?? payload.step ?? '';
  const raw = item.type === 'reading' ? rawText(payload as unknown as ReadingPayload) : '';
  return [name ? t(name) : item.type, about, raw].filter(Boolean).join(' · ');
}

function Item({ item }: { item: Kept }) {
  const number = item.stream.startsWith('job/') ? item.stream.slice(4) : null;
  return (
    <li class="kept-item">
      <p>
        {number && <a href={address.job(number)}>{number}</a>} <span class="written">{what(item)}</span>
      </p>
      <p class="who">
        {item.person} · {timeText(item.at)}
      </p>
      {item.state === 'waiting' ? (
        <NotJudged />
      ) : (
        item.error && <Notice kind="error">{errorText(item.error)}</Notice>
      )}
      {item.state === 'refused' && (
        <div class="row">
          <WorkButton onPress={() => tryAgain(item)}>{t('tryAgain')}</WorkButton>
          <WorkButton kind="danger" onPress={() => dismiss(item)}>
            {t('letGo')}
          </WorkButton>
        </div>
      )}
    </li>
  );
}

export function KeptPage() {
  return (
    <>
      <Header title={t('keptTitle')} />
      <Banner />
      <main id="main" class="narrow">
        <h1>{t('keptTitle')}</h1>
        <p>{t('keptWhat')}</p>
        {kept.value.length === 0 ? (
          <p class="quiet">{t('keptNothing')}</p>
        ) : (
          <WorkButton onPress={flush}>{t('sendNow')}</WorkButton>
        )}
        <ul class="plain-list">
          {kept.value.map((item) => (
            <Item key={item.key} item={item} />
          ))}
        </ul>
      </main>
    </>
  );
}

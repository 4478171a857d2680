// Benches today: what is on which bench, what waits for what, what failed, and what comes next on each.
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import { CutOff, get, Refused } from '../api/client';
import { listen } from '../api/live';
import type { JobCard, ServerError } from '../api/types';
import { keepView, keptView } from '../outbox/kept_views';
import { keptOf } from '../outbox/outbox';
import { address } from '../route';
import { say, timeText } from '../session/preferences';
import { mayOpenJobs, session } from '../session/session';
import { Banner, Header } from '../shell';
import { t } from '../text/text';
import { Busy } from '../widgets/busy';
import { errorText, Notice } from '../widgets/form';
import { VerdictIcon } from '../widgets/verdict';
import { Find } from './find';

interface Today {
  jobs: JobCard[];
  at: string;
}

const today = signal<Today | null>(null);
const todayError = signal<ServerError | null>(null);
const notNow = signal(false);

let asking: Promise<void> | null = null;
let stale = false;

function refresh(): Promise<void> {
  stale = true;
  asking ??= (async () => {
    try {
      while (stale) {
        stale = false;
        await askOnce();
      }
    } finally {
      asking = null;
    }
  })();
  return asking;
}

async function askOnce(): Promise<void> {
  try {
    today.value = await get<Today>('/api/jobs');
    todayError.value = null;
    notNow.value = false;
    await keepView('benches', today.value);
  } catch (error) {
    if (error instanceof Refused) todayError.value = error.error;
    else if (error instanceof CutOff) {
      notNow.value = true;
      today.value ??= (await keptView<Today>('benches')) ?? null;
    } else throw error;
  }
}

const byBench = new Intl.Collator(undefined, { numeric: true });

function inOrder(jobs: readonly JobCard[]): JobCard[] {
  return [...jobs].sort((a, b) => {
    if (!a.bench !== !b.bench) return a.bench ? -1 : 1;
    return byBench.compare(a.bench ?? '', b.bench ?? '') || byBench.compare(a.number, b.number);
  });
}

function Progress({ card }: { card: JobCard }) {
  const { pass, fail, unproven, not_taken } = card.counts;
  const parts = [
    ['pass', pass],
    ['fail', fail],
    ['unproven', unproven],
    ['not-taken', not_taken],
  ] as const;
  const total = pass + fail + unproven + not_taken || 1;
  let x = 0;
  return (
    <>
      <svg class="progress" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
        {parts.map(([verdict, count]) => {
          const width = (count / total) * 100;
          const bar = <rect key={verdict} class={`bar-${verdict}`} x={x} y="0" width={width} height="6" />;
          x += width;
          return bar;
        })}
      </svg>
      <ul class="counts counts-small">
        {parts
          .filter(([verdict, count]) => count > 0 || verdict === 'pass')
          .map(([verdict, count]) => (
            <li key={verdict}>
              <VerdictIcon verdict={verdict} />
              <strong>{count}</strong>
              <span class="unseen">{t(verdict === 'not-taken' ? 'notTaken' : verdict)}</span>
            </li>
          ))}
      </ul>
    </>
  );
}

function Card({ card }: { card: JobCard }) {
  const failing = card.failing[0];
  const kept = keptOf(`job/${card.number}`).length;
  return (
    <li class={`bench-card${card.failing.length > 0 ? ' bench-failing' : ''}`}>
      <p class="bench-name">
        {card.bench ? (
          <>
            <span>{t('bench')}</span> <strong>{card.bench}</strong>
          </>
        ) : (
          <span>{t('noBench')}</span>
        )}
      </p>
      <h2>
        <a class="card-link" href={address.job(card.number)}>
          {card.number}
        </a>
      </h2>
      <p class="bench-pump">
        <strong>{card.customer}</strong>
        <span>
          {card.pump} · {card.serial}
        </span>
      </p>
      <Progress card={card} />
      {failing && (
        <p class="bench-line bench-fails">
          <VerdictIcon verdict="fail" />
          <a href={address.step(card.number, failing.step)}>{say(failing.title)}</a>
          {card.failing.length > 1 && <span>{t('andMore', { count: card.failing.length - 1 })}</span>}
        </p>
      )}
      {card.waiting && (
        <p class="bench-line bench-waits">
          <strong>{t('waitsFor')}</strong> {card.waiting}
        </p>
      )}
      {kept > 0 && <p class="bench-line">{t('keptHere', { count: kept })}</p>}
      <p class="bench-next">
        {card.next_step ? (
          <a class="button button-plain" href={address.step(card.number, card.next_step.id)}>
            <span class="next-word">{t('next')}</span> {say(card.next_step.title)}
          </a>
        ) : (
          <a class="button button-plain" href={address.release(card.number)}>
            {t('toRelease')}
          </a>
        )}
      </p>
      <p class="who">
        {card.last_actor} · {timeText(card.last_at)}
      </p>
    </li>
  );
}

export function Benches() {
  useEffect(() => {
    void refresh();
    return listen(
      '/api/changes',
      () => void refresh(),
      () => void refresh(),
    );
  }, []);
  const jobs = today.value ? inOrder(today.value.jobs) : [];
  return (
    <>
      <Header title={t('benchesToday')} sub={session.value?.shop.name ?? ''} />
      <Banner />
      {notNow.value && today.value && (
        <p class="banner">{t('lastKnown', { when: timeText(today.value.at) })}</p>
      )}
      <main id="main" class="benches">
        <h1 class="unseen">{t('benchesToday')}</h1>
        <div class="bench-tools">
          <Find known={jobs} />
          {mayOpenJobs.value && (
            <a class="button button-main" href={address.new}>
              {t('newJob')}
            </a>
          )}
        </div>
        {session.value?.shop.invented && <p class="invented">{t('inventedShop')}</p>}
        {todayError.value && <Notice kind="error">{errorText(todayError.value)}</Notice>}
        {!today.value &&
          !todayError.value &&
          (notNow.value ? <Notice kind="plain">{t('neverSeenHere')}</Notice> : <Busy />)}
        {today.value && jobs.length === 0 && <p class="quiet">{t('noOpenJobs')}</p>}
        <ul class="bench-list">
          {jobs.map((card) => (
            <Card key={card.number} card={card} />
          ))}
        </ul>
      </main>
    </>
  );
}

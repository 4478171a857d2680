// The release: what still stands open, what was accepted, who signs, and the papers that go with the pump.
import { useEffect, useState } from 'preact/hooks';
import { CutOff, jobPath, post, Refused } from '../api/client';
import type { JobView, ServerError } from '../api/types';
import { acceptDeviation, reopen } from '../job/bench_acts';
import { checkOf, openJob, refreshJob, watchJob } from '../job/job_state';
import { nextDeviceSeq } from '../outbox/device_seq';
import { waiting } from '../outbox/outbox';
import { newKey } from '../outbox/uuid';
import { address } from '../route';
import { language, say, timeText } from '../session/preferences';
import { mayAnswerFor, thisDevice } from '../session/session';
import { Banner, Header, Trouble } from '../shell';
import { t } from '../text/text';
import { announce } from '../widgets/announce';
import { Busy, WorkButton } from '../widgets/busy';
import { errorText, Field, isAbout, Notice, Select, TextArea } from '../widgets/form';
import { VerdictIcon } from '../widgets/verdict';

function Open({ view }: { view: JobView }) {
  const [asking, setAsking] = useState<string | null>(null);
  const [reason, setReason] = useState('');
  const [missing, setMissing] = useState(false);
  if (view.open.length === 0) return <Notice kind="plain">{t('nothingOpen')}</Notice>;
  const accept = async (check: string) => {
    setMissing(reason.trim() === '');
    if (reason.trim() === '') return;
    await acceptDeviation(view.number, check, reason.trim());
    setAsking(null);
    setReason('');
  };
  return (
    <ol class="open-points">
      {view.open.map((o) => {
        const check = checkOf(view, o.check);
        const deviates = check && (check.finding.verdict === 'fail' || check.finding.verdict === 'unproven');
        const key = `${o.step}/${o.check ?? ''}/${o.what.en}`;
        return (
          <li key={key}>
            <a
              href={o.check ? address.check(view.number, o.step, o.check) : address.step(view.number, o.step)}
            >
              <VerdictIcon verdict={check?.finding.verdict ?? 'not-taken'} />
              <span>{say(o.what)}</span>
            </a>
            {deviates && mayAnswerFor.value && asking !== key && (
              <button type="button" class="button button-plain" onClick={() => setAsking(key)}>
                {t('acceptDeviation')}
              </button>
            )}
            {check && asking === key && (
              <div class="stack">
                <Field
                  label={t('deviationReason')}
                  value={reason}
                  onValue={setReason}
                  error={missing ? t('sayWhy') : null}
                />
                <div class="row">
                  <WorkButton kind="main" onPress={() => accept(check.id)}>
                    {t('acceptDeviation')}
                  </WorkButton>
                  <button type="button" class="button button-plain" onClick={() => setAsking(null)}>
                    {t('cancel')}
                  </button>
                </div>
              </div>
            )}
          </li>
        );
      })}
    </ol>
  );
}

function Deviations({ view }: { view: JobView }) {
  const accepted = view.checks.filter((c) => c.finding.deviation !== null);
  if (accepted.length === 0) return <p class="quiet">{t('noDeviations')}</p>;
  return (
    <ul class="plain-list">
      {accepted.map((c) => (
        <li key={c.id}>
          <VerdictIcon verdict={c.finding.verdict} /> <strong>{say(c.title)}</strong>:{' '}
          {c.finding.deviation?.reason}
          <span class="who">
            {c.finding.deviation?.actor} · {timeText(c.finding.deviation?.time ?? '')}
          </span>
        </li>
      ))}
    </ul>
  );
}

function Sign({ view }: { view: JobView }) {
  const [statement, setStatement] = useState(t('statementDefault'));
  const [password, setPassword] = useState('');
  const [error, setError] = useState<ServerError | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const keptHere = waiting.value.filter((k) => k.stream === `job/${view.number}`).length;
  const sign = async () => {
    setError(null);
    setSaid(null);
    if (password === '') {
      setSaid(t('passwordNeeded'));
      return;
    }
    try {
      const device = thisDevice.value;
      await post(`${jobPath(view.number)}/sign`, {
        key: newKey(),
        device,
        device_seq: await nextDeviceSeq(device),
        password,
        statement,
      });
      announce(t('released'));
      await refreshJob(view.number);
    } catch (e) {
      if (e instanceof Refused) setError(e.error);
      else if (e instanceof CutOff) setSaid(t('noAnswer'));
      else throw e;
    } finally {
      setPassword('');
    }
  };
  const aboutPassword = error && isAbout(error, 'password') ? errorText(error) : said;
  if (!mayAnswerFor.value) return <p class="quiet">{t('leadHandSigns')}</p>;
  if (view.open.length > 0) return <p class="quiet">{t('openBeforeSign', { count: view.open.length })}</p>;
  return (
    <form
      class="stack"
      onSubmit={(e) => {
        e.preventDefault();
        void sign();
      }}
    >
      {keptHere > 0 && <Notice kind="caution">{t('keptBeforeSign', { count: keptHere })}</Notice>}
      <TextArea label={t('statement')} value={statement} onValue={setStatement} />
      <Field
        label={t('password')}
        type="password"
        autoComplete="current-password"
        value={password}
        onValue={setPassword}
        error={aboutPassword}
      />
      {error && !isAbout(error, 'password') && <Notice kind="error">{errorText(error)}</Notice>}
      <WorkButton kind="main" submit disabled={keptHere > 0} onPress={sign}>
        {t('signAndRelease')}
      </WorkButton>
    </form>
  );
}

function Reopen({ view }: { view: JobView }) {
  const [reason, setReason] = useState('');
  const [said, setSaid] = useState<string | null>(null);
  if (view.state !== 'released' || !mayAnswerFor.value) return null;
  const act = async () => {
    if (reason.trim() === '') {
      setSaid(t('sayWhy'));
      return;
    }
    const outcome = await reopen(view.number, reason.trim());
    setSaid(outcome.state === 'refused' ? errorText(outcome.error) : null);
  };
  return (
    <details>
      <summary>{t('reopen')}</summary>
      <div class="stack">
        <Field label={t('reopenReason')} value={reason} onValue={setReason} error={said} />
        <WorkButton onPress={act}>{t('reopen')}</WorkButton>
      </div>
    </details>
  );
}

function Papers({ view }: { view: JobView }) {
  const [paper, setPaper] = useState('a4');
  const base = jobPath(view.number);
  const files = [
    {
      href: `${base}/record.pdf?language=${language.value}&paper=${paper}`,
      name: `${view.number}.pdf`,
      label: t('recordPdf'),
    },
    {
      href: `${base}/readings.csv?language=${language.value}`,
      name: `${view.number}.readings.csv`,
      label: t('readingsCsv'),
    },
    {
      href: `${base}/readings.qif?language=${language.value}`,
      name: `${view.number}.readings.qif`,
      label: t('readingsQif'),
    },
    { href: `${base}/record.json`, name: `${view.number}.json`, label: t('recordJson') },
    { href: `${base}/tag.svg`, name: `${view.number}-tag.svg`, label: t('tag') },
  ];
  return (
    <>
      <Select
        label={t('paper')}
        value={paper}
        options={[
          { value: 'a4', label: t('paperA4') },
          { value: 'letter', label: t('paperLetter') },
        ]}
        onValue={setPaper}
      />
      <div class="row">
        {files.map((f) => (
          <a key={f.name} class="button button-plain" href={f.href} download={f.name}>
            {f.label}
          </a>
        ))}
      </div>
    </>
  );
}

export function ReleasePage({ number }: { number: string }) {
  useEffect(() => watchJob(number), [number]);
  const job = openJob.value;
  const view = job?.number === number ? job.view : null;
  if (job?.error && !view) return <Trouble text={say(job.error.text)} />;
  return (
    <>
      <Header
        title={t('releaseOf', { number })}
        sub={view?.header.customer ?? ''}
        back={address.job(number)}
      />
      <Banner />
      <main id="main" class="release">
        <h1>{t('releaseOf', { number })}</h1>
        {!view && (job?.cutOff ? <Notice kind="plain">{t('neverSeenHere')}</Notice> : <Busy />)}
        {view && (
          <>
            <p class="row">
              <a class="button button-plain" href={address.job(number)}>
                ← {t('backToJob')}
              </a>
            </p>
            <section class="panel">
              <h2>{t('openPoints')}</h2>
              <Open view={view} />
            </section>
            <section class="panel">
              <h2>{t('deviations')}</h2>
              <Deviations view={view} />
            </section>
            <section class="panel">
              <h2>{t('signatures')}</h2>
              <ul class="plain-list">
                {view.signatures.map((s) => (
                  <li key={s.seq}>
                    <strong>{s.initials}</strong> · {timeText(s.at)}
                    <br />
                    {s.statement}
                    <span class="who written">{s.head.slice(0, 16)}…</span>
                  </li>
                ))}
              </ul>
              {view.state === 'released' ? <p class="quiet">{t('isReleased')}</p> : <Sign view={view} />}
              <Reopen view={view} />
            </section>
            <section class="panel">
              <h2>{t('papers')}</h2>
              <Papers view={view} />
            </section>
            <section class="panel">
              <h2>{t('whatHappened')}</h2>
              <ol class="log" tabIndex={0} aria-label={t('whatHappened')}>
                {[...view.log].reverse().map((l) => (
                  <li key={l.seq}>
                    <span class="who">
                      {timeText(l.at)} · {l.actor}
                    </span>
                    {say(l.text)}
                  </li>
                ))}
              </ol>
            </section>
          </>
        )}
      </main>
    </>
  );
}

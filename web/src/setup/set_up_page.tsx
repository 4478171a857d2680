// Setting up a job: the make-up on one side, the plan and the section growing on the other.
import { useEffect, useState } from 'preact/hooks';
import { CutOff, get, post, Refused } from '../api/client';
import type { EarlierJob, MakeUp, MakeUpForm, PlanPreview, ServerError } from '../api/types';
import { Section } from '../job/section';
import { nextDeviceSeq } from '../outbox/device_seq';
import { newKey } from '../outbox/uuid';
import { address, go } from '../route';
import { say, timeText } from '../session/preferences';
import { mayOpenJobs, thisDevice } from '../session/session';
import { PlannedSheets } from '../sheets/planned_sheets';
import { Banner, Header } from '../shell';
import { t } from '../text/text';
import { Busy, WorkButton } from '../widgets/busy';
import { Choice, errorText, Field, isAbout, Notice } from '../widgets/form';
import { MakeUpFields } from './make_up_fields';
import { emptyMakeUp, isPlannable, tidyMakeUp } from './tidy_make_up';

const pauseMs = 450;

interface HeaderFields {
  number: string;
  customer: string;
  pump: string;
  serial: string;
  reason: string;
  /** "fault", "other", or empty: not said. */
  came_for: string;
  bench: string;
}

const emptyHeader: HeaderFields = {
  number: '',
  customer: '',
  pump: '',
  serial: '',
  reason: '',
  came_for: '',
  bench: '',
};

function usePreview(makeUp: MakeUp): {
  preview: PlanPreview | null;
  error: ServerError | null;
  asking: boolean;
} {
  const [preview, setPreview] = useState<PlanPreview | null>(null);
  const [error, setError] = useState<ServerError | null>(null);
  const [asking, setAsking] = useState(false);
  const asked = JSON.stringify(tidyMakeUp(makeUp));
  useEffect(() => {
    if (!isPlannable(makeUp)) return;
    const stop = new AbortController();
    const timer = setTimeout(async () => {
      setAsking(true);
      try {
        const got = await post<PlanPreview>(
          '/api/plan-preview',
          { make_up: JSON.parse(asked) },
          { signal: stop.signal },
        );
        if (got.error) setError(got.error);
        else {
          setPreview(got);
          setError(null);
        }
      } catch (e) {
        if (stop.signal.aborted) return;
        if (e instanceof Refused) setError(e.error);
        else if (!(e instanceof CutOff)) throw e;
      } finally {
        if (!stop.signal.aborted) setAsking(false);
      }
    }, pauseMs);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [asked]);
  return { preview, error, asking };
}

/** Earlier builds of this pump; one tap fills the form from one of them. */
function Earlier({ header, onCopy }: { header: HeaderFields; onCopy: (job: EarlierJob) => void }) {
  const [jobs, setJobs] = useState<EarlierJob[]>([]);
  const { pump, serial } = header;
  useEffect(() => {
    if (pump.trim() === '' && serial.trim() === '') {
      setJobs([]);
      return;
    }
    const stop = new AbortController();
    const timer = setTimeout(async () => {
      const query = `/api/earlier?pump=${encodeURIComponent(pump)}&serial=${encodeURIComponent(serial)}`;
      try {
        setJobs((await get<{ jobs: EarlierJob[] }>(query, { signal: stop.signal })).jobs);
      } catch (e) {
        if (stop.signal.aborted || e instanceof CutOff || e instanceof Refused) return;
        throw e;
      }
    }, pauseMs);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [pump, serial]);
  if (jobs.length === 0) return null;
  return (
    <div class="earlier">
      <p>{t('earlierBuilds')}</p>
      <div class="row">
        {jobs.slice(0, 5).map((j) => (
          <button type="button" class="button button-plain" key={j.number} onClick={() => onCopy(j)}>
            {t('fillFrom', { number: j.number, when: timeText(j.opened) })}
          </button>
        ))}
      </div>
    </div>
  );
}

function CopyFrom({ onCopy }: { onCopy: (job: EarlierJob) => void }) {
  const [number, setNumber] = useState('');
  const [said, setSaid] = useState<string | null>(null);
  const copy = async () => {
    setSaid(null);
    try {
      const job = await get<{ number: string; make_up: MakeUp; header: { opened: string } }>(
        `/api/jobs/${encodeURIComponent(number.trim())}`,
      );
      onCopy({ number: job.number, make_up: job.make_up, opened: job.header.opened });
    } catch (e) {
      if (e instanceof Refused) setSaid(errorText(e.error));
      else if (e instanceof CutOff) setSaid(t('noAnswer'));
      else throw e;
    }
  };
  return (
    <details>
      <summary>{t('copyFrom')}</summary>
      <div class="stack">
        <Field label={t('jobNumber')} value={number} onValue={setNumber} error={said} />
        <WorkButton disabled={number.trim() === ''} onPress={copy}>
          {t('copy')}
        </WorkButton>
      </div>
    </details>
  );
}

function Growing({
  preview,
  asking,
  ready,
}: {
  preview: PlanPreview | null;
  asking: boolean;
  ready: boolean;
}) {
  if (!preview) return <p class="quiet">{ready ? t('planComing') : t('planWants')}</p>;
  const checks = preview.checks.length;
  return (
    <>
      <p class="row">
        <strong>{t('planCounts', { steps: preview.steps.length, checks })}</strong>
        {asking && <Busy />}
      </p>
      <Section
        section={preview.section}
        checks={preview.checks}
        number={null}
        currentStep={null}
        currentCheck={null}
        heightMax={430}
      />
      <ol class="plan-list">
        {preview.steps.map((s) => (
          <li key={s.id}>
            <strong>{say(s.title)}</strong>
            {s.hold && <em> {t('holdPoint')}</em>}
            <span>
              {preview.checks
                .filter((c) => c.step === s.id)
                .map((c) => say(c.title))
                .join(' · ')}
            </span>
          </li>
        ))}
      </ol>
    </>
  );
}

function JobFields({
  header,
  error,
  onHeader,
}: {
  header: HeaderFields;
  error: ServerError | null;
  onHeader: (h: HeaderFields) => void;
}) {
  const set = (name: keyof HeaderFields) => (value: string) => onHeader({ ...header, [name]: value });
  const about = (field: string) => (error && isAbout(error, field) ? errorText(error) : null);
  return (
    <fieldset class="panel">
      <legend>{t('theJob')}</legend>
      <Field label={t('jobNumber')} value={header.number} error={about('number')} onValue={set('number')} />
      <Field
        label={t('customer')}
        value={header.customer}
        error={about('customer')}
        onValue={set('customer')}
      />
      <Field
        label={t('pump')}
        hint={t('pumpHint')}
        value={header.pump}
        error={about('pump')}
        onValue={set('pump')}
      />
      <Field label={t('serial')} value={header.serial} error={about('serial')} onValue={set('serial')} />
      <Field label={t('reasonIn')} value={header.reason} error={about('reason')} onValue={set('reason')} />
      <Choice
        label={t('cameFor')}
        value={header.came_for}
        options={[
          { value: '', label: t('cameForNew') },
          { value: 'fault', label: t('cameForFault') },
          { value: 'other', label: t('cameForOther') },
        ]}
        onValue={set('came_for')}
      />
      <Field label={t('bench')} value={header.bench} error={about('bench')} onValue={set('bench')} />
    </fieldset>
  );
}

function useMakeUpForm(): MakeUpForm | null | 'cut-off' {
  const [form, setForm] = useState<MakeUpForm | null | 'cut-off'>(null);
  useEffect(() => {
    get<MakeUpForm>('/api/make-up-form').then(setForm, () => setForm('cut-off'));
  }, []);
  return form;
}

export function SetUpPage() {
  const form = useMakeUpForm();
  const [header, setHeader] = useState(emptyHeader);
  const [makeUp, setMakeUp] = useState(emptyMakeUp);
  const [copied, setCopied] = useState<string | null>(null);
  const [error, setError] = useState<ServerError | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const [emptyInSheets, setEmptyInSheets] = useState(0);
  // One key for this job, so that pressing again after a lost answer makes no second one.
  const [key] = useState(newKey);
  const { preview, error: previewError, asking } = usePreview(makeUp);
  const copy = (job: EarlierJob) => {
    setMakeUp({ ...emptyMakeUp, ...job.make_up });
    setCopied(job.number);
  };
  const open = async () => {
    setError(null);
    setSaid(null);
    const { bench, came_for, ...job } = header;
    if (header.number.trim() === '' || !isPlannable(makeUp)) {
      setSaid(t('jobNeeds'));
      return;
    }
    if (emptyInSheets > 0) {
      setSaid(t('sheetNeeds', { count: emptyInSheets }));
      return;
    }
    const device = thisDevice.value;
    try {
      const made = await post<{ number: string }>('/api/jobs', {
        key,
        device,
        device_seq: await nextDeviceSeq(device),
        job: { ...job, number: job.number.trim(), ...(came_for === '' ? {} : { came_for }) },
        make_up: tidyMakeUp(makeUp),
        ...(bench.trim() ? { bench: bench.trim() } : {}),
      });
      go(address.job(made.number));
    } catch (e) {
      if (e instanceof Refused) setError(e.error);
      else if (e instanceof CutOff) setSaid(t('noAnswer'));
      else throw e;
    }
  };
  const shownError = error ?? previewError;
  return (
    <>
      <Header title={t('newJob')} />
      <Banner />
      <main id="main" class="set-up">
        <h1>{t('newJob')}</h1>
        {!mayOpenJobs.value && <Notice kind="plain">{t('mayNotOpen')}</Notice>}
        {form === null && <Busy />}
        {form === 'cut-off' && <Notice kind="plain">{t('noAnswer')}</Notice>}
        {form !== null && form !== 'cut-off' && (
          <div class="set-up-columns">
            <div class="set-up-form">
              <JobFields header={header} error={error} onHeader={setHeader} />
              <Earlier header={header} onCopy={copy} />
              <CopyFrom onCopy={copy} />
              {copied && <Notice kind="plain">{t('filledFrom', { number: copied })}</Notice>}
              <MakeUpFields
                form={form}
                makeUp={makeUp}
                needed={preview?.needed ?? []}
                error={shownError}
                onMakeUp={setMakeUp}
              />
              <PlannedSheets
                key={copied ?? ''}
                forms={form.sheets}
                first={makeUp.sheets ?? {}}
                error={shownError}
                onSheets={(sheets, empty) => {
                  setMakeUp({ ...makeUp, sheets });
                  setEmptyInSheets(empty);
                }}
              />
              {shownError && <Notice kind="error">{errorText(shownError)}</Notice>}
              {said && <Notice kind="error">{said}</Notice>}
              <WorkButton kind="main" disabled={!mayOpenJobs.value} onPress={open}>
                {t('openJob')}
              </WorkButton>
            </div>
            <section class="set-up-plan" aria-label={t('thePlan')}>
              <h2>{t('thePlan')}</h2>
              <Growing preview={preview} asking={asking} ready={isPlannable(makeUp)} />
            </section>
          </div>
        )}
      </main>
    </>
  );
}

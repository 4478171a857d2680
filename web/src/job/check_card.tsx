// One check within its step: limit, where to measure, the input or the verdict, and what to do next.
import { useEffect, useState } from 'preact/hooks';
import type { CheckView, JobView, ReadingView, ServerError } from '../api/types';
import { dismiss, keptOf, type Outcome } from '../outbox/outbox';
import { address } from '../route';
import { say, show, timeText } from '../session/preferences';
import { mayAnswerFor, mayWork } from '../session/session';
import { SheetInput } from '../sheets/sheet_input';
import { SweepEntry } from '../sweep/sweep_entry';
import { t } from '../text/text';
import { announce } from '../widgets/announce';
import { WorkButton } from '../widgets/busy';
import { Field, Notice } from '../widgets/form';
import { Later } from '../widgets/later';
import { NotJudged, VerdictBanner, verdictWord } from '../widgets/verdict';
import { acceptDeviation, type ReadingBody, takeReading } from './bench_acts';
import { ConfirmationInput, type InputProps, SizeInput, ValueInput } from './inputs';
import { checkOf, openJob, refreshJob, sourceCheck } from './job_state';
import { Limits } from './limits';
import { rawText } from './raw_reading';
import { Where } from './where';

const stripDownInput = () => import('../cause/strip_down_input').then((m) => m.default);

function Input(props: InputProps & { view: JobView }) {
  if (props.check.kind === 'confirmation') return <ConfirmationInput {...props} />;
  if (props.check.kind === 'size') return <SizeInput {...props} />;
  if (props.check.kind === 'sweep') return <SweepEntry {...props} />;
  if (props.check.sheet === 'strip-down')
    return (
      <Later load={stripDownInput} props={props} otherwise={<Notice kind="plain">{t('noAnswer')}</Notice>} />
    );
  if (props.check.kind === 'sheet') return <SheetInput {...props} />;
  return <ValueInput {...props} />;
}

/** What was refused before on this check is dealt with once a new reading is in. */
async function clearRefused(number: string, check: string): Promise<void> {
  for (const k of keptOf(`job/${number}`))
    if (k.state === 'refused' && k.type === 'reading' && JSON.parse(k.payload).check === check)
      await dismiss(k);
}

function Deviation({ view, check }: { view: JobView; check: CheckView }) {
  const [reason, setReason] = useState('');
  const [open, setOpen] = useState(false);
  const [missing, setMissing] = useState(false);
  const accepted = check.finding.deviation;
  if (accepted)
    return (
      <Notice kind="plain">
        <strong>{t('deviationAccepted')}</strong> {accepted.reason} ({accepted.actor},{' '}
        {timeText(accepted.time)})
      </Notice>
    );
  if (!mayAnswerFor.value || check.finding.verdict === 'pass' || view.state === 'released') return null;
  if (!open)
    return (
      <button type="button" class="button button-plain" onClick={() => setOpen(true)}>
        {t('acceptDeviation')}
      </button>
    );
  const send = async () => {
    setMissing(reason.trim() === '');
    if (reason.trim() === '') return;
    await acceptDeviation(view.number, check.id, reason.trim());
    setOpen(false);
  };
  return (
    <div class="stack">
      <Field
        label={t('deviationReason')}
        value={reason}
        onValue={setReason}
        error={missing ? t('sayWhy') : null}
      />
      <div class="row">
        <WorkButton kind="main" onPress={send}>
          {t('acceptDeviation')}
        </WorkButton>
        <button type="button" class="button button-plain" onClick={() => setOpen(false)}>
          {t('cancel')}
        </button>
      </div>
    </div>
  );
}

function After({ check }: { check: CheckView }) {
  const { finding } = check;
  const settle = finding.readings.find((r) => r.settle !== null)?.settle;
  return (
    <>
      {finding.verdict === 'fail' && check.if_it_fails && say(check.if_it_fails) !== '' && (
        <Notice kind="caution">
          <strong>{t('ifItFails')}</strong> {say(check.if_it_fails)}
        </Notice>
      )}
      {finding.verdict === 'unproven' && settle && (
        <Notice kind="plain">
          <strong>{t('settleWith')}</strong> {say(settle)}
        </Notice>
      )}
    </>
  );
}

/** A sweep by its count, a sheet as the judge says it in one line, anything else as it was written. */
function inShort(r: ReadingView, check: CheckView): string {
  if (r.payload.sweep) return t('pointsRead', { count: r.payload.sweep.points.length });
  const judged = check.finding.readings.find((j) => j.reading === r.id);
  return (r.payload.sheet && judged?.as_written) || rawText(r.payload);
}

function Standing({
  check,
  readings,
  mayCorrect,
  onCorrect,
}: {
  check: CheckView;
  readings: readonly ReadingView[];
  mayCorrect: boolean;
  onCorrect: (r: ReadingView) => void;
}) {
  return (
    <ul class="plain-list standing">
      {readings.map((r) => (
        <li key={r.id}>
          <span class="written">{inShort(r, check)}</span>
          <span class="who">
            {r.actor} · {timeText(r.time)}
            {r.instrument ? ` · ${r.instrument}` : ''}
          </span>
          {mayCorrect && (
            <button type="button" class="button button-plain" onClick={() => onCorrect(r)}>
              {t('correct')}
            </button>
          )}
        </li>
      ))}
    </ul>
  );
}

export function CheckCard({ view, check }: { view: JobView; check: CheckView }) {
  const [entering, setEntering] = useState<'new' | ReadingView | null>(null);
  const [error, setError] = useState<ServerError | null>(null);
  const source = sourceCheck(view, check);
  const readings = view.readings.filter((r) => r.check === source.id && r.replaced_by === null);
  const pending = keptOf(`job/${view.number}`).filter(
    (k) => k.type === 'reading' && k.state === 'waiting' && JSON.parse(k.payload).check === source.id,
  );
  useEffect(() => {
    setEntering(null);
    setError(null);
  }, [check.id]);
  const working = mayWork.value && view.state === 'open';
  const first = readings.length === 0 && pending.length === 0;
  const showInput = check.takes_reading && working && (first || entering !== null);
  const replaces = entering !== null && entering !== 'new' ? entering : null;

  const settle = async (outcome: Outcome) => {
    if (outcome.state === 'refused') {
      setError(outcome.error);
      return;
    }
    setError(null);
    setEntering(null);
    if (outcome.state === 'kept') {
      announce(t('keptOnTablet'));
      return;
    }
    await clearRefused(view.number, check.id);
    await refreshJob(view.number);
    const judged = openJob.value?.view ? checkOf(openJob.value.view, check.id) : undefined;
    if (judged)
      announce(
        `${say(judged.title)}: ${verdictWord(judged.finding.verdict)}, ${say(judged.finding.reason_title)}`,
      );
  };
  const send = async (body: ReadingBody) => {
    const full = replaces ? { ...body, replaces: replaces.id } : body;
    const outcome = await takeReading(view.number, check.id, full);
    await settle(outcome);
    return outcome.state;
  };

  return (
    <section class="check-card" aria-labelledby={`check-${check.id}`}>
      <h3 id={`check-${check.id}`} class="check-title">
        {say(check.title)}
      </h3>
      <Limits check={check} />
      <Where section={view.section} check={check} />
      <div class="after-verdict">
        {pending.map((k) => (
          <p class="pending" key={k.key}>
            <NotJudged /> <span class="written">{rawText(JSON.parse(k.payload))}</span>
          </p>
        ))}
        {check.finding.verdict !== 'not-taken' && <VerdictBanner finding={check.finding} />}
        {check.finding.readings[0]?.value && (
          <p class="reading-value">
            {show(check.finding.readings[0].value)}
            {check.finding.readings[0].u && <small> ± {show(check.finding.readings[0].u)}</small>}
          </p>
        )}
        <After check={check} />
      </div>
      {!check.takes_reading && (
        <p class="quiet">
          {check.from ? (
            <>
              {t('judgedFrom')}{' '}
              <a href={address.check(view.number, source.step, source.id)}>{say(source.title)}</a>
            </>
          ) : (
            t('computedCheck')
          )}
        </p>
      )}
      {check.takes_reading && (
        <Standing
          check={check}
          readings={readings}
          mayCorrect={working && !showInput}
          onCorrect={setEntering}
        />
      )}
      {replaces && (
        <Notice kind="plain">
          {t('correcting', { who: replaces.actor, when: timeText(replaces.time) })}
        </Notice>
      )}
      {showInput && (
        <Input
          key={`${check.id}-${replaces?.id ?? 'new'}`}
          view={view}
          check={check}
          instruments={view.instruments}
          replaces={replaces}
          error={error}
          onSend={send}
        />
      )}
      {showInput && !first && (
        <button type="button" class="button button-plain" onClick={() => setEntering(null)}>
          {t('cancel')}
        </button>
      )}
      {check.takes_reading && working && !showInput && check.kind !== 'confirmation' && (
        <button type="button" class="button button-plain" onClick={() => setEntering('new')}>
          {t('secondReading')}
        </button>
      )}
      <Deviation view={view} check={check} />
    </section>
  );
}

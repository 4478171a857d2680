// One step at a time: caution first, what to do, its checks one by one, and the way on.
import { useRef, useState } from 'preact/hooks';
import type { CheckView, JobView, StepView } from '../api/types';
import { keptOf } from '../outbox/outbox';
import { address, go } from '../route';
import { say, timeText } from '../session/preferences';
import { mayWork, me } from '../session/session';
import { t } from '../text/text';
import { announce } from '../widgets/announce';
import { WorkButton } from '../widgets/busy';
import { errorText, Notice } from '../widgets/form';
import { VerdictIcon, verdictWord } from '../widgets/verdict';
import { addNote, addPhoto, finishStep, releaseHold } from './bench_acts';
import { CheckCard } from './check_card';
import { NoteInput } from './inputs';
import { checksOf } from './job_state';
import { shrink } from './photo';

function CheckTabs({ view, step, current }: { view: JobView; step: StepView; current: CheckView }) {
  const checks = checksOf(view, step);
  if (checks.length < 2) return null;
  return (
    <nav class="check-tabs" aria-label={t('checksOfStep')}>
      {checks.map((c) => (
        <a
          key={c.id}
          href={address.check(view.number, step.id, c.id)}
          aria-current={c.id === current.id ? 'true' : undefined}
        >
          <VerdictIcon verdict={c.finding.verdict} />
          <span>{say(c.title)}</span>
          <span class="unseen">{verdictWord(c.finding.verdict)}</span>
        </a>
      ))}
    </nav>
  );
}

/** Another check of this step that still wants a reading. */
function NextCheck({ view, step, current }: { view: JobView; step: StepView; current: CheckView }) {
  if (current.takes_reading && current.finding.verdict === 'not-taken') return null;
  const next = checksOf(view, step).find(
    (c) => c.id !== current.id && c.takes_reading && c.finding.verdict === 'not-taken',
  );
  if (!next || !mayWork.value) return null;
  return (
    <a class="button button-main" href={address.check(view.number, step.id, next.id)} data-next>
      {t('nextCheck', { check: say(next.title) })} →
    </a>
  );
}

function Hold({ view, step }: { view: JobView; step: StepView }) {
  const [said, setSaid] = useState<string | null>(null);
  if (!step.hold) return null;
  if (step.released)
    return (
      <Notice kind="plain">
        {t('holdReleased', { who: step.released.actor, when: timeText(step.released.time) })}
      </Notice>
    );
  const own = step.done?.actor === me.value?.id;
  const release = async () => {
    const outcome = await releaseHold(view.number, step.id);
    setSaid(outcome.state === 'refused' ? errorText(outcome.error) : null);
  };
  return (
    <div class="hold">
      <p>
        <strong>{t('holdPoint')}</strong>{' '}
        {step.done ? (own ? t('holdWaitsOther') : t('holdYours')) : t('holdFirst')}
      </p>
      {step.done && !own && mayWork.value && (
        <WorkButton kind="main" onPress={release}>
          {t('releaseHold')}
        </WorkButton>
      )}
      {said && <Notice kind="error">{said}</Notice>}
    </div>
  );
}

function Done({ view, step }: { view: JobView; step: StepView }) {
  const [said, setSaid] = useState<string | null>(null);
  const index = view.steps.findIndex((s) => s.id === step.id);
  const next = view.steps[index + 1];
  const waitingHere = keptOf(`job/${view.number}`).some(
    (k) => k.type === 'step-done' && k.state === 'waiting' && JSON.parse(k.payload).step === step.id,
  );
  if (step.done)
    return <p class="quiet">{t('doneBy', { who: step.done.actor, when: timeText(step.done.time) })}</p>;
  if (waitingHere) return <p class="quiet">{t('doneKept')}</p>;
  if (!mayWork.value || view.state === 'released') return null;
  const onTablet = new Set(
    keptOf(`job/${view.number}`)
      .filter((k) => k.type === 'reading' && k.state === 'waiting')
      .map((k) => JSON.parse(k.payload).check as string),
  );
  const untaken = checksOf(view, step).filter(
    (c) => c.takes_reading && c.finding.verdict === 'not-taken' && !onTablet.has(c.id),
  ).length;
  const finish = async () => {
    const outcome = await finishStep(view.number, step.id);
    if (outcome.state === 'refused') {
      setSaid(errorText(outcome.error));
      return;
    }
    announce(t('stepDone'));
    if (next && !step.hold) go(address.step(view.number, next.id));
  };
  return (
    <div class="stack">
      {untaken > 0 && <p class="quiet">{t('untakenHere', { count: untaken })}</p>}
      <WorkButton kind={untaken > 0 ? 'plain' : 'main'} onPress={finish}>
        <span data-done>{t('markDone')}</span>
      </WorkButton>
      {said && <Notice kind="error">{said}</Notice>}
    </div>
  );
}

function Photos({ view, step, check }: { view: JobView; step: StepView; check: string | null }) {
  const input = useRef<HTMLInputElement>(null);
  const [said, setSaid] = useState<string | null>(null);
  const waitingPhotos = keptOf(`job/${view.number}`).filter(
    (k) => k.type === 'attachment-added' && JSON.parse(k.payload).step === step.id,
  ).length;
  const add = async (file: File | undefined) => {
    if (!file) return;
    const small = await shrink(file);
    const outcome = await addPhoto(view.number, {
      step: step.id,
      check,
      name: file.name || 'photo.jpg',
      file: small,
    });
    setSaid(outcome.state === 'refused' ? errorText(outcome.error) : null);
    if (input.current) input.current.value = '';
  };
  return (
    <div class="stack">
      <ul class="photos">
        {step.attachments.map((a) => (
          <li key={a.hash}>
            <a href={`/api/attachments/${a.hash}`} target="_blank" rel="noreferrer">
              {a.media_type.startsWith('image/') ? (
                <img src={`/api/attachments/${a.hash}`} alt={a.name} loading="lazy" width="96" height="72" />
              ) : (
                a.name
              )}
            </a>
            <span class="who">
              {a.actor} · {timeText(a.time)}
            </span>
          </li>
        ))}
      </ul>
      {waitingPhotos > 0 && <p class="quiet">{t('photosKept', { count: waitingPhotos })}</p>}
      {mayWork.value && view.state === 'open' && (
        <label class="button button-plain file-button">
          {t('addPhoto')}
          <input
            ref={input}
            type="file"
            accept="image/jpeg,image/png,image/webp"
            capture="environment"
            onChange={(e) => void add(e.currentTarget.files?.[0])}
          />
        </label>
      )}
      {said && <Notice kind="error">{said}</Notice>}
    </div>
  );
}

function Around({ view, step, check }: { view: JobView; step: StepView; check: string | null }) {
  const count = step.notes.length + step.attachments.length;
  return (
    <details class="around" open={count > 0}>
      <summary>{t('notesAndPhotos', { count })}</summary>
      <ul class="plain-list">
        {step.notes.map((n) => (
          <li key={n.time + n.text}>
            {n.text}
            <span class="who">
              {n.actor} · {timeText(n.time)}
            </span>
          </li>
        ))}
      </ul>
      <Photos view={view} step={step} check={check} />
      {mayWork.value && view.state === 'open' && (
        <NoteInput
          onSend={async (text) => {
            await addNote(view.number, step.id, text);
          }}
        />
      )}
    </details>
  );
}

export function Step({ view, step, check }: { view: JobView; step: StepView; check: CheckView | undefined }) {
  const index = view.steps.findIndex((s) => s.id === step.id);
  const previous = view.steps[index - 1];
  const next = view.steps[index + 1];
  const stage = view.stages.find((s) => s.word === step.stage);
  return (
    <article class="step" aria-labelledby="step-title">
      <p class="step-stage">
        {say(stage?.title)} · {t('stepOf', { n: index + 1, count: view.steps.length })}
        {step.own_text && ` · ${t('ownText')}`}
      </p>
      <h2 id="step-title">{say(step.title)}</h2>
      {step.caution && say(step.caution) !== '' && (
        <Notice kind="caution">
          <span class="unseen">{t('caution')} </span>
          {say(step.caution)}
        </Notice>
      )}
      <p class="what">{say(step.what)}</p>
      <CheckTabs view={view} step={step} current={check ?? ({ id: '' } as CheckView)} />
      {check && <CheckCard key={check.id} view={view} check={check} />}
      {check && <NextCheck view={view} step={step} current={check} />}
      <Hold view={view} step={step} />
      <Done view={view} step={step} />
      <nav class="row step-nav" aria-label={t('stepNav')}>
        {previous ? (
          <a class="button button-plain" href={address.step(view.number, previous.id)} data-previous>
            ← {t('previous')}
          </a>
        ) : (
          <span />
        )}
        {next ? (
          <a class="button button-plain" href={address.step(view.number, next.id)} data-next>
            {t('next')} →
          </a>
        ) : (
          <a class="button button-main" href={address.release(view.number)} data-next>
            {t('toRelease')} →
          </a>
        )}
      </nav>
      <Around view={view} step={step} check={check?.id ?? null} />
      <p class="source">
        {t('source')}: {say(step.source)}
      </p>
    </article>
  );
}

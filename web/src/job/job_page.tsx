// The job: section, step and proof. One column on a phone, two on a tablet, three on a PC.
import { useEffect, useLayoutEffect, useState } from 'preact/hooks';
import type { JobView, StepView } from '../api/types';
import { address, go, route } from '../route';
import { say, timeText } from '../session/preferences';
import { recall, remember } from '../session/remembered';
import { mayWork } from '../session/session';
import { Banner, Header, Trouble } from '../shell';
import { t } from '../text/text';
import { Busy, WorkButton } from '../widgets/busy';
import { Dialog } from '../widgets/dialog';
import { Field, Notice } from '../widgets/form';
import { Later } from '../widgets/later';
import { useTurn } from '../widgets/turn';
import { VerdictIcon } from '../widgets/verdict';
import { placeOn, waitFor } from './bench_acts';
import { checkOf, checksOf, nextStepId, openJob, stepOf, wantedCheck, watchJob } from './job_state';
import { Proof } from './proof';
import { Section, StepList } from './section';
import { Step } from './step';

function Counts({ view }: { view: JobView }) {
  const rows = [
    ['pass', view.counts.pass],
    ['fail', view.counts.fail],
    ['unproven', view.counts.unproven],
    ['not-taken', view.counts.not_taken],
  ] as const;
  const words = { pass: 'pass', fail: 'fail', unproven: 'unproven', 'not-taken': 'notTaken' } as const;
  return (
    <ul class="counts">
      {rows.map(([verdict, count]) => (
        <li key={verdict}>
          <VerdictIcon verdict={verdict} />
          <strong>{count}</strong> {t(words[verdict])}
        </li>
      ))}
    </ul>
  );
}

/** Where the pump stands and what it waits for; what the benches page is made of. */
function PlaceDialog({ view, onClose }: { view: JobView; onClose: () => void }) {
  const [bench, setBench] = useState(view.bench ?? '');
  const [what, setWhat] = useState(view.waiting ?? '');
  const save = async () => {
    if (bench.trim() !== '' && bench.trim() !== view.bench) await placeOn(view.number, bench.trim());
    if (what.trim() !== (view.waiting ?? '')) await waitFor(view.number, what.trim() || null);
    onClose();
  };
  return (
    <Dialog title={t('benchAndWaiting')} onClose={onClose}>
      <form
        class="stack"
        onSubmit={(e) => {
          e.preventDefault();
          void save();
        }}
      >
        <Field label={t('bench')} value={bench} onValue={setBench} />
        <Field label={t('waitsFor')} hint={t('waitsForHint')} value={what} onValue={setWhat} />
        <WorkButton kind="main" submit onPress={save}>
          {t('save')}
        </WorkButton>
      </form>
    </Dialog>
  );
}

function JobHead({ view }: { view: JobView }) {
  const [open, setOpen] = useState(false);
  return (
    <div class="job-head">
      <Counts view={view} />
      <p class="job-facts">
        {view.header.invented && <span class="invented">{t('invented')}</span>}
        <span>{view.header.pump}</span> · <span>{view.header.serial}</span> ·{' '}
        <span>{view.header.reason}</span>
      </p>
      <div class="row">
        {mayWork.value && (
          <button type="button" class="button button-plain" onClick={() => setOpen(true)}>
            {view.bench ? t('onBench', { bench: view.bench }) : t('noBench')}
            {view.waiting ? ` · ${t('waitsForWhat', { what: view.waiting })}` : ''}
          </button>
        )}
        <a class="button button-plain" href={address.release(view.number)} data-release>
          {view.state === 'released' ? t('released') : t('openPointsCount', { count: view.open.length })}
        </a>
      </div>
      {open && <PlaceDialog view={view} onClose={() => setOpen(false)} />}
    </div>
  );
}

const pumpPast = () => import('../past/pump_past').then((m) => m.default);

/** Once the rest stands; nothing for a pump the shop does not know. */
function Past({ view }: { view: JobView }) {
  const drawn = useTurn();
  return drawn ? <Later key={view.number} load={pumpPast} props={{ view }} otherwise={null} /> : null;
}

function useKeys() {
  useEffect(() => {
    const press = (selector: string) => document.querySelector<HTMLElement>(selector);
    const onKey = (event: KeyboardEvent) => {
      const target = event.target as HTMLElement | null;
      if (target?.matches('input:not([type=radio]),select,textarea,[data-typing],[data-typing] *')) return;
      if (event.ctrlKey || event.altKey || event.metaKey || target?.closest('[role=dialog]')) return;
      const act: Record<string, () => void> = {
        n: () => press('[data-next]')?.click(),
        p: () => press('[data-previous]')?.click(),
        r: () => press('[data-release]')?.click(),
        d: () => press('[data-done]')?.closest('button')?.click(),
        i: () =>
          press(
            '.check-card [data-typing], .check-card input:not([type=hidden]), .check-card .button-main',
          )?.focus(),
      };
      const run = act[event.key];
      if (!run) return;
      event.preventDefault();
      run();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, []);
}

function useIsWide(query: string): boolean {
  const [wide, setWide] = useState(() => matchMedia(query).matches);
  useEffect(() => {
    const list = matchMedia(query);
    const follow = () => setWide(list.matches);
    list.addEventListener?.('change', follow);
    return () => list.removeEventListener?.('change', follow);
  }, [query]);
  return wide;
}

/** The check a step was opened at; it stays when its reading comes in, so that the verdict is seen. */
const pinned = { step: '', check: '' };

function pinnedCheck(view: JobView, step: StepView | undefined): string | null {
  if (!step) return null;
  const at = `${view.number}/${step.id}`;
  if (pinned.step !== at || !step.checks.includes(pinned.check)) {
    pinned.step = at;
    pinned.check = wantedCheck(checksOf(view, step))?.id ?? '';
  }
  return pinned.check;
}

export function JobPage({
  number,
  step,
  check,
}: {
  number: string;
  step: string | null;
  check: string | null;
}) {
  const wide = useIsWide('(min-width: 860px)');
  const [folded, setFolded] = useState(recall('section-folded') === 'yes');
  useLayoutEffect(() => watchJob(number), [number]);
  useKeys();
  const job = openJob.value;
  const view = job?.number === number ? job.view : null;
  const stepId = step ?? (view ? nextStepId(view) : null);
  useEffect(() => {
    if (view && step === null && stepId !== null && route.value.page === 'job')
      go(address.step(number, stepId), 'replace');
  }, [view === null, step, number]);
  if (job?.error && !view) return <Trouble text={say(job.error.text)} />;
  if (!view)
    return (
      <>
        <Header title={number} />
        <Banner />
        <main id="main">{job?.cutOff ? <Notice kind="plain">{t('neverSeenHere')}</Notice> : <Busy />}</main>
      </>
    );
  const shownStep = stepOf(view, stepId) ?? view.steps[0];
  const shownCheck = checkOf(view, check ?? pinnedCheck(view, shownStep));
  return (
    <>
      <Header title={view.number} sub={view.header.customer} />
      <Banner />
      {job?.cutOff && job.at && <p class="banner">{t('lastKnown', { when: timeText(job.at) })}</p>}
      <main id="main" class="job">
        <section class="column-section" aria-label={t('theSection')}>
          <JobHead view={view} />
          {!wide && (
            <button
              type="button"
              class="button button-plain fold"
              aria-expanded={!folded}
              onClick={() => {
                remember('section-folded', folded ? 'no' : 'yes');
                setFolded(!folded);
              }}
            >
              {folded ? t('showSection') : t('hideSection')}
            </button>
          )}
          {(wide || !folded) && (
            <Section
              section={view.section}
              checks={view.checks}
              number={view.number}
              currentStep={shownStep?.id ?? null}
              currentCheck={shownCheck?.id ?? null}
              heightMax={wide ? 560 : 300}
            />
          )}
          <Past view={view} />
          <StepList view={view} current={shownStep?.id ?? null} />
        </section>
        <div class="column-step">
          {shownStep ? (
            <Step key={shownStep.id} view={view} step={shownStep} check={shownCheck} />
          ) : (
            <Notice kind="plain">{t('noSteps')}</Notice>
          )}
        </div>
        <div class="column-proof">{shownCheck && <Proof view={view} check={shownCheck} />}</div>
      </main>
    </>
  );
}

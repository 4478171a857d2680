// The job on the page: fetched, kept for when the connection goes, and fetched again when something changed.
import { signal } from '@preact/signals';
import { CutOff, get, jobPath, Refused } from '../api/client';
import { listen } from '../api/live';
import type { CheckView, JobView, ServerError, StepView } from '../api/types';
import { keepView, keptView } from '../outbox/kept_views';
import { whenSent } from '../outbox/outbox';
import { whenIdle } from '../widgets/turn';

export interface OpenJob {
  number: string;
  view: JobView | null;
  /** When the view was fetched; an older one is shown while cut off. */
  at: string | null;
  error: ServerError | null;
  cutOff: boolean;
}

export const openJob = signal<OpenJob | null>(null);

interface KeptView {
  view: JobView;
  at: string;
}

let fetching: Promise<void> | null = null;
let stale = false;

const serverPatienceMs = 200;

const isOpen = (number: string) => openJob.value?.number === number;

async function fetchOnce(number: string): Promise<void> {
  try {
    const view = await get<JobView>(jobPath(number));
    if (!isOpen(number)) return;
    const at = new Date().toISOString();
    openJob.value = { number, view, at, error: null, cutOff: false };
    whenIdle(() => void keepView(number, { view, at } satisfies KeptView));
  } catch (error) {
    if (!isOpen(number) || !openJob.value) return;
    if (error instanceof Refused) openJob.value = { ...openJob.value, error: error.error };
    else if (error instanceof CutOff) await showKept(number);
    else throw error;
  }
}

async function showKept(number: string): Promise<void> {
  const known = await keptView<KeptView>(number);
  if (!isOpen(number) || !openJob.value) return;
  const now = openJob.value;
  openJob.value = {
    ...now,
    view: now.view ?? known?.view ?? null,
    at: now.at ?? known?.at ?? null,
    cutOff: true,
  };
}

/** Asks for the view again; many calls at once become two requests at most. */
export function refreshJob(number: string): Promise<void> {
  stale = true;
  fetching ??= (async () => {
    try {
      while (stale) {
        stale = false;
        await fetchOnce(openJob.value?.number ?? number);
      }
    } finally {
      fetching = null;
    }
  })();
  return fetching;
}

/** Opens the job until the returned function is called. */
export function watchJob(number: string): () => void {
  openJob.value = { number, view: null, at: null, error: null, cutOff: false };
  let stopListening: (() => void) | null = null;
  let closed = false;
  void showKeptMeanwhile(number).then(() => {
    if (!closed) stopListening = listenFrom(number);
  });
  const stopSending = whenSent((stream) => {
    if (stream === `job/${number}`) void refreshJob(number);
  });
  return () => {
    closed = true;
    stopListening?.();
    stopSending();
  };
}

/** Changes since the view that is shown come by themselves; only what a lost connection may have hidden is asked for. */
function listenFrom(number: string): () => void {
  const now = openJob.value;
  const fresh = now?.view && !now.cutOff ? now.view : null;
  let nothingMissed = fresh !== null;
  return listen(
    `${jobPath(number)}/changes${fresh ? `?after=${fresh.seq}` : ''}`,
    (change) => {
      if (change.seq !== openJob.value?.view?.seq) void refreshJob(number);
    },
    () => {
      if (!nothingMissed) void refreshJob(number);
      nothingMissed = false;
    },
  );
}

/** The present view; where it takes its time, the view of last time until then. */
async function showKeptMeanwhile(number: string): Promise<void> {
  const timer = setTimeout(async () => {
    const known = await keptView<KeptView>(number);
    if (known && isOpen(number) && openJob.value && !openJob.value.view)
      openJob.value = { ...openJob.value, view: known.view, at: known.at };
  }, serverPatienceMs);
  await refreshJob(number);
  clearTimeout(timer);
}

export const stepOf = (view: JobView, id: string | null): StepView | undefined =>
  view.steps.find((s) => s.id === id);

export const checkOf = (view: JobView, id: string | null): CheckView | undefined =>
  view.checks.find((c) => c.id === id);

export const checksOf = (view: JobView, step: StepView): CheckView[] =>
  step.checks.map((id) => checkOf(view, id)).filter((c): c is CheckView => c !== undefined);

export function nextStepId(view: JobView): string | null {
  if (view.next_step === null) return view.steps[view.steps.length - 1]?.id ?? null;
  return typeof view.next_step === 'string' ? view.next_step : view.next_step.id;
}

/** The check of a step that wants a hand now: the first without a reading, else the first that does not pass. */
export function wantedCheck(checks: readonly CheckView[]): CheckView | undefined {
  return (
    checks.find((c) => c.takes_reading && c.finding.verdict === 'not-taken') ??
    checks.find((c) => c.finding.verdict === 'fail' || c.finding.verdict === 'unproven') ??
    checks[0]
  );
}

/** The check whose reading this check is judged by. */
export const sourceCheck = (view: JobView, check: CheckView): CheckView =>
  check.from ? (checkOf(view, check.from) ?? check) : check;

// The mock's jobs: loads the made views, takes events, gives cards. In memory only.
import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { judge, Refusal, settleFinding } from './judge.mjs';

const both = (en, es) => ({ en, es: es ?? en });
const load = (name) => JSON.parse(readFileSync(new URL(`./data/${name}.view.json`, import.meta.url), 'utf8'));

export const hash = () => randomBytes(32).toString('hex');

function refresh(view) {
  const counts = { pass: 0, fail: 0, unproven: 0, not_taken: 0 };
  for (const c of view.checks) counts[c.finding.verdict.replace('-', '_')]++;
  view.counts = counts;
  let held = false;
  for (const s of view.steps) {
    s.state = held ? 'waits' : s.done && (!s.hold || s.released) ? 'done' : 'open';
    if (s.hold && !s.released) held = true;
  }
  const next = view.steps.find((s) => s.state !== 'done');
  view.next_step = next ? { id: next.id, title: next.title } : null;
  view.open = view.steps.flatMap((s) => [
    ...view.checks
      .filter((c) => c.step === s.id && c.finding.verdict !== 'pass' && !c.finding.deviation)
      .map((c) => ({
        step: s.id,
        check: c.id,
        what: both(
          `${c.title.en}: ${c.finding.verdict_title.en}, ${c.finding.reason_title.en}`,
          `${c.title.es}: ${c.finding.verdict_title.es}, ${c.finding.reason_title.es}`,
        ),
      })),
    ...(s.done
      ? []
      : [
          {
            step: s.id,
            check: null,
            what: both(`Step not done: ${s.title.en}`, `Paso sin hacer: ${s.title.es}`),
          },
        ]),
    ...(s.hold && !s.released
      ? [
          {
            step: s.id,
            check: null,
            what: both(
              `Hold point not released: ${s.title.en}`,
              `Punto de espera sin liberar: ${s.title.es}`,
            ),
          },
        ]
      : []),
  ]);
}

/** Takes everything off from a step on, so that a job in the middle of its build can be looked at. */
function rewind(view, fromStep) {
  const index = view.steps.findIndex((s) => s.id === fromStep);
  const later = new Set(view.steps.slice(index).map((s) => s.id));
  for (const s of view.steps) if (later.has(s.id)) s.done = s.released = null;
  for (const c of view.checks)
    if (later.has(c.step)) {
      c.finding.readings = [];
      c.finding.chain = [];
      settleFinding(c);
      view.readings = view.readings.filter((r) => r.check !== c.id);
    }
  refresh(view);
}

export function startJobs() {
  const jobs = new Map();
  const greenhouse = load('greenhouse-circulator');
  rewind(greenhouse, 'shaft-runout-nema');
  const orchard = load('orchard-wash');
  refresh(orchard);
  const aquarium = load('aquarium-seawater');
  refresh(aquarium);
  const finished = load('greenhouse-circulator');
  finished.number = finished.header.number = 'G-2098';
  finished.header.serial = 'GH-0039';
  finished.bench = '4';
  refresh(finished);
  for (const view of [greenhouse, orchard, aquarium, finished]) jobs.set(view.number, view);
  return jobs;
}

export const card = (v) => ({
  number: v.number,
  customer: v.header.customer,
  pump: v.header.pump,
  serial: v.header.serial,
  bench: v.bench,
  waiting: v.waiting,
  state: v.state,
  opened: v.header.opened,
  last_at: v.log.at(-1)?.at ?? v.header.opened,
  last_actor: v.log.at(-1)?.actor ?? 'L.H.',
  head: v.head,
  seq: v.seq,
  counts: v.counts,
  next_step: v.next_step,
  failing: v.checks
    .filter((c) => c.finding.verdict === 'fail')
    .map((c) => ({ check: c.id, step: c.step, title: c.title })),
});

function takeReading(view, payload, actor) {
  const check = view.checks.find((c) => c.id === payload.check);
  if (!check)
    throw new Refusal(
      '/check',
      payload.check,
      'the plan has no such check',
      'el plan no tiene esa comprobación',
      '',
    );
  const affected = view.checks.filter((c) => c.id === check.id || c.from === check.id);
  const judged = affected.map((c) => judge(payload, c, view.instruments));
  affected.forEach((c, i) => {
    c.finding.readings = c.finding.readings.filter((r) => r.reading !== payload.replaces);
    c.finding.readings.push(judged[i]);
    settleFinding(c);
  });
  const before = view.readings.find((r) => r.id === payload.replaces);
  if (before) before.replaced_by = payload.id;
  view.readings.push({
    seq: view.seq + 1,
    id: payload.id,
    check: payload.check,
    time: payload.time,
    actor,
    instrument: payload.instrument ?? null,
    replaces: payload.replaces ?? null,
    replaced_by: null,
    payload,
  });
}

/** Puts one event into a job. Throws Refusal. */
export function take(view, event, person, device) {
  const p = JSON.parse(event.payload);
  const step = view.steps.find((s) => s.id === p.step);
  const stamp = { actor: person.id, time: p.time ?? new Date().toISOString() };
  if (event.type === 'reading') takeReading(view, p, person.id);
  else if (event.type === 'step-done') step.done = stamp;
  else if (event.type === 'hold-released') {
    if (step.done?.actor === person.id)
      throw new Refusal(
        '/step',
        p.step,
        'another person must release this hold point',
        'otra persona debe liberar este punto de espera',
        '',
      );
    step.released = stamp;
  } else if (event.type === 'deviation-accepted')
    view.checks.find((c) => c.id === p.check).finding.deviation = { reason: p.reason, ...stamp };
  else if (event.type === 'placed') view.bench = p.bench;
  else if (event.type === 'waiting') view.waiting = p.for;
  else if (event.type === 'note') step.notes.push({ ...stamp, text: p.text });
  else if (event.type === 'attachment-added')
    step.attachments.push({
      ...stamp,
      hash: p.hash,
      media_type: p.media_type,
      name: p.name,
      check: p.check ?? null,
    });
  else if (event.type === 'reopened') view.state = 'open';
  view.seq++;
  view.head = hash();
  view.log.push({
    seq: view.seq,
    at: new Date().toISOString(),
    actor: person.id,
    device,
    type: event.type,
    text: both(`${event.type} ${p.check ?? p.step ?? ''}`),
  });
  refresh(view);
}

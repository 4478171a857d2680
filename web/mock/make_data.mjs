// Makes the mock's jobs from the demonstration jobs: plan and verdicts by the real program, put into the shape of
// the job view. Run by hand when plan or wording change:
//   node mock/make_data.mjs PUMPWRIGHT_BINARY DEMO_DIRECTORY
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { amount, sweepView, toSi } from './amounts.mjs';

const [, , program, demo] = process.argv;
const data = new URL('./data/', import.meta.url);

function run(args) {
  try {
    return JSON.parse(execFileSync(program, args, { maxBuffer: 1 << 26 }).toString());
  } catch (e) {
    if (e.status === 1) return JSON.parse(e.stdout.toString());
    throw e;
  }
}

const both = (en, es) => ({ en: en ?? '', es: es ?? en ?? '' });
const ranks = {
  job: both('this job', 'este trabajo'),
  customer: both('customer', 'cliente'),
  family: both('pump family', 'familia de bombas'),
  standard: both('standard', 'norma'),
  'common-practice': both('common practice', 'práctica común'),
};
const obtained = {
  read: both('read in the document', 'leído en el documento'),
  remembered: both('remembered, not confirmed', 'de memoria, sin confirmar'),
  'common-practice': both('common practice', 'práctica común'),
  'shop-rule': both("the shop's own rule", 'regla propia del taller'),
};

const bound = (b) => (b ? amount(b.si, b.kind) : null);

function limitText(l, system) {
  const lower = bound(l.lower)?.[system];
  const upper = bound(l.upper)?.[system];
  if (lower && upper) return both(`${lower} to ${upper}`, `${lower} a ${upper}`);
  if (upper) return both(`at most ${upper}`, `como máximo ${upper}`);
  return both(`at least ${lower}`, `al menos ${lower}`);
}

const sourceText = (s) =>
  [s.document, s.edition, s.clause].filter(Boolean).join(', ') + (s.note ? ` (${s.note})` : '');

function limitView(l, index) {
  return {
    id: l.id,
    decides: index === 0,
    lower: bound(l.lower),
    upper: bound(l.upper),
    text: { inch: limitText(l, 'inch'), metric: limitText(l, 'metric') },
    as_written: [l.lower?.text, l.upper?.text].filter(Boolean).join(' … '),
    rank: ranks[l.rank],
    obtained: obtained[l.source.obtained],
    source: both(sourceText(l.source)),
    rule:
      l.rule === 'simple'
        ? both(
            `as read, instrument at least 1/${l.ratio} of the limit`,
            `según lectura, instrumento al menos 1/${l.ratio} del límite`,
          )
        : both('proven against its uncertainty', 'probado frente a su incertidumbre'),
  };
}

function sweepOf(event, instruments) {
  if (!event?.sweep) return null;
  const unit = instruments.find((i) => i.id === event.instrument)?.unit ?? 'mm';
  return sweepView(
    event.sweep.points.map((p) => ({ angle_deg: p.angle_deg, value_m: toSi(p.reading, unit) ?? 0 })),
  );
}

const titles = {
  pass: both('pass', 'pasa'),
  fail: both('fail', 'no pasa'),
  unproven: both('unproven', 'sin probar'),
  'not-taken': both('not taken', 'sin tomar'),
};

function convert(name, bench, waiting) {
  const file = `${demo}/${name}.json`;
  const job = JSON.parse(readFileSync(file, 'utf8'));
  const plan = run(['plan', file, '--json']);
  const en = run(['judge', file, '--json']);
  const es = run(['judge', file, '--json', '--language', 'es']);
  const section = JSON.parse(readFileSync(new URL(`${name}.section.json`, data), 'utf8'));
  const instruments = job.shop.instruments;
  const readings = job.events
    .map((e, i) => ({ e, seq: i + 4 }))
    .filter(({ e }) => e.event === 'reading')
    .map(({ e, seq }) => ({
      seq,
      id: e.id,
      check: e.check,
      time: e.time,
      actor: e.actor,
      instrument: e.instrument ?? null,
      replaces: e.replaces ?? null,
      replaced_by: job.events.find((x) => x.replaces === e.id)?.id ?? null,
      payload: e,
    }));
  const find = (list, id) => list.find((x) => x.check === id);
  const checks = plan.steps.flatMap((s) =>
    s.checks.map((c) => {
      const f = find(en.checks, c.id);
      const g = find(es.checks, c.id);
      const radius = c.sweep.radius ? job.make_up.dimensions[c.sweep.radius] : null;
      return {
        id: c.id,
        step: s.id,
        kind: c.kind,
        judged: c.judged,
        from: c.from,
        quantity: c.quantity,
        place: c.place,
        turning: c.turning,
        instrument: c.instrument,
        title: c.title,
        if_it_fails: c.if_it_fails,
        takes_reading: !c.from && ['confirmation', 'value', 'size', 'sweep'].includes(c.kind),
        face: c.sweep.axis === 'face',
        radius: radius ? amount((toSi(radius.nominal ?? radius, 'in') ?? 0) / 2, 'length') : null,
        limits: c.limits.map(limitView),
        finding: {
          verdict: f.verdict,
          verdict_title: titles[f.verdict],
          reason: f.reason,
          reason_title: both(f.reason.replaceAll('-', ' ')),
          deviation: null,
          readings: f.readings.map((r, i) => ({
            reading: r.reading,
            as_written: r.as_written,
            verdict: r.verdict,
            reason: r.reason,
            reason_title: both(r.reason.replaceAll('-', ' ')),
            value: amount(r.value_si, c.quantity),
            u: amount(r.standard_uncertainty_si, c.quantity),
            margin: amount(r.margin_si, c.quantity),
            probability: r.conformance_probability,
            settle: r.settle ? both(r.settle, g.readings[i].settle) : null,
            remarks: r.remarks.map((t, k) => both(t, g.readings[i].remarks[k])),
            sweep: sweepOf(
              job.events.find((e) => e.id === r.reading),
              instruments,
            ),
          })),
          chain:
            c.kind === 'chain' && f.readings[0]?.value_si !== null && f.readings.length
              ? c.chain.map((p, i) => ({
                  name: p.name,
                  value: amount(chainValue(p, job, en), 'length'),
                  u: amount(2e-6 * (i + 1), 'length'),
                  fraction: [0.62, 0.27, 0.08, 0.03][i] ?? 0.01,
                }))
              : [],
        },
      };
    }),
  );
  const done = (type, step) => {
    const e = job.events.find((x) => x.event === type && x.step === step);
    return e ? { actor: e.actor, time: e.time } : null;
  };
  const steps = plan.steps.map((s) => ({
    id: s.id,
    stage: s.stage,
    title: s.title,
    what: s.do,
    caution: s.caution.en ? s.caution : null,
    source: both(sourceText(s.source)),
    hold: s.hold,
    own_text: false,
    done: done('step-done', s.id),
    released: done('hold-released', s.id),
    state: 'open',
    checks: s.checks.map((c) => c.id),
    notes: [],
    attachments: [],
  }));
  return {
    number: job.job.number,
    header: job.job,
    state: 'open',
    bench,
    waiting,
    seq: job.events.length + 3,
    head: 'ab'.repeat(32),
    make_up: job.make_up,
    stages: [
      ['receive', 'Receive', 'Recibir'],
      ['measure-driver', 'Measure the driver', 'Medir el motor'],
      ['measure-parts', 'Measure the parts', 'Medir las piezas'],
      ['fit', 'Fit', 'Montar'],
      ['check-running', 'Check running', 'Comprobar el giro'],
      ['release', 'Release', 'Entregar'],
    ].map(([word, a, b]) => ({ word, title: both(a, b) })),
    steps,
    checks,
    readings,
    instruments: instruments.map((i) => ({
      id: i.id,
      kind: i.kind,
      quantity: i.measures ?? 'length',
      unit: i.unit,
      graduation: i.graduation,
      due: i.due,
      in_date: i.due > '2026-11-20',
      calibrated: i.calibrated,
      mpe: i.mpe,
    })),
    section,
    open: [],
    counts: { pass: 0, fail: 0, unproven: 0, not_taken: 0 },
    next_step: null,
    signatures: [],
    log: job.events.slice(-12).map((e, i) => ({
      seq: job.events.length - 9 + i,
      at: e.time,
      actor: e.actor,
      device: 'bench-3',
      type: e.event,
      text: both(`${e.event}: ${e.check ?? e.step}`),
    })),
  };
}

function chainValue(part, job, judged) {
  if (part.check)
    return (judged.checks.find((c) => c.check === part.check)?.readings[0]?.value_si ?? 0) * part.coefficient;
  const d = job.make_up.dimensions[part.dimension];
  return (toSi(d?.nominal ?? d ?? '0 in', 'in') ?? 0) * part.coefficient;
}

for (const [name, bench, waiting] of [
  ['greenhouse-circulator', '1', null],
  ['orchard-wash', '3', null],
  ['aquarium-seawater', '2', 'O-ring for the seat, ordered on Monday'],
])
  writeFileSync(new URL(`${name}.view.json`, data), `${JSON.stringify(convert(name, bench, waiting))}\n`);

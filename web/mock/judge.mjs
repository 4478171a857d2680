// The mock's stand-in for a verdict: compares with the deciding limit, without guard bands or calibration dates.
import { amount, sweepView, toSi } from './amounts.mjs';

const both = (en, es) => ({ en, es });
const titles = {
  pass: both('pass', 'pasa'),
  fail: both('fail', 'no pasa'),
  unproven: both('unproven', 'sin probar'),
};
const reasons = {
  inside: both('inside the limit', 'dentro del límite'),
  outside: both('outside the limit', 'fuera del límite'),
  confirmed: both('seen by a person', 'visto por una persona'),
  refused: both('a person has seen that it is not so', 'una persona vio que no es así'),
  'setup-not-proven': both('no zero return written down', 'no se anotó la vuelta a cero'),
};

export class Refusal extends Error {
  constructor(field, value, en, es, valid) {
    super(en);
    this.body = { code: 'bad-input', text: both(en, es), field, value: String(value), valid };
  }
}

function needSi(text, unit, field) {
  const si = toSi(text, unit);
  if (si === null)
    throw new Refusal(
      field,
      text,
      `"${text}" is no number with a known unit`,
      `"${text}" no es un número con unidad conocida`,
      '1.250, 7 thou, 0.18 mm',
    );
  return si;
}

function readValue(payload, check, unit) {
  if (payload.value !== undefined) return needSi(payload.value, unit, '/value');
  if (payload.values)
    return (
      payload.values.map((v, i) => needSi(v, unit, `/values/${i}`)).reduce((a, b) => a + b, 0) /
      payload.values.length
    );
  if (payload.size) {
    const d = payload.size.points.map((p, i) => needSi(p.diameter, unit, `/size/points/${i}/diameter`));
    if (check.judged === 'ovality') return Math.max(...d) - Math.min(...d);
    return d.reduce((a, b) => a + b, 0) / d.length;
  }
  return null;
}

/** One judged reading for `check`, as the view carries it. Throws Refusal for what can not be read. */
export function judge(payload, check, instruments) {
  const base = {
    reading: payload.id,
    remarks: [],
    settle: null,
    u: null,
    margin: null,
    probability: null,
    value: null,
    sweep: null,
  };
  if (payload.done !== undefined) {
    const reason = payload.done ? 'confirmed' : 'refused';
    return {
      ...base,
      as_written: payload.note ?? '',
      verdict: payload.done ? 'pass' : 'fail',
      reason,
      reason_title: reasons[reason],
    };
  }
  const instrument = instruments.find((i) => i.id === payload.instrument);
  if (!instrument)
    throw new Refusal(
      '/instrument',
      payload.instrument ?? '',
      'the shop has no such instrument',
      'el taller no tiene ese instrumento',
      instruments.map((i) => i.id).join(', '),
    );
  let si = null;
  let sweep = null;
  let written =
    payload.value ?? payload.values?.join(', ') ?? payload.size?.points.map((p) => p.diameter).join(', ');
  if (payload.sweep) {
    const points = payload.sweep.points.map((p, i) => ({
      angle_deg: p.angle_deg,
      value_m: needSi(p.reading, instrument.unit, `/sweep/points/${i}/reading`),
    }));
    sweep = sweepView(points);
    if (!sweep)
      throw new Refusal(
        '/sweep/points',
        points.length,
        'a sweep needs at least 3 places',
        'un barrido necesita al menos 3 puntos',
        '3 or more',
      );
    si = check.judged === 'eccentricity' ? sweep.eccentricity.si : sweep.tir.si;
    written = `${points.length} points on ${instrument.id}`;
  } else si = readValue(payload, check, instrument.unit);
  const limit = check.limits[0];
  const lower = limit?.lower?.si ?? Number.NEGATIVE_INFINITY;
  const upper = limit?.upper?.si ?? Number.POSITIVE_INFINITY;
  let verdict = si >= lower && si <= upper ? 'pass' : 'fail';
  let reason = verdict === 'pass' ? 'inside' : 'outside';
  let settle = null;
  if (payload.sweep && payload.sweep.zero_return === undefined) {
    verdict = 'unproven';
    reason = 'setup-not-proven';
    settle = both(
      'Push, release, tap; write down what the zero did.',
      'Empujar, soltar, golpear; anotar qué hizo el cero.',
    );
  }
  const u = Math.max(2e-6, Math.abs(si) * 0.004);
  const remarks = (sweep?.suspects ?? []).map((s) =>
    both(
      `The reading at ${s.angle_deg}° does not belong with the others: clean the place, look for a burr, read it again.`,
      `La lectura a ${s.angle_deg}° no concuerda con las demás: limpiar el sitio, buscar una rebaba, leer otra vez.`,
    ),
  );
  return {
    ...base,
    as_written: written,
    verdict,
    reason,
    reason_title: reasons[reason],
    value: amount(si, check.quantity),
    u: amount(u, check.quantity),
    margin: amount(Math.min(si - lower, upper - si), check.quantity),
    probability: verdict === 'pass' ? 0.99 : 0.01,
    settle,
    remarks,
    sweep,
  };
}

const order = ['fail', 'unproven', 'pass', 'not-taken'];

/** Puts the worst of the standing readings on the check. */
export function settleFinding(check) {
  const verdicts = check.finding.readings.map((r) => r.verdict);
  const worst = order.find((v) => verdicts.includes(v)) ?? 'not-taken';
  const reading = check.finding.readings.find((r) => r.verdict === worst);
  check.finding.verdict = worst;
  check.finding.verdict_title = titles[worst] ?? both('not taken', 'sin tomar');
  check.finding.reason = reading?.reason ?? 'not-taken';
  check.finding.reason_title = reading?.reason_title ?? both('no reading yet', 'todavía sin lectura');
}

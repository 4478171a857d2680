import { describe, expect, it } from 'vitest';
import type { CheckView, InstrumentView } from '../../src/api/types';
import { put, toggleGap } from '../../src/calc/strip';
import { degrees } from '../../src/calc/units';
import { fitting } from '../../src/job/instrument_picker';
import { newKey } from '../../src/outbox/uuid';
import { routeOf } from '../../src/route';
import { entryOf } from '../../src/setup/make_up_fields';
import { emptyMakeUp, isPlannable, tidyMakeUp } from '../../src/setup/tidy_make_up';
import { firstDraft, sweepPayload } from '../../src/sweep/draft';

describe('addresses', () => {
  it('name a screen each', () => {
    expect(routeOf('/')).toEqual({ page: 'benches' });
    expect(routeOf('/job/G-2117')).toEqual({ page: 'job', number: 'G-2117', step: null, check: null });
    expect(routeOf('/job/A%2F1/step/end-float')).toEqual({
      page: 'job',
      number: 'A/1',
      step: 'end-float',
      check: null,
    });
    expect(routeOf('/job/G-1/step/s/check/c')).toEqual({ page: 'job', number: 'G-1', step: 's', check: 'c' });
    expect(routeOf('/job/G-1/release')).toEqual({ page: 'release', number: 'G-1' });
    expect(routeOf('/shop/limits')).toEqual({ page: 'shop', part: 'limits' });
    expect(routeOf('/job/G-1/other')).toEqual({ page: 'unknown', path: '/job/G-1/other' });
  });
});

describe('idempotency keys', () => {
  it('are random UUIDs of version 4, at most 64 characters', () => {
    const keys = Array.from({ length: 200 }, newKey);
    expect(new Set(keys).size).toBe(200);
    for (const k of keys)
      expect(k).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-4[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
  });
});

describe('the instrument picker', () => {
  const check = { instrument: 'dial-indicator', quantity: 'length' } as CheckView;
  const make = (id: string, kind: string, in_date: boolean): InstrumentView => ({
    id,
    kind,
    quantity: 'length',
    unit: 'mm',
    graduation: '0.01 mm',
    due: '2026-01-01',
    in_date,
  });

  it('offers fitting ones only, those in date first, the asked kind before its like', () => {
    const all = [
      make('old', 'dial-indicator', false),
      make('mic', 'micrometer', true),
      make('lever', 'lever-indicator', true),
      make('dial', 'dial-indicator', true),
    ];
    expect(fitting(check, all).map((i) => i.id)).toEqual(['dial', 'lever', 'old']);
  });
});

describe('a make-up', () => {
  it('leaves out what was left empty', () => {
    const tidy = tidyMakeUp({
      ...emptyMakeUp,
      driver: { standard: 'nema', frame: '184JM', flange: '' },
      service: { fluid: 'water', temperature: ' ', suction_pressure: '12 psig' },
      impeller: { keyways: 1, fastener: { thread: '', grade: '', condition: '' } },
    });
    expect(tidy.driver).toEqual({ standard: 'nema', frame: '184JM' });
    expect(tidy.service).toEqual({ fluid: 'water', suction_pressure: '12 psig' });
    expect(tidy.impeller).toEqual({ keyways: 1 });
    expect(isPlannable(tidy)).toBe(false);
  });

  it('keeps of seal and service only what matters for them', () => {
    const full = {
      ...emptyMakeUp,
      seal: {
        kind: 'conical-spring',
        elastomer: 'EPDM',
        lubricant: 'glycol-water',
        ring: 'B',
        seat: '',
        coil: 'left',
        sheet: { outer_diameter: '1.440 in', liquid: 'outside', spring_rate: ' ' },
      },
      impeller: { keyways: 1, back: '' },
      service: { fluid: 'water-glycol', glycol: 'propylene', concentration: '30 %', altitude: '' },
    };
    const mixture = tidyMakeUp(full);
    expect(mixture.seal).toEqual({
      kind: 'conical-spring',
      elastomer: 'EPDM',
      lubricant: 'glycol-water',
      ring: 'B',
      coil: 'left',
      sheet: { outer_diameter: '1.440 in', liquid: 'outside' },
    });
    expect(mixture.service).toEqual({ fluid: 'water-glycol', glycol: 'propylene', concentration: '30 %' });
    expect(mixture.impeller).toEqual({ keyways: 1 });
    const other = tidyMakeUp({
      ...full,
      seal: { ...full.seal, kind: 'elastomer-bellows', sheet: { liquid: 'inside' } },
      service: { ...full.service, fluid: 'sea-water' },
    });
    expect(other.seal.coil).toBeUndefined();
    expect(other.seal.sheet).toBeUndefined();
    expect(other.service).toEqual({ fluid: 'sea-water', concentration: '30 %' });
  });

  it('writes a size the way the job file wants it', () => {
    expect(entryOf({ nominal: '1 in', lower: '', upper: '' })).toBe('1 in');
    expect(entryOf({ nominal: '', lower: '1 in', upper: '2 in' })).toEqual({ lower: '1 in', upper: '2 in' });
    expect(entryOf({ nominal: '1 in', lower: '', upper: '2 in' })).toEqual({
      nominal: '1 in',
      upper: '2 in',
    });
    expect(entryOf({ nominal: '', lower: '', upper: '' })).toBeUndefined();
  });
});

describe('a sweep as it is sent', () => {
  it('carries how the indicator sat and the readings as written', () => {
    const draft = firstDraft({ instrument: 'dial-1', turning: 'rotating', face: false });
    const strip = toggleGap(put(put(draft.strip, degrees(30), '+1.5'), degrees(0), '0'), degrees(90));
    const payload = sweepPayload({
      ...draft,
      setup: { ...draft.setup, zero_return: '0', bar_sag: ' ' },
      strip,
    });
    expect(payload).toEqual({
      mount: 'shaft',
      base: 'motor-face',
      plunger_in: 'plus',
      surface: 'outside',
      zero_return: '0',
      gaps: [{ from_deg: 75, to_deg: 105 }],
      points: [
        { angle_deg: 0, reading: '0' },
        { angle_deg: 30, reading: '+1.5' },
      ],
    });
  });
});

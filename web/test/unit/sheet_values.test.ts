import { describe, expect, test } from 'vitest';
import type { SheetFieldView } from '../../src/api/sheet_types';
import {
  completeValues,
  isAsked,
  lengthOf,
  missing,
  saysMore,
  sheetOf,
  valuesOf,
  withRow,
} from '../../src/sheets/sheet_values';

const field = (at: string, more: Partial<SheetFieldView> = {}): SheetFieldView => ({
  at,
  kind: 'quantity',
  title: { en: at, es: at },
  example: '',
  value: '',
  optional: false,
  bare: false,
  choices: [],
  items: [],
  only_if: null,
  ...more,
});

const fields: SheetFieldView[] = [
  field('/rule/name', { kind: 'word' }),
  field('/rule/own', { only_if: { at: '/rule/name', is: ['own'] } }),
  field('/rule/hold', { optional: true }),
  field('/parts', { kind: 'list', items: [field('/name', { kind: 'text' }), field('/rating')] }),
  field('/seal/fitted', { kind: 'flag' }),
  field('/count', { kind: 'number', optional: true }),
];

const values = {
  '/rule/name': 'own',
  '/rule/own': ' 200 psig ',
  '/parts/0/name': 'casing',
  '/parts/0/rating': '250 psig',
  '/seal/fitted': 'no',
  '/count': '3',
};

const sheet = {
  rule: { name: 'own', own: '200 psig' },
  parts: [{ name: 'casing', rating: '250 psig' }],
  seal: { fitted: false },
  count: 3,
};

describe('a bench test’s sheet', () => {
  test('comes of what was typed, each field at its pointer', () => {
    expect(sheetOf(fields, values)).toEqual(sheet);
  });

  test('is typed again as it stands', () => {
    expect(sheetOf(fields, valuesOf(fields, sheet))).toEqual(sheet);
  });

  test('leaves out what is not asked, and asks nothing of it', () => {
    const other = { ...values, '/rule/name': 'mawp-1.5', '/rule/own': '' };
    expect(fields.filter((f) => isAsked(f, other)).map((f) => f.at)).not.toContain('/rule/own');
    expect(missing(fields, other)).toEqual([]);
    expect(sheetOf(fields, { ...other, '/rule/own': '9 bar(g)' })).toMatchObject({
      rule: { name: 'mawp-1.5' },
    });
  });

  test('puts numbered places into lists, and what is fixed beside what was typed', () => {
    const run = [
      field('/name', { kind: 'text' }),
      field('/fitted/0/plane', { kind: 'fixed', value: '1' }),
      field('/fitted/0/mass', { optional: true }),
      field('/fitted/1/plane', { kind: 'fixed', value: '2' }),
      field('/fitted/1/mass', { optional: true }),
    ];
    const asked = [
      field('/runs', { kind: 'list', items: run }),
      field('/stock', { kind: 'list', optional: true, items: [field('')] }),
      field('/dials/0/name', { kind: 'fixed', value: 'rim' }),
      field('/dials/0/at'),
      field('/dials/1/name', { kind: 'fixed', value: 'face' }),
      field('/dials/1/at', { optional: true }),
    ];
    const typed = {
      '/runs/0/name': 'as found',
      '/runs/1/name': 'trial',
      '/runs/1/fitted/1/mass': '8 g',
      '/stock/0': '1 thou',
      '/stock/1': '2 thou',
      '/dials/0/at': '1 in',
    };
    const out = {
      runs: [
        { name: 'as found', fitted: [] },
        { name: 'trial', fitted: [{ plane: '2', mass: '8 g' }] },
      ],
      stock: ['1 thou', '2 thou'],
      dials: [{ name: 'rim', at: '1 in' }],
    };
    expect(sheetOf(asked, typed)).toEqual(out);
    expect(valuesOf(asked, out)).toMatchObject(typed);
    expect(sheetOf(asked, valuesOf(asked, out))).toEqual(out);
    expect(missing(asked, typed)).toEqual([]);
    expect(sheetOf(asked, { '/dials/0/at': '1 in' })).toEqual({
      runs: [],
      dials: [{ name: 'rim', at: '1 in' }],
    });
  });

  test('gives a bare number the unit of its instrument where the field says so', () => {
    const two = [field('/a', { bare: true }), field('/b')];
    expect(sheetOf(two, { '/a': '-7,5', '/b': '3' }, 'thou')).toEqual({ a: '-7,5 thou', b: '3' });
    expect(sheetOf(two, { '/a': '0.1 mm', '/b': '3 in' }, 'thou')).toEqual({ a: '0.1 mm', b: '3 in' });
  });

  test('takes a number with either decimal mark, and leaves what is none to be refused by its field', () => {
    const one = [field('/n', { kind: 'number' })];
    expect(sheetOf(one, { '/n': '0,75' })).toEqual({ n: 0.75 });
    expect(sheetOf(one, { '/n': 'half' })).toEqual({ n: 'half' });
  });

  test('names what must still be typed, in an element of a list too', () => {
    expect(missing(fields, {})).toEqual(['/rule/name', '/parts/0/name', '/parts/0/rating', '/seal/fitted']);
    expect(missing(fields, { ...values, '/parts/1/name': 'flange' })).toEqual(['/parts/1/rating']);
  });

  test('offers one element of a list more than none', () => {
    const list = fields[3] as SheetFieldView;
    expect(lengthOf(list, {})).toBe(1);
    expect(lengthOf(list, { '/parts/1/name': '' })).toBe(2);
  });
});

describe('a list typed row by row', () => {
  const points = [
    field('/lines/0', { optional: true }),
    field('/points', {
      kind: 'list',
      items: [field('/flow'), field('/suction'), field('/note', { kind: 'text', optional: true })],
    }),
  ];
  const typed = {
    '/points/0/flow': '39.9 gpm',
    '/points/0/suction': '1.95 inHg vacuum',
    '/points/1/flow': '69.7',
    '/points/1/suction': '2.68',
    '/points/2/flow': '5,5 L/s',
    '/points/2/suction': '3',
    '/points/2/note': '7',
  };

  test('a bare number takes the unit written above it', () => {
    expect(sheetOf(points, typed)).toEqual({
      points: [
        { flow: '39.9 gpm', suction: '1.95 inHg vacuum' },
        { flow: '69.7 gpm', suction: '2.68 inHg vacuum' },
        { flow: '5,5 L/s', suction: '3 inHg vacuum', note: '7' },
      ],
    });
  });

  test('a number with nothing above it stays bare', () => {
    expect(sheetOf(points, { '/points/0/flow': '39.9', '/points/0/suction': '2 psi' })).toEqual({
      points: [{ flow: '39.9', suction: '2 psi' }],
    });
  });

  test('an element still being typed waits', () => {
    expect(completeValues(points, { ...typed, '/points/3/flow': '1' })).toEqual(typed);
    expect(completeValues(points, { '/points/0/flow': '1 gpm' })).toBeNull();
    expect(completeValues(fields, { '/parts/0/name': 'casing', '/parts/0/rating': '1 bar' })).toBeNull();
  });

  test('a row of a logger goes behind what is there', () => {
    const [, list] = points;
    if (!list) throw new Error('no list');
    const first = withRow(list, { '/points/0/flow': '' }, { flow: '39.9 gpm', suction: '1 psig' });
    expect(first).toEqual({ '/points/0/flow': '39.9 gpm', '/points/0/suction': '1 psig' });
    expect(withRow(list, typed, { flow: '80 gpm' })).toEqual({ ...typed, '/points/3/flow': '80 gpm' });
  });
});

describe('a sheet that came from elsewhere', () => {
  const meters = [
    field('/meters/0/id', { kind: 'fixed', value: 'flow meter' }),
    field('/meters/0/error'),
    field('/speed', { optional: true }),
  ];

  test('is edited in the fields when they hold all of it', () => {
    expect(saysMore(meters, { speed: '2900 rpm', meters: [{ error: '1 %', id: 'flow meter' }] })).toBe(false);
  });

  test('is left as it is when they would lose or change something', () => {
    expect(saysMore(meters, { meters: [{ id: 'gauge', error: '1 %' }] })).toBe(true);
    expect(saysMore(meters, { meters: [{ id: 'flow meter', error: '1 %', range: '1 bar' }] })).toBe(true);
  });

  test('is edited too when a place in a list was left empty', () => {
    const two = [
      field('/meters/0/id', { kind: 'fixed', value: 'wattmeter' }),
      field('/meters/0/error', { optional: true }),
      field('/meters/1/id', { kind: 'fixed', value: 'voltmeter' }),
      field('/meters/1/error'),
    ];
    const typed = { '/meters/1/error': '0.5 %' };
    const made = sheetOf(two, typed);
    expect(made).toEqual({ meters: [{ error: '0.5 %', id: 'voltmeter' }] });
    expect(valuesOf(two, made)['/meters/1/error']).toBe('0.5 %');
    expect(saysMore(two, made)).toBe(false);
  });
});

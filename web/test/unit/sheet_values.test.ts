import { describe, expect, test } from 'vitest';
import type { SheetFieldView } from '../../src/api/types';
import { isAsked, lengthOf, missing, sheetOf, valuesOf } from '../../src/sheets/sheet_values';

const field = (at: string, more: Partial<SheetFieldView> = {}): SheetFieldView => ({
  at,
  kind: 'quantity',
  title: { en: at, es: at },
  example: '',
  optional: false,
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
    expect(sheetOf(fields, valuesOf(sheet))).toEqual(sheet);
  });

  test('leaves out what is not asked, and asks nothing of it', () => {
    const other = { ...values, '/rule/name': 'mawp-1.5', '/rule/own': '' };
    expect(fields.filter((f) => isAsked(f, other)).map((f) => f.at)).not.toContain('/rule/own');
    expect(missing(fields, other)).toEqual([]);
    expect(sheetOf(fields, { ...other, '/rule/own': '9 bar(g)' })).toMatchObject({
      rule: { name: 'mawp-1.5' },
    });
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

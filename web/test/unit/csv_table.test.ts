import { describe, expect, test } from 'vitest';
import type { SheetFieldView } from '../../src/api/sheet_types';
import { parseCsv, unitOfName } from '../../src/calc/csv_table';
import { filledFrom } from '../../src/sheets/csv_fill';

describe('a CSV file', () => {
  test('is cut at whichever separator its first line has', () => {
    expect(parseCsv('\uFEFFQ [gpm];p out\r\n39,9;33,8\r\n\r\n69,7; 31,8')).toEqual({
      names: ['Q [gpm]', 'p out'],
      rows: [
        ['39,9', '33,8'],
        ['69,7', '31,8'],
      ],
    });
    expect(parseCsv('a\tb\n1\t')?.rows).toEqual([['1', '']]);
  });

  test('keeps separators, line ends and quotes within double quotes', () => {
    expect(parseCsv('name,say\n"a, b","he said ""no""\nand left"')?.rows).toEqual([
      ['a, b', 'he said "no"\nand left'],
    ]);
  });

  test('is none without a row', () => {
    expect(parseCsv('')).toBeNull();
    expect(parseCsv('Q,p\n')).toBeNull();
  });

  test('names a unit in brackets', () => {
    expect(unitOfName('Q [m³/h]')).toBe('m³/h');
    expect(unitOfName('p out (psig)')).toBe('psig');
    expect(unitOfName('speed')).toBe('');
  });
});

describe('a list filled from it', () => {
  const field = (at: string, kind: SheetFieldView['kind'], items: SheetFieldView[] = []): SheetFieldView => ({
    at,
    kind,
    title: { en: at, es: at },
    example: '',
    value: '',
    optional: false,
    bare: false,
    choices: [],
    items,
    only_if: null,
  });
  const list = field('/points', 'list', [
    field('/flow', 'quantity'),
    field('/power_factor', 'number'),
    field('/note', 'text'),
  ]);

  test('takes the place of what was typed, and nothing else', () => {
    const table = {
      names: ['Q', 'cos'],
      rows: [
        ['39.9', '0.676'],
        ['69.7', ''],
      ],
    };
    const mapping = { '/flow': { column: 'Q', unit: 'gpm' }, '/power_factor': { column: 'cos', unit: '' } };
    expect(filledFrom(list, table, mapping, { '/points/4/flow': '1 gpm', '/lines/0': '460 V' })).toEqual({
      '/lines/0': '460 V',
      '/points/0/flow': '39.9 gpm',
      '/points/0/power_factor': '0.676',
      '/points/1/flow': '69.7 gpm',
    });
  });
});

// Which column of the shop's old records means what, and whether it fits a file's first line.
import type { OldColumns } from '../api/old_types';

/** Fields of an old record that stand in one column. */
export const oldFields = [
  'serial',
  'came_in',
  'went_out',
  'number',
  'pump',
  'customer',
  'seal',
  'reason',
  'came_for',
  'found',
  'changed',
] as const;
export type OldField = (typeof oldFields)[number];

export const emptyColumns: OldColumns = { serial: '', came_in: '', dates: 'year-month-day' };

/** As the server takes them: what has no column is left out. */
export function tidyColumns(columns: OldColumns): OldColumns {
  const kept = oldFields
    .filter((f) => f === 'serial' || f === 'came_in' || (columns[f] ?? '') !== '')
    .map((f) => [f, columns[f] ?? '']);
  const { dates, fault_words, other_words, readings } = columns;
  return {
    ...(Object.fromEntries(kept) as unknown as OldColumns),
    dates,
    ...(fault_words?.length ? { fault_words } : {}),
    ...(other_words?.length ? { other_words } : {}),
    ...(readings?.length ? { readings } : {}),
  };
}

export const isEnough = (columns: OldColumns): boolean => columns.serial !== '' && columns.came_in !== '';

/** Whether every column that is named stands in the first line. */
export function fitsHeader(columns: OldColumns, header: readonly string[]): boolean {
  const named = [...oldFields.map((f) => columns[f] ?? ''), ...(columns.readings ?? []).map((r) => r.column)];
  return named.every((name) => name === '' || header.includes(name));
}

/** "leak, noisy" as the words it names. */
export const wordsOf = (text: string): string[] =>
  text
    .split(',')
    .map((w) => w.trim())
    .filter((w) => w !== '');

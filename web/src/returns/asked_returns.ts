// What is asked of the shop's builds, and the address that asks it.

export type Compare = '' | 'pump' | 'customer' | 'seal' | 'changed';

export interface ReturnsQuestion {
  pump: string;
  customer: string;
  seal: string;
  compare: Compare;
  /** A day, when builds before and since are compared. */
  changed: string;
  readings: readonly string[];
}

export const nothingAsked: ReturnsQuestion = {
  pump: '',
  customer: '',
  seal: '',
  compare: '',
  changed: '',
  readings: [],
};

export function returnsPath(q: ReturnsQuestion): string {
  const asked = new URLSearchParams();
  for (const name of ['pump', 'customer', 'seal'] as const) if (q[name] !== '') asked.set(name, q[name]);
  if (q.compare === 'changed') {
    if (q.changed !== '') asked.set('changed', q.changed);
  } else if (q.compare !== '') asked.set('by', q.compare);
  if (q.readings.length > 0) asked.set('reading', q.readings.join(','));
  const text = asked.toString();
  return text === '' ? '/api/returns' : `/api/returns?${text}`;
}

// What the seal's sheet is asked: the job's own conditions, or others as hands write them. Nothing of it is kept.

export const conditions = ['temperature', 'suction', 'head', 'speed', 'length', 'altitude'] as const;
export type Condition = (typeof conditions)[number];
export type TriedConditions = Partial<Record<Condition, string>>;

/** The query of the question; empty when only the job's own conditions are asked about. */
export function questionOf(tried: TriedConditions): string {
  const asked = conditions
    .map((name) => [name, (tried[name] ?? '').trim()] as const)
    .filter(([, text]) => text !== '')
    .map(([name, text]) => `${name}=${encodeURIComponent(text)}`);
  return asked.length > 0 ? `?${asked.join('&')}` : '';
}

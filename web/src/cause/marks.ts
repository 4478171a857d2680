// What is marked at a strip-down, and the sheet that comes of it.
import type { StripPart } from '../api/cause_types';
import type { Sheet } from '../sheets/sheet_values';

export interface Mark {
  seen: 'there' | 'not';
  where: string;
  note: string;
}

/** By the finding's word. */
export type Marks = Readonly<Record<string, Mark>>;

interface Thing {
  finding: string;
  said?: string;
  where?: string;
  note?: string;
}

const thingsIn = (sheet: Sheet, key: string): Thing[] => {
  const list = sheet[key];
  if (!Array.isArray(list)) return [];
  return list.map((entry) => (typeof entry === 'string' ? { finding: entry } : (entry as Thing)));
};

/** As they stand in a sheet that was handed in before. */
export function marksOf(sheet: Sheet): Marks {
  const out: Record<string, Mark> = {};
  for (const [key, seen] of [
    ['found', 'there'],
    ['not_found', 'not'],
  ] as const)
    for (const thing of thingsIn(sheet, key))
      out[thing.finding] = { seen, where: thing.where ?? '', note: thing.note ?? '' };
  return out;
}

/** Pressed again, a mark is taken away. */
export function marked(marks: Marks, finding: string, seen: Mark['seen']): Marks {
  const { [finding]: before, ...rest } = marks;
  if (before?.seen === seen) return rest;
  return { ...rest, [finding]: { seen, where: before?.where ?? '', note: before?.note ?? '' } };
}

export function withWhere(marks: Marks, finding: string, where: string): Marks {
  const before = marks[finding];
  return before ? { ...marks, [finding]: { ...before, where } } : marks;
}

/** `saidAs`: how the screen names a finding, kept with it: a record says what the hand saw. */
export function sheetOfMarks(marks: Marks, saidAs: (finding: string) => string): Sheet {
  const things = (seen: Mark['seen']): Thing[] =>
    Object.entries(marks)
      .filter(([, mark]) => mark.seen === seen)
      .map(([finding, mark]) => ({
        finding,
        ...(saidAs(finding) === '' ? {} : { said: saidAs(finding) }),
        ...(mark.where.trim() === '' ? {} : { where: mark.where.trim() }),
        ...(mark.note === '' ? {} : { note: mark.note }),
      }));
  const found = things('there');
  const notFound = things('not');
  return {
    ...(found.length > 0 ? { found } : {}),
    ...(notFound.length > 0 ? { not_found: notFound } : {}),
  };
}

/** How many of a part's findings are there, and how many are not. */
export function countsIn(part: StripPart, marks: Marks): { there: number; not: number } {
  const seen = part.findings.map((f) => marks[f.finding]?.seen);
  return { there: seen.filter((s) => s === 'there').length, not: seen.filter((s) => s === 'not').length };
}

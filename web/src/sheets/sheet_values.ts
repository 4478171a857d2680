// What is typed into the fields of a bench test's sheet, as one text per JSON pointer, and the sheet that comes of it.
import type { SheetFieldView } from '../api/types';

export type SheetValues = Readonly<Record<string, string>>;
export type Sheet = Record<string, unknown>;

const steps = (pointer: string): string[] => pointer.split('/').slice(1);

const filled = (text: string | undefined): text is string => text !== undefined && text.trim() !== '';

/** Whether a field is asked at all, as the others stand. */
export const isAsked = (field: SheetFieldView, values: SheetValues): boolean =>
  field.only_if === null || field.only_if.is.includes(values[field.only_if.at] ?? '');

/** Where one element of a list keeps one of its values. */
export const itemAt = (list: SheetFieldView, index: number, item: SheetFieldView): string =>
  `${list.at}/${index}${item.at}`;

/** How many elements of a list something was typed into; at least one is offered. */
export function lengthOf(list: SheetFieldView, values: SheetValues): number {
  const used = Object.keys(values)
    .filter((at) => at.startsWith(`${list.at}/`))
    .map((at) => Number(at.slice(list.at.length + 1).split('/')[0]) + 1);
  return Math.max(1, ...used);
}

function flatten(value: unknown, at: string, out: Record<string, string>): void {
  if (typeof value === 'boolean') out[at] = value ? 'yes' : 'no';
  else if (typeof value === 'string' || typeof value === 'number') out[at] = String(value);
  else if (value !== null && typeof value === 'object')
    for (const [key, inner] of Object.entries(value)) flatten(inner, `${at}/${key}`, out);
}

/** A sheet as it would be typed. */
export function valuesOf(sheet: Sheet): SheetValues {
  const out: Record<string, string> = {};
  flatten(sheet, '', out);
  return out;
}

function written(field: SheetFieldView, text: string): unknown {
  if (field.kind === 'flag') return text === 'yes';
  return field.kind === 'number' ? Number(text) : text.trim();
}

function put(sheet: Sheet, pointer: string, value: unknown): void {
  const path = steps(pointer);
  const last = path.pop() ?? '';
  let at = sheet;
  for (const key of path) {
    at[key] ??= {};
    at = at[key] as Sheet;
  }
  at[last] = value;
}

function elements(list: SheetFieldView, values: SheetValues): Sheet[] {
  const out: Sheet[] = [];
  for (let i = 0; i < lengthOf(list, values); i++) {
    const element: Sheet = {};
    for (const item of list.items) {
      const text = values[itemAt(list, i, item)];
      if (filled(text)) put(element, item.at, written(item, text));
    }
    if (Object.keys(element).length > 0) out.push(element);
  }
  return out;
}

/** The sheet of what is asked and was typed. */
export function sheetOf(fields: readonly SheetFieldView[], values: SheetValues): Sheet {
  const sheet: Sheet = {};
  for (const field of fields.filter((f) => isAsked(f, values))) {
    const text = values[field.at];
    if (field.kind === 'list') put(sheet, field.at, elements(field, values));
    else if (filled(text)) put(sheet, field.at, written(field, text));
  }
  return sheet;
}

/** Pointers of what must still be typed. */
export function missing(fields: readonly SheetFieldView[], values: SheetValues): string[] {
  return fields
    .filter((f) => isAsked(f, values) && !f.optional)
    .flatMap((f) => {
      if (f.kind !== 'list') return filled(values[f.at]) ? [] : [f.at];
      const started = elements(f, values).length;
      return Array.from({ length: Math.max(1, started) }, (_, i) =>
        f.items
          .filter((item) => !item.optional && !filled(values[itemAt(f, i, item)]))
          .map((item) => itemAt(f, i, item)),
      ).flat();
    });
}

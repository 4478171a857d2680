// What is typed into the fields of a bench test's sheet, as one text per JSON pointer, and the sheet that comes of it.
import type { SheetFieldView } from '../api/sheet_types';
import { numberOf } from '../calc/plain_number';

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

const isPlace = (step: string | undefined): boolean => step !== undefined && /^\d+$/.test(step);

const valueAt = (sheet: unknown, path: readonly string[]): unknown =>
  path.reduce<unknown>((at, key) => (at as Sheet | undefined)?.[key], sheet);

/** Entries of lists, each where the field fixed beside it says. */
function placed(fields: readonly SheetFieldView[], sheet: Sheet): Sheet {
  const out = structuredClone(sheet);
  const cleared = new Set<string>();
  for (const field of fields) {
    const path = steps(field.at).slice(0, -2);
    const [place, key] = steps(field.at).slice(-2);
    const entries = valueAt(sheet, path);
    if (field.kind !== 'fixed' || !isPlace(place) || !Array.isArray(entries)) continue;
    const list = path.join('/');
    if (!cleared.has(list)) put(out, path, []);
    cleared.add(list);
    const mine = entries.find((entry) => (entry as Sheet)[key ?? ''] === field.value);
    if (mine !== undefined) (valueAt(out, path) as unknown[])[Number(place)] = mine;
  }
  return out;
}

/** A sheet as it would be typed into these fields. */
export function valuesOf(fields: readonly SheetFieldView[], sheet: Sheet): SheetValues {
  const out: Record<string, string> = {};
  flatten(placed(fields, sheet), '', out);
  for (const list of fields.filter((f) => f.kind === 'list')) {
    const elements = valueAt(sheet, steps(list.at));
    if (!Array.isArray(elements)) continue;
    for (const at of Object.keys(out)) if (at.startsWith(`${list.at}/`)) delete out[at];
    elements.forEach((element, i) => {
      const typed = typeof element === 'object' ? placed(list.items, element as Sheet) : element;
      flatten(typed, `${list.at}/${i}`, out);
    });
  }
  return out;
}

const bareNumber = /^\s*[+-]?\d*[.,]?\d+\s*$/;

/** `unit`: what a number without one takes; empty where it must have its own. */
function written(field: SheetFieldView, text: string, unit: string): unknown {
  if (field.kind === 'flag') return text === 'yes';
  if (field.kind === 'quantity' && unit !== '' && bareNumber.test(text)) return `${text.trim()} ${unit}`;
  if (field.kind !== 'number') return text.trim();
  return numberOf(text) ?? text.trim();
}

/** Of a number with a unit behind it, the unit. */
const unitIn = (text: string): string =>
  /^\s*[+-]?\d*[.,]?\d+\s*([^\d\s.,].*)$/.exec(text)?.[1]?.trim() ?? '';

/** The unit a bare number of a list takes: the one written above it, in an earlier element. */
export function unitAbove(
  list: SheetFieldView,
  values: SheetValues,
  index: number,
  item: SheetFieldView,
): string {
  if (item.kind !== 'quantity') return '';
  for (let i = index - 1; i >= 0; i--) {
    const unit = unitIn(values[itemAt(list, i, item)] ?? '');
    if (unit !== '') return unit;
  }
  return '';
}

/** A value at its path; what it stands in is made, a list where its own step is a number. */
function put(into: Sheet, [key, ...rest]: readonly string[], value: unknown): void {
  if (key === undefined) return;
  if (rest.length === 0) {
    into[key] = value;
    return;
  }
  into[key] ??= isPlace(rest[0]) ? [] : {};
  put(into[key] as Sheet, rest, value);
}

/** Whether something was typed beside a fixed field, so that it is wanted. */
function hasBeside(sheet: unknown, [key, ...rest]: readonly string[]): boolean {
  if (rest.length === 0) return sheet !== undefined && Object.keys(sheet as Sheet).length > 0;
  return sheet !== undefined && key !== undefined && hasBeside((sheet as Sheet)[key], rest);
}

/** Places of a list into which nothing was typed are not in it. */
function packed(value: unknown): unknown {
  if (Array.isArray(value)) return value.filter((v) => v !== undefined).map(packed);
  if (value === null || typeof value !== 'object') return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, packed(inner)]));
}

function fixedInto(fields: readonly SheetFieldView[], sheet: Sheet): Sheet {
  for (const field of fields)
    if (field.kind === 'fixed' && hasBeside(sheet, steps(field.at))) put(sheet, steps(field.at), field.value);
  return packed(sheet) as Sheet;
}

/** Lists within an element stand in it even when empty: what was typed is then all there was. */
function emptyLists(list: SheetFieldView, element: Sheet): void {
  for (const item of list.items) {
    const [name, place] = steps(item.at);
    if (name !== undefined && isPlace(place)) element[name] ??= [];
  }
}

function element(list: SheetFieldView, values: SheetValues, unit: string, index: number): unknown {
  const unitFor = (item: SheetFieldView) => unitAbove(list, values, index, item) || (item.bare ? unit : '');
  const whole = list.items.find((item) => item.at === '');
  if (whole) {
    const text = values[itemAt(list, index, whole)];
    return filled(text) ? written(whole, text, unitFor(whole)) : undefined;
  }
  const out: Sheet = {};
  for (const item of list.items) {
    const text = values[itemAt(list, index, item)];
    if (filled(text)) put(out, steps(item.at), written(item, text, unitFor(item)));
  }
  if (Object.keys(out).length === 0) return undefined;
  emptyLists(list, out);
  return fixedInto(list.items, out);
}

function elements(list: SheetFieldView, values: SheetValues, unit: string): unknown[] {
  return Array.from({ length: lengthOf(list, values) }, (_, i) => element(list, values, unit, i)).filter(
    (one) => one !== undefined,
  );
}

/** The sheet of what is asked and was typed; `unit` is the instrument's, for bare numbers. A list of which nothing may be there is left out when empty. */
export function sheetOf(fields: readonly SheetFieldView[], values: SheetValues, unit = ''): Sheet {
  const sheet: Sheet = {};
  const asked = fields.filter((f) => isAsked(f, values));
  for (const field of asked) {
    const text = values[field.at];
    if (field.kind === 'list') {
      const all = elements(field, values, unit);
      if (all.length > 0 || !field.optional) put(sheet, steps(field.at), all);
    } else if (filled(text)) put(sheet, steps(field.at), written(field, text, field.bare ? unit : ''));
  }
  return fixedInto(asked, sheet);
}

/** Pointers of what must still be typed. */
export function missing(fields: readonly SheetFieldView[], values: SheetValues): string[] {
  return fields
    .filter((f) => isAsked(f, values) && !f.optional && f.kind !== 'fixed')
    .flatMap((f) => {
      if (f.kind !== 'list') return filled(values[f.at]) ? [] : [f.at];
      const started = elements(f, values, '').length;
      return Array.from({ length: Math.max(1, started) }, (_, i) =>
        f.items
          .filter((item) => !item.optional && item.kind !== 'fixed' && !filled(values[itemAt(f, i, item)]))
          .map((item) => itemAt(f, i, item)),
      ).flat();
    });
}

/** What was typed without the elements of lists that are still being typed; null while anything else is missing. */
export function completeValues(fields: readonly SheetFieldView[], values: SheetValues): SheetValues | null {
  const left = missing(fields, values);
  const unfinished = left.map((at) => fields.find((f) => f.kind === 'list' && at.startsWith(`${f.at}/`)));
  if (unfinished.includes(undefined)) return null;
  const places = left.map((at, i) => {
    const list = unfinished[i]?.at ?? '';
    return `${list}/${at.slice(list.length + 1).split('/')[0]}/`;
  });
  const kept = Object.entries(values).filter(([at]) => !places.some((p) => `${at}/`.startsWith(p)));
  const complete = Object.fromEntries(kept);
  return missing(fields, complete).length === 0 ? complete : null;
}

/** One element more at the end of a list, in the first place that is still empty. */
export function withRow(
  list: SheetFieldView,
  values: SheetValues,
  row: Readonly<Record<string, string | number>>,
): SheetValues {
  const used = Object.keys(values).filter((at) => at.startsWith(`${list.at}/`) && filled(values[at]));
  const index = used.length === 0 ? 0 : lengthOf(list, Object.fromEntries(used.map((at) => [at, ''])));
  const added = Object.entries(row).map(([key, value]): [string, string] => [
    `${list.at}/${index}/${key}`,
    String(value),
  ]);
  return { ...values, ...Object.fromEntries(added) };
}

const sorted = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== 'object') return value;
  return Object.entries(value)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, inner]) => [key, sorted(inner)]);
};

/** Whether a sheet, such as one that came with a job file, holds what these fields would lose or change. */
export const saysMore = (fields: readonly SheetFieldView[], sheet: Sheet): boolean =>
  JSON.stringify(sorted(sheetOf(fields, valuesOf(fields, sheet)))) !== JSON.stringify(sorted(sheet));

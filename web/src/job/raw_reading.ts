// A reading as the hand wrote it, in one line; for readings that are not judged yet and for those that were replaced.
import type { ReadingPayload } from '../api/types';
import { valuesOf } from '../sheets/sheet_values';
import { t } from '../text/text';

/** A long sheet by how it begins; all of it stands in the record. */
const shortened = (text: string): string => (text.length > 120 ? `${text.slice(0, 117)}…` : text);

export function rawText(p: ReadingPayload): string {
  if (p.done !== undefined)
    return [p.done ? t('rawDone') : t('rawNotSo'), p.note ?? ''].filter(Boolean).join(': ');
  if (p.value !== undefined) return p.value;
  if (p.values) return p.values.join('; ');
  if (p.size) return p.size.points.map((q) => q.diameter).join('; ');
  if (p.sweep) return p.sweep.points.map((q) => `${q.angle_deg}° ${q.reading}`).join('; ');
  if (p.sheet) return shortened(Object.values(valuesOf([], p.sheet)).join('; '));
  return '';
}

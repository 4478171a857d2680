// The page's own words in the language chosen. Words of the trade come from the server with the data.
import { language } from '../session/preferences';
import { en } from './en';
import { es } from './es';

export type TextKey = keyof typeof en;

const dictionaries: Record<'en' | 'es', Record<TextKey, string>> = { en, es };

/** Fills {name} from `values`. */
export function t(key: TextKey, values: Record<string, string | number> = {}): string {
  return dictionaries[language.value][key].replace(/\{(\w+)\}/g, (whole, name: string) =>
    name in values ? String(values[name]) : whole,
  );
}

// Language, units and theme: switchable at any time, remembered on the device, and without any hold on what is stored.
import { effect, signal } from '@preact/signals';
import type { Amount, LimitView, Text } from '../api/types';
import { metres } from '../calc/units';
import { recall, remember } from './remembered';

export type Language = 'en' | 'es';
export type Units = 'inch' | 'metric';
export type Theme = 'bright' | 'dark';

function startLanguage(): Language {
  const known = recall('language');
  if (known === 'en' || known === 'es') return known;
  return typeof navigator !== 'undefined' && navigator.language.startsWith('es') ? 'es' : 'en';
}

function startTheme(): Theme {
  const known = recall('theme');
  if (known === 'bright' || known === 'dark') return known;
  const dark = typeof matchMedia !== 'undefined' && matchMedia('(prefers-color-scheme: dark)').matches;
  return dark ? 'dark' : 'bright';
}

export const language = signal<Language>(startLanguage());
export const units = signal<Units>(recall('units') === 'metric' ? 'metric' : 'inch');
export const theme = signal<Theme>(startTheme());

/** Text of the server in the language chosen. */
export function say(text: Text | string | null | undefined): string {
  if (text === null || text === undefined) return '';
  return typeof text === 'string' ? text : text[language.value];
}

export const show = (amount: Amount | null | undefined): string => (amount ? amount[units.value] : '');
export const showLimit = (limit: LimitView): string => say(limit.text[units.value]);

/** What scale bars are counted in. */
export const fineUnit = () =>
  units.value === 'inch'
    ? { symbol: 'thou', length: metres(2.54e-5) }
    : { symbol: 'mm', length: metres(1e-3) };
export const coarseUnit = () =>
  units.value === 'inch' ? { symbol: 'in', length: metres(0.0254) } : { symbol: 'mm', length: metres(1e-3) };

const locale = () => (language.value === 'es' ? 'es' : 'en-GB');

export function timeText(utc: string): string {
  const at = new Date(utc);
  if (Number.isNaN(at.getTime())) return utc;
  const today = new Date().toDateString() === at.toDateString();
  const format: Intl.DateTimeFormatOptions = today
    ? { hour: '2-digit', minute: '2-digit' }
    : { day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' };
  return new Intl.DateTimeFormat(locale(), format).format(at);
}

export function followPreferences(): void {
  effect(() => {
    document.documentElement.lang = language.value;
    document.documentElement.dataset.theme = theme.value;
    remember('language', language.value);
    remember('units', units.value);
    remember('theme', theme.value);
  });
}

// Where we are: addresses without a hash, so that a tag, a bookmark and the back button all work.
import { signal } from '@preact/signals';

export type Route =
  | { page: 'benches' }
  | { page: 'job'; number: string; step: string | null; check: string | null }
  | { page: 'release'; number: string }
  | { page: 'new' }
  | { page: 'shop'; part: string }
  | { page: 'returns' }
  | { page: 'kept' }
  | { page: 'me' }
  | { page: 'unknown'; path: string };

export function routeOf(path: string): Route {
  const parts = path.split('/').filter(Boolean).map(decodeURIComponent);
  const [first, second, third, fourth, fifth, sixth] = parts;
  if (first === undefined) return { page: 'benches' };
  if (first === 'new' && parts.length === 1) return { page: 'new' };
  if (first === 'returns' && parts.length === 1) return { page: 'returns' };
  if (first === 'kept' && parts.length === 1) return { page: 'kept' };
  if (first === 'me' && parts.length === 1) return { page: 'me' };
  if (first === 'shop' && parts.length <= 2) return { page: 'shop', part: second ?? 'people' };
  if (first === 'job' && second !== undefined) {
    if (third === undefined) return { page: 'job', number: second, step: null, check: null };
    if (third === 'release' && parts.length === 3) return { page: 'release', number: second };
    if (third === 'step' && fourth !== undefined) {
      if (fifth === undefined) return { page: 'job', number: second, step: fourth, check: null };
      if (fifth === 'check' && sixth !== undefined)
        return { page: 'job', number: second, step: fourth, check: sixth };
    }
  }
  return { page: 'unknown', path };
}

const here = () => {
  try {
    return routeOf(location.pathname);
  } catch {
    return { page: 'unknown' as const, path: location.pathname };
  }
};

export const route = signal<Route>(typeof location === 'undefined' ? { page: 'benches' } : here());

export const address = {
  benches: '/',
  job: (number: string) => `/job/${encodeURIComponent(number)}`,
  step: (number: string, step: string) => `${address.job(number)}/step/${encodeURIComponent(step)}`,
  check: (number: string, step: string, check: string) =>
    `${address.step(number, step)}/check/${encodeURIComponent(check)}`,
  release: (number: string) => `${address.job(number)}/release`,
  new: '/new',
  shop: (part: string) => `/shop/${part}`,
  returns: '/returns',
  kept: '/kept',
  me: '/me',
};

export function go(path: string, how: 'push' | 'replace' = 'push'): void {
  if (how === 'push') history.pushState(null, '', path);
  else history.replaceState(null, '', path);
  route.value = here();
}

/** Ordinary links stay ordinary links; a plain click on one of ours does not reload the page. */
export function followLinks(): void {
  window.addEventListener('popstate', () => {
    route.value = here();
  });
  document.addEventListener('click', (event) => {
    if (event.defaultPrevented || event.button !== 0 || event.ctrlKey || event.metaKey || event.shiftKey)
      return;
    const link = (event.target as Element | null)?.closest('a');
    const href = link?.getAttribute('href');
    if (!href?.startsWith('/') || href.startsWith('/api/') || link?.hasAttribute('download')) return;
    event.preventDefault();
    go(href);
  });
}

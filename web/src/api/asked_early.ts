// Answers that early.ts asked for before the page was there. Each is taken once, and none once something was changed.

export interface AskedEarly {
  answer: Promise<Response>;
  giveUp: AbortController;
}

declare global {
  interface Window {
    pumpwrightAsked?: Map<string, AskedEarly>;
  }
}

export function takeEarly(path: string): AskedEarly | undefined {
  const early = window.pumpwrightAsked?.get(path);
  window.pumpwrightAsked?.delete(path);
  return early;
}

/** What was asked for before a change, a sign-in above all, says nothing any more. */
export function forgetEarly(): void {
  window.pumpwrightAsked?.clear();
}

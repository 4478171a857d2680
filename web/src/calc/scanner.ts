// Tells a keyboard scanner from a hand: keys that follow one another faster than a hand types and end with Enter.

export interface Typed {
  text: string;
  /** Of the last key, in milliseconds of any steady clock. */
  at: number;
}

export const nothingTyped: Typed = { text: '', at: Number.NEGATIVE_INFINITY };

/** Longest pause within one scan, and the shortest text taken for one. */
export const pauseMax = 60;
export const lengthMin = 4;

/** Takes one key; gives what stands now and, on Enter after a fast run, the scanned text. */
export function takeKey(before: Typed, key: string, at: number): { typed: Typed; scanned: string | null } {
  const goesOn = at - before.at <= pauseMax;
  if (key === 'Enter') {
    const scanned = goesOn && before.text.length >= lengthMin ? before.text : null;
    return { typed: nothingTyped, scanned };
  }
  if (key.length !== 1) return { typed: before, scanned: null };
  return { typed: { text: (goesOn ? before.text : '') + key, at }, scanned: null };
}

/** The job number in what a tag holds: an address of this page, or the number itself. */
export function jobNumberOf(scanned: string): string {
  const address = /\/job\/([^/?#\s]+)/.exec(scanned);
  if (address?.[1] !== undefined) return decodeURIComponent(address[1]);
  return scanned.trim();
}

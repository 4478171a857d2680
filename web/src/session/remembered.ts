// Small things a tablet remembers for itself: language, units, theme, the instrument last used. Never a reading.

const prefix = 'pumpwright/';

export function recall(name: string): string | null {
  try {
    return localStorage.getItem(prefix + name);
  } catch {
    return null;
  }
}

export function remember(name: string, value: string): void {
  try {
    localStorage.setItem(prefix + name, value);
  } catch {
    // A browser that keeps nothing still works; it only asks again.
  }
}

// What arrives on the keyboard or the on-screen pad while a reading is typed: text only. Whether it is a number, and
// in which unit, the server says.

const allowed = /^[0-9.,+\-−/ a-zµ"'°]$/i;

export const isReadingKey = (key: string): boolean => key.length === 1 && allowed.test(key);

/** The same text with the other sign. */
export function flipSign(text: string): string {
  const rest = text.replace(/^\s*[+\-−]\s*/, '');
  return /^\s*[-−]/.test(text) ? `+${rest}` : `-${rest}`;
}

export const isBlank = (text: string): boolean => text.trim() === '';

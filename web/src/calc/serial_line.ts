// Cuts what a serial indicator sends into readings: one per line; of a line the last signed number, as text.

export interface Lines {
  /** What came after the last line end. */
  rest: string;
}

const number = /[+\-−]?\d+(?:[.,]\d+)?|[+\-−]?[.,]\d+/g;

export function takeChunk(before: Lines, chunk: string): { lines: Lines; readings: string[] } {
  const parts = (before.rest + chunk).split(/[\r\n]+/);
  const rest = parts.pop() ?? '';
  const readings = parts.flatMap((line) => {
    const all = line.match(number);
    const last = all?.[all.length - 1];
    return last === undefined ? [] : [last];
  });
  return { lines: { rest: rest.slice(-200) }, readings };
}

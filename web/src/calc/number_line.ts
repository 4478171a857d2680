// Where value, uncertainty and limits stand on a line, as shares of its length. Only places on the screen; whether the
// value is good is the server's to say.

export interface LineInput {
  value: number | null;
  /** Half the width of the doubt about the value. */
  u: number | null;
  lower: number | null;
  upper: number | null;
}

export interface LinePlaces {
  lower: number | null;
  upper: number | null;
  value: number | null;
  spread: [number, number] | null;
}

/** Null when there is nothing to span a line with. */
export function linePlaces({ value, u, lower, upper }: LineInput): LinePlaces | null {
  const reach = u ?? 0;
  const marks = [
    lower,
    upper,
    value === null ? null : value - reach,
    value === null ? null : value + reach,
  ].filter((m): m is number => m !== null);
  if (lower === null && upper !== null && upper > 0) marks.push(0);
  if (marks.length === 0) return null;
  let low = Math.min(...marks);
  let high = Math.max(...marks);
  if (high - low <= 0) {
    const room = Math.abs(high) * 0.1 || 1;
    low -= room;
    high += room;
  }
  const margin = (high - low) * 0.12;
  low -= margin;
  high += margin;
  const at = (x: number) => (x - low) / (high - low);
  return {
    lower: lower === null ? null : at(lower),
    upper: upper === null ? null : at(upper),
    value: value === null ? null : at(value),
    spread: value === null || u === null ? null : [at(value - reach), at(value + reach)],
  };
}

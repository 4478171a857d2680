// A curve along the seal's face as the path of a drawing; pure places, no units.

export interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** Where `value` stands between `low` and `high`, 0 to 1; the middle when there is nothing between them. */
export function shareOf(value: number, low: number, high: number): number {
  if (!(high > low)) return 0.5;
  return Math.min(1, Math.max(0, (value - low) / (high - low)));
}

const place = (n: number): string => n.toFixed(1);

/** Points from left to right by `along`, upwards by `values` between `low` and `high`; empty for fewer than two. */
export function curvePoints(
  along: readonly number[],
  values: readonly number[],
  range: { low: number; high: number },
  box: Box,
): [number, number][] {
  if (along.length < 2 || along.length !== values.length) return [];
  const first = along[0]!;
  const last = along[along.length - 1]!;
  return along.map((x, i) => [
    box.left + shareOf(x, first, last) * (box.right - box.left),
    box.bottom - shareOf(values[i]!, range.low, range.high) * (box.bottom - box.top),
  ]);
}

export const pathOf = (points: readonly (readonly [number, number])[]): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${place(x)} ${place(y)}`).join('');

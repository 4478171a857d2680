// While a bracket is tapped over with the dial left standing in line with the move: what it will read at the end, and how
// far there is to go. The shaft carries the dial, its plunger on the inside of the bore; pushed in reads plus.

/** A length as the server wrote it: "3.0 thou". */
export interface Move {
  distance: number;
  unit: string;
  decimals: number;
}

export function moveOf(text: string): Move | null {
  const found = /^(\d+(?:\.(\d+))?)\s*(\S+)$/.exec(text.trim());
  if (!found) return null;
  const [, number = '', fraction = '', unit = ''] = found;
  const distance = Number(number);
  return distance > 0 ? { distance, unit, decimals: fraction.length } : null;
}

/** The bore moves away from the dial on the side it is tapped to, and comes to it on the other. */
const perUnit = (opposite: boolean): 1 | -1 => (opposite ? 1 : -1);

export const readingAtEnd = (move: Move, start: number, opposite: boolean): number =>
  start + perUnit(opposite) * move.distance;

/** Still to go; below zero when it went too far. */
export const leftToGo = (move: Move, start: number, now: number, opposite: boolean): number =>
  move.distance - perUnit(opposite) * (now - start);

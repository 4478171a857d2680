// Steps that people can count by: 1, 2 or 5 times a power of ten.

/** The largest such step that is not larger than `largest` (> 0). */
export function niceStepBelow(largest: number): number {
  const power = 10 ** Math.floor(Math.log10(largest));
  for (const factor of [5, 2]) if (factor * power <= largest * (1 + 1e-9)) return factor * power;
  return power;
}

/** Without the noise of binary fractions: 0.30000000000000004 is 0.3. */
export const tidy = (value: number): number => Number(value.toPrecision(12));

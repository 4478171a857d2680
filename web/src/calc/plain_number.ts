// A number without a unit as a hand types it, with either decimal mark and either minus.

/** Nothing when the text is empty or no number. */
export function numberOf(text: string): number | null {
  const plain = text.trim().replace('−', '-').replace(',', '.');
  const number = Number(plain);
  return plain === '' || !Number.isFinite(number) ? null : number;
}

// Numbers that must not be mixed up get types of their own: an angle in degrees can not be handed in as radians, a
// length of the pump not as a length on the screen.

declare const brand: unique symbol;
type Branded<Name extends string> = number & { readonly [brand]: Name };

export type Degrees = Branded<'degrees'>;
export type Radians = Branded<'radians'>;
export type Metres = Branded<'metres'>;
export type Pixels = Branded<'pixels'>;

export const degrees = (value: number): Degrees => value as Degrees;
export const radians = (value: number): Radians => value as Radians;
export const metres = (value: number): Metres => value as Metres;
export const pixels = (value: number): Pixels => value as Pixels;

export const toRadians = (angle: Degrees): Radians => radians((angle * Math.PI) / 180);

/** The same place within one turn, 0 ≤ result < 360. */
export function withinTurn(angle: Degrees): Degrees {
  const rest = angle % 360;
  return degrees(rest < 0 ? rest + 360 : rest);
}

/** Clock position of a place on a standing part: 0° is 12, 90° is 3, 45° is 1:30. */
export function clockPosition(angle: Degrees): string {
  const minutes = Math.round(withinTurn(angle) * 2);
  const hour = Math.floor(minutes / 60) % 12;
  const rest = minutes % 60;
  const name = String(hour === 0 ? 12 : hour);
  return rest === 0 ? name : `${name}:${String(rest).padStart(2, '0')}`;
}

/** An angle as people write it: no more than two decimals, no trailing zeros. */
export const angleText = (angle: Degrees): string => `${String(Math.round(angle * 100) / 100)}°`;

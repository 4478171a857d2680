// Geometry of the polar picture of a sweep: deviations from the mean circle are magnified, place 0 is at the top and
// places run clockwise, as seen from the impeller end. Draws nothing and judges nothing.
import { niceStepBelow, tidy } from './nice_step';
import { type Degrees, degrees, type Metres, metres, type Pixels, pixels, toRadians } from './units';

export interface XY {
  x: Pixels;
  y: Pixels;
}

export interface SweepShape {
  points: readonly { angle: Degrees; value: Metres }[];
  mean: Metres;
  /** Towards place 0 and towards place 90°. */
  a1: Metres;
  b1: Metres;
}

export interface PolarScale {
  centre: XY;
  /** Of the mean circle on the screen. */
  base: Pixels;
  /** Screen pixels for one metre of deviation. */
  perMetre: number;
  mean: Metres;
}

/**
 * Fits the picture into a square of `size`. The mean circle takes 58 % of the half size; the largest deviation, and
 * the limit band when it is not more than three times that, ends at 92 %.
 */
export function polarScale(sweep: SweepShape, size: Pixels, band: Metres | null): PolarScale {
  const half = size / 2;
  const base = half * 0.58;
  const reach = half * 0.34;
  const fitted = Math.hypot(sweep.a1, sweep.b1);
  let largest = fitted;
  for (const p of sweep.points) largest = Math.max(largest, Math.abs(p.value - sweep.mean));
  if (band !== null && band / 2 <= largest * 3) largest = Math.max(largest, (band / 2) * 1.05);
  if (largest <= 0) largest = band !== null && band > 0 ? band : 1e-6;
  return {
    centre: { x: pixels(half), y: pixels(half) },
    base: pixels(base),
    perMetre: reach / largest,
    mean: sweep.mean,
  };
}

export function place(scale: PolarScale, angle: Degrees, value: Metres): XY {
  const r = Math.max(0, scale.base + (value - scale.mean) * scale.perMetre);
  return rim(scale, angle, pixels(r));
}

/** A point at a screen radius. */
export function rim(scale: PolarScale, angle: Degrees, radius: Pixels): XY {
  const t = toRadians(angle);
  return {
    x: pixels(scale.centre.x + radius * Math.sin(t)),
    y: pixels(scale.centre.y - radius * Math.cos(t)),
  };
}

/** The fitted curve mean + a₁ cos θ + b₁ sin θ once round, as an SVG path. */
export function fittedPath(scale: PolarScale, sweep: SweepShape): string {
  const parts: string[] = [];
  for (let a = 0; a < 360; a += 5) {
    const t = toRadians(degrees(a));
    const value = metres(sweep.mean + sweep.a1 * Math.cos(t) + sweep.b1 * Math.sin(t));
    const p = place(scale, degrees(a), value);
    parts.push(`${a === 0 ? 'M' : 'L'}${p.x.toFixed(1)} ${p.y.toFixed(1)}`);
  }
  return `${parts.join('')}Z`;
}

/** The screen radii between which every reading must lie for the TIR to be within `band`; null when there are none. */
export function limitBand(
  scale: PolarScale,
  sweep: SweepShape,
  band: Metres,
): { inner: Pixels; outer: Pixels } | null {
  if (sweep.points.length === 0) return null;
  const values = sweep.points.map((p) => p.value);
  const middle = (Math.max(...values) + Math.min(...values)) / 2;
  const at = (v: number) => scale.base + (v - scale.mean) * scale.perMetre;
  const inner = at(middle - band / 2);
  const outer = at(middle + band / 2);
  return inner < 0 ? null : { inner: pixels(inner), outer: pixels(outer) };
}

/** A length for the scale bar, in the unit asked for, and how long it is on the screen. */
export function scaleBar(
  scale: PolarScale,
  unit: Metres,
  room: Pixels,
): { length: number; onScreen: Pixels } {
  const length = tidy(niceStepBelow(room / scale.perMetre / unit));
  return { length, onScreen: pixels(length * unit * scale.perMetre) };
}

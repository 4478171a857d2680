import { describe, expect, it } from 'vitest';
import {
  fittedPath,
  limitBand,
  place,
  polarScale,
  rim,
  type SweepShape,
  scaleBar,
} from '../../src/calc/polar';
import { degrees, metres, pixels, toRadians } from '../../src/calc/units';

const thou = 2.54e-5;

/** A surface 2 thou off centre, its high spot at 90°. */
const shape: SweepShape = {
  points: Array.from({ length: 12 }, (_, i) => {
    const angle = degrees(i * 30);
    return { angle, value: metres(2 * thou * Math.sin(toRadians(angle))) };
  }),
  mean: metres(0),
  a1: metres(0),
  b1: metres(2 * thou),
};

describe('the polar picture', () => {
  const scale = polarScale(shape, pixels(300), null);

  it('has place 0 at the top and runs clockwise', () => {
    const top = rim(scale, degrees(0), pixels(100));
    expect(top.x).toBeCloseTo(150, 9);
    expect(top.y).toBeCloseTo(50, 9);
    const right = rim(scale, degrees(90), pixels(100));
    expect(right.x).toBeCloseTo(250, 9);
    expect(right.y).toBeCloseTo(150, 9);
  });

  it('puts the high spot farthest out, within the picture', () => {
    const high = place(scale, degrees(90), metres(2 * thou));
    const low = place(scale, degrees(270), metres(-2 * thou));
    expect(high.x - 150).toBeCloseTo(150 * 0.92, 6);
    expect(150 - low.x).toBeCloseTo(150 * 0.24, 6);
  });

  it('draws the fitted curve through a reading that lies on it', () => {
    const at = place(scale, degrees(90), metres(2 * thou));
    expect(fittedPath(scale, shape)).toContain(`L${at.x.toFixed(1)} ${at.y.toFixed(1)}`);
  });

  it('lays the limit band as wide as the limit, about the middle of the readings', () => {
    const withBand = polarScale(shape, pixels(300), metres(5 * thou));
    const ring = limitBand(withBand, shape, metres(5 * thou));
    expect(ring).not.toBeNull();
    expect((ring?.outer ?? 0) - (ring?.inner ?? 0)).toBeCloseTo(5 * thou * withBand.perMetre, 6);
    expect(((ring?.outer ?? 0) + (ring?.inner ?? 0)) / 2).toBeCloseTo(withBand.base, 6);
  });

  it('does not let a limit far wider than the readings flatten them', () => {
    const wide = polarScale(shape, pixels(300), metres(100 * thou));
    expect(wide.perMetre).toBe(scale.perMetre);
  });

  it('states its magnification as a length people can count by', () => {
    const bar = scaleBar(scale, metres(thou), pixels(90));
    expect([1, 2, 5].some((f) => bar.length === f)).toBe(true);
    expect(bar.onScreen).toBeLessThanOrEqual(90);
    expect(bar.onScreen).toBeCloseTo(bar.length * thou * scale.perMetre, 9);
  });

  it('stands a sweep without any movement', () => {
    const flat: SweepShape = {
      ...shape,
      points: shape.points.map((p) => ({ ...p, value: metres(0) })),
      b1: metres(0),
    };
    const s = polarScale(flat, pixels(300), null);
    expect(Number.isFinite(s.perMetre)).toBe(true);
    expect(place(s, degrees(0), metres(0)).y).toBeCloseTo(150 - s.base, 9);
  });
});

import { describe, expect, it } from 'vitest';
import {
  anglesOf,
  choose,
  distinctPlaces,
  divide,
  emptyStrip,
  gapRanges,
  nextPlace,
  put,
  readingAt,
  toggleGap,
} from '../../src/calc/strip';
import { degrees } from '../../src/calc/units';

const fill = (places: number, count: number) => {
  let strip = emptyStrip(places);
  for (let i = 0; i < count; i++) {
    const next = nextPlace(strip);
    if (next === null) break;
    strip = put(strip, next, String(i));
  }
  return strip;
};

describe('the unrolled strip', () => {
  it('starts at the keyway and ends where it began', () => {
    expect(anglesOf(emptyStrip(4))).toEqual([0, 90, 180, 270, 360]);
  });

  it('lights the next place without a reading', () => {
    expect(nextPlace(emptyStrip(12))).toBe(0);
    expect(nextPlace(fill(12, 3))).toBe(90);
    expect(nextPlace(fill(4, 5))).toBeNull();
  });

  it('keeps what the hand wrote', () => {
    const strip = put(emptyStrip(4), degrees(0), '+1 1/2');
    expect(readingAt(strip, degrees(0))).toBe('+1 1/2');
  });

  it('goes back to a place for a correction, then on to where it stopped', () => {
    const strip = put(choose(fill(12, 5), degrees(30)), degrees(30), 'new');
    expect(readingAt(strip, degrees(30))).toBe('new');
    expect(strip.points).toHaveLength(5);
    expect(nextPlace(strip)).toBe(150);
  });

  it('keeps the readings in the order of their places', () => {
    const strip = put(put(emptyStrip(4), degrees(180), 'b'), degrees(0), 'a');
    expect(strip.points.map((p) => p.angle)).toEqual([0, 180]);
  });

  it('reads every place again in a second turn', () => {
    const strip = { ...fill(4, 5), turns: 2 as const };
    expect(nextPlace(strip)).toBe(450);
    expect(anglesOf(strip)).toHaveLength(9);
  });

  it('counts places, not readings', () => {
    expect(distinctPlaces(fill(4, 5))).toBe(4);
  });

  it('skips a gap, drops its readings and can take the mark off again', () => {
    const strip = toggleGap(fill(12, 2), degrees(0));
    expect(strip.points.map((p) => p.angle)).toEqual([30]);
    expect(nextPlace(strip)).toBe(60);
    expect(nextPlace(toggleGap(strip, degrees(0)))).toBe(0);
  });

  it('writes a gap as half a step to both sides, joined across the keyway', () => {
    expect(gapRanges(toggleGap(emptyStrip(12), degrees(0)))).toEqual([{ from_deg: 345, to_deg: 15 }]);
    const two = toggleGap(toggleGap(emptyStrip(12), degrees(0)), degrees(330));
    expect(gapRanges(two)).toEqual([{ from_deg: 315, to_deg: 15 }]);
    const apart = toggleGap(toggleGap(emptyStrip(4), degrees(90)), degrees(270));
    expect(gapRanges(apart)).toEqual([
      { from_deg: 45, to_deg: 135 },
      { from_deg: 225, to_deg: 315 },
    ]);
  });

  it('keeps the readings that fit another division of the turn', () => {
    expect(divide(fill(12, 12), 4).points.map((p) => p.angle)).toEqual([0, 90, 180, 270]);
    expect(divide(fill(12, 12), 0).points).toHaveLength(12);
  });
});

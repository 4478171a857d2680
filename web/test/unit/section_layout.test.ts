import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { SectionView, Window4 } from '../../src/api/types';
import {
  layOutMarks,
  type MarkSpot,
  sectionBar,
  sectionScale,
  targetSize,
  windowAround,
} from '../../src/calc/section_layout';
import { metres, pixels } from '../../src/calc/units';

const margins = { top: 26, bottom: 74, side: 26 };
const window: Window4 = [-0.05, 0.15, 0, 0.1];

const overlap = (a: MarkSpot, b: MarkSpot) =>
  Math.abs(a.x - b.x) < (a.width + b.width) / 2 - 1e-9 && Math.abs(a.y - b.y) < targetSize - 1e-9;

describe('the half-section on the screen', () => {
  it('is to scale in both directions', () => {
    const s = sectionScale(window, pixels(600), pixels(600), margins);
    const across = s.x(0.15) - s.x(-0.05);
    const up = s.y(0) - s.y(0.1);
    expect(across / 0.2).toBeCloseTo(up / 0.1, 9);
    expect(across).toBeCloseTo(600 - 52, 9);
  });

  it('shrinks when it would be too high', () => {
    const s = sectionScale(window, pixels(600), pixels(200), margins);
    expect(s.height).toBeCloseTo(200, 9);
    expect(s.y(0.1)).toBeCloseTo(26, 9);
  });

  it('shows a place in the middle of its own window, or as near as the whole allows', () => {
    const near = windowAround(window, 0.05, 0.05, 0.4, 2);
    expect((near[0] + near[1]) / 2).toBeCloseTo(0.05, 12);
    const edge = windowAround(window, 0.15, 0, 0.4, 2);
    expect(edge[1]).toBeCloseTo(0.15, 12);
    expect(edge[2]).toBeCloseTo(0, 12);
  });

  it('has a scale bar of a round length', () => {
    const bar = sectionBar(3000, metres(0.001), pixels(110));
    expect(bar.length).toBe(20);
    expect(bar.onScreen).toBeCloseTo(60, 9);
  });
});

describe('the touch targets on it', () => {
  const section = JSON.parse(
    readFileSync(new URL('../../mock/data/orchard-wash.section.json', import.meta.url), 'utf8'),
  ) as SectionView;

  for (const width of [358, 480, 560, 640])
    it(`never cover one another at ${width} px, and every place is in one`, () => {
      const s = sectionScale(section.whole, pixels(width), pixels(560), margins);
      const wishes = section.places.map((p, i) => ({
        key: p.place,
        x: s.x(p.x_m),
        y: s.y(p.r_m),
        width: 30 + (i % 4) * 17,
      }));
      const spots = layOutMarks(wishes, { width: s.width, height: s.height }, 130);
      for (const [i, a] of spots.entries())
        for (const b of spots.slice(i + 1)) expect(overlap(a, b), `${a.keys} and ${b.keys}`).toBe(false);
      expect(spots.flatMap((spot) => spot.keys).sort()).toEqual(section.places.map((p) => p.place).sort());
      for (const spot of spots) {
        expect(spot.width).toBeGreaterThanOrEqual(targetSize);
        expect(spot.x - spot.width / 2).toBeGreaterThanOrEqual(0);
        expect(spot.x + spot.width / 2).toBeLessThanOrEqual(s.width);
      }
    });

  it('gathers what can not stand apart', () => {
    const crowd = Array.from({ length: 6 }, (_, i) => ({ key: String(i), x: 50, y: 50, width: 48 }));
    const spots = layOutMarks(crowd, { width: 100, height: 100 }, 60);
    expect(spots.length).toBeLessThan(6);
    expect(spots.flatMap((s) => s.keys)).toHaveLength(6);
  });
});

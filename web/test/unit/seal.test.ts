// Places in the two drawings of the seal's sheet, and what is asked when other conditions are tried.
import { describe, expect, it } from 'vitest';
import { curvePoints, pathOf, shareOf } from '../../src/calc/curve';
import { mapPath, mapPlace, runsOf } from '../../src/calc/seal_map';
import { questionOf } from '../../src/seal/question';

const box = { left: 10, right: 110, top: 0, bottom: 50 };

describe('a curve along the face', () => {
  it('goes from the left edge to the right, larger values higher', () => {
    const points = curvePoints([1, 2, 3], [5, 10, 0], { low: 0, high: 10 }, box);
    expect(points).toEqual([
      [10, 25],
      [60, 0],
      [110, 50],
    ]);
    expect(pathOf(points)).toBe('M10.0 25.0L60.0 0.0L110.0 50.0');
  });

  it('stays inside the box and stands in the middle where nothing changes', () => {
    expect(shareOf(20, 0, 10)).toBe(1);
    expect(shareOf(-1, 0, 10)).toBe(0);
    expect(shareOf(4, 4, 4)).toBe(0.5);
    expect(curvePoints([1], [1], { low: 0, high: 1 }, box)).toEqual([]);
    expect(curvePoints([1, 2], [1], { low: 0, high: 1 }, box)).toEqual([]);
  });
});

describe('the map', () => {
  const columns = ['bse', 'bbs'];

  it('finds the runs of a letter, the last cell of a column too', () => {
    expect(runsOf(columns, 'b')).toEqual([
      { column: 0, from: 0, to: 1 },
      { column: 1, from: 0, to: 2 },
    ]);
    expect(runsOf(columns, 's')).toEqual([
      { column: 0, from: 1, to: 2 },
      { column: 1, from: 2, to: 3 },
    ]);
    expect(runsOf(['ese'], 'e')).toEqual([
      { column: 0, from: 0, to: 1 },
      { column: 0, from: 2, to: 3 },
    ]);
    expect(runsOf(columns, 'u')).toEqual([]);
  });

  it('covers the whole drawing once', () => {
    const area = (path: string) =>
      [...path.matchAll(/h([\d.]+)v([\d.]+)/g)].reduce((sum, [, w, h]) => sum + Number(w) * Number(h), 0);
    const all = (['b', 's', 'e'] as const).map((letter) => area(mapPath(columns, letter, box)));
    expect(all.reduce((a, b) => a + b, 0)).toBeCloseTo(100 * 50, 6);
    expect(mapPath(columns, 'e', box)).toBe('M10.0 0.0h50.0v12.5h-50.0z');
  });

  it('places a point and leaves out what lies beyond its edges', () => {
    const map = {
      temperature: { lowest: { si: 300 }, highest: { si: 400 } },
      suction: { lowest: { si: 0 }, highest: { si: 100 } },
    };
    expect(mapPlace({ temperature: 350, suction: 100 }, map, box)).toEqual([60, 0]);
    expect(mapPlace({ temperature: 350, suction: 101 }, map, box)).toBeNull();
    expect(mapPlace({ temperature: 299, suction: 50 }, map, box)).toBeNull();
  });
});

describe('conditions that are tried', () => {
  it('are asked as written, without the empty ones', () => {
    expect(questionOf({ temperature: ' 95 degC ', suction: '', speed: ' ' })).toBe('?temperature=95%20degC');
    expect(questionOf({ suction: '12 psig', length: '1.02 in' })).toBe('?suction=12%20psig&length=1.02%20in');
    expect(questionOf({})).toBe('');
  });
});

import { describe, expect, it } from 'vitest';
import { niceStepBelow, tidy } from '../../src/calc/nice_step';
import { linePlaces } from '../../src/calc/number_line';

describe('the number line', () => {
  it('keeps limits, value and uncertainty in order and on the line', () => {
    const p = linePlaces({ value: 3, u: 0.5, lower: 1, upper: 4 });
    const row = [p?.lower ?? -1, p?.spread?.[0] ?? -1, p?.value ?? -1, p?.spread?.[1] ?? -1, p?.upper ?? -1];
    expect([...row].sort((a, b) => a - b)).toEqual([
      row[0],
      row[1],
      row[2],
      ...[row[3], row[4]].sort((a, b) => (a ?? 0) - (b ?? 0)),
    ]);
    expect(p?.lower).toBeLessThan(p?.value ?? 0);
    expect(p?.value).toBeLessThan(p?.upper ?? 0);
    for (const x of row) {
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(1);
    }
  });

  it('shows a value beyond its limit beyond it', () => {
    const p = linePlaces({ value: 10, u: null, lower: null, upper: 7 });
    expect(p?.value).toBeGreaterThan(p?.upper ?? 1);
  });

  it('starts at zero for an upper limit alone, so that a share of it can be seen', () => {
    const p = linePlaces({ value: 2, u: null, lower: null, upper: 4 });
    expect(((p?.value ?? 0) - 0.12 / 1.24) * 1.24).toBeCloseTo(0.5, 9);
  });

  it('has nothing to draw for nothing', () => {
    expect(linePlaces({ value: null, u: null, lower: null, upper: null })).toBeNull();
  });
});

describe('steps people can count by', () => {
  it('are one, two or five times a power of ten, not larger than asked', () => {
    expect(niceStepBelow(0.37)).toBeCloseTo(0.2, 12);
    expect(niceStepBelow(5)).toBe(5);
    expect(niceStepBelow(99)).toBe(50);
    expect(tidy(0.1 + 0.2)).toBe(0.3);
  });
});

import { describe, expect, it } from 'vitest';
import type { CurvePoint } from '../../src/api/returns_types';
import { nothingAsked, returnsPath } from '../../src/returns/asked_returns';
import { daySteps, lowestShown, stairOf } from '../../src/returns/still_out_curve';
import { emptyColumns, fitsHeader, tidyColumns, wordsOf } from '../../src/shop/old_columns';

describe('what is asked of returns', () => {
  it('is an address with only what is asked in it', () => {
    expect(returnsPath(nothingAsked)).toBe('/api/returns');
    expect(returnsPath({ ...nothingAsked, pump: 'circulator 2 x 1.5', compare: 'seal' })).toBe(
      '/api/returns?pump=circulator+2+x+1.5&by=seal',
    );
    expect(returnsPath({ ...nothingAsked, readings: ['impeller-sweep', 'end-float'] })).toBe(
      '/api/returns?reading=impeller-sweep%2Cend-float',
    );
  });

  it('waits for the day of a change', () => {
    const asked = { ...nothingAsked, compare: 'changed' as const };
    expect(returnsPath(asked)).toBe('/api/returns');
    expect(returnsPath({ ...asked, changed: '2026-03-01' })).toBe('/api/returns?changed=2026-03-01');
  });
});

describe('the curve of what is still out', () => {
  const points: CurvePoint[] = [
    [10, 0.9, 0.8, 0.95],
    [40, 0.7, 0.5, 0.85],
  ];
  const scale = { x: (days: number) => days, y: (part: number) => 100 * part };

  it('is a stair: across, then down, and on to the last day seen', () => {
    expect(stairOf(points, 50, scale, 1)).toEqual([
      [0, 100],
      [10, 100],
      [10, 90],
      [40, 90],
      [40, 70],
      [50, 70],
    ]);
  });

  it('shows no more of the lower part than the band needs', () => {
    expect(lowestShown([{ name: '', points, last_days: 50 }])).toBeCloseTo(0.4);
    expect(lowestShown([{ name: '', points: [], last_days: 50 }])).toBeLessThan(1);
  });

  it('marks round days', () => {
    expect(daySteps(730)).toEqual([0, 100, 200, 300, 400, 500, 600, 700]);
    expect(daySteps(9)).toEqual([0, 2, 4, 6, 8]);
    for (const last of [0.4, 3, 57, 1234, 40000]) {
      const steps = daySteps(last);
      expect(steps.length).toBeGreaterThan(3);
      expect(steps.length).toBeLessThan(12);
      expect(steps.at(-1)).toBeLessThanOrEqual(last);
    }
  });
});

describe('columns of older records', () => {
  it('leave out what has no column', () => {
    expect(tidyColumns({ ...emptyColumns, serial: 'S/N', came_in: 'In', pump: '' })).toEqual({
      serial: 'S/N',
      came_in: 'In',
      dates: 'year-month-day',
    });
  });

  it('fit a first line that has them all', () => {
    const columns = {
      ...emptyColumns,
      serial: 'S/N',
      came_in: 'In',
      readings: [{ check: 'end-float', column: 'F', unit: 'mm' }],
    };
    expect(fitsHeader(columns, ['In', 'S/N', 'F', 'more'])).toBe(true);
    expect(fitsHeader(columns, ['In', 'S/N'])).toBe(false);
  });

  it('take words with commas between them', () => {
    expect(wordsOf(' leak, noisy ,, PM')).toEqual(['leak', 'noisy', 'PM']);
  });
});

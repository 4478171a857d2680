import { describe, expect, it } from 'vitest';
import { angleText, clockPosition, degrees, toRadians, withinTurn } from '../../src/calc/units';

describe('places round a turn', () => {
  it('names clock positions from the top mark', () => {
    expect(clockPosition(degrees(0))).toBe('12');
    expect(clockPosition(degrees(90))).toBe('3');
    expect(clockPosition(degrees(45))).toBe('1:30');
    expect(clockPosition(degrees(345))).toBe('11:30');
    expect(clockPosition(degrees(360))).toBe('12');
  });

  it('brings any angle into one turn', () => {
    expect(withinTurn(degrees(390))).toBe(30);
    expect(withinTurn(degrees(-30))).toBe(330);
    expect(withinTurn(degrees(720))).toBe(0);
  });

  it('writes an angle without trailing noise', () => {
    expect(angleText(degrees(30))).toBe('30°');
    expect(angleText(degrees(22.5))).toBe('22.5°');
    expect(angleText(degrees(1 / 3))).toBe('0.33°');
  });

  it('turns degrees into radians', () => {
    expect(toRadians(degrees(180))).toBeCloseTo(Math.PI, 15);
  });
});

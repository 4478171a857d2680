import { expect, test } from 'vitest';
import { numberOf } from '../../src/calc/plain_number';

test('a number as a hand types it, and nothing of what is none', () => {
  expect(numberOf(' 0,75 ')).toBe(0.75);
  expect(numberOf('−1.5')).toBe(-1.5);
  expect(numberOf('0')).toBe(0);
  expect(numberOf('')).toBeNull();
  expect(numberOf('half')).toBeNull();
  expect(numberOf('1,5,0')).toBeNull();
});

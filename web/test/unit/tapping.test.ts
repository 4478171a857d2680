import { describe, expect, test } from 'vitest';
import { leftToGo, moveOf, readingAtEnd } from '../../src/calc/tapping';

describe('tapping a bracket over under a dial that stands still', () => {
  const move = moveOf('3.0 thou');

  test('reads the move as the server wrote it', () => {
    expect(move).toEqual({ distance: 3, unit: 'thou', decimals: 1 });
    expect(moveOf('0.076 mm')).toEqual({ distance: 0.076, unit: 'mm', decimals: 3 });
    expect(moveOf('0 mm')).toBeNull();
    expect(moveOf('')).toBeNull();
  });

  test('falls on the side it is tapped to, where the bore goes away, and rises opposite', () => {
    if (!move) throw new Error('no move');
    expect(readingAtEnd(move, 0, false)).toBe(-3);
    expect(readingAtEnd(move, 1, true)).toBe(4);
  });

  test('says how far there is to go, and when it went too far', () => {
    if (!move) throw new Error('no move');
    expect(leftToGo(move, 0, -1, false)).toBe(2);
    expect(leftToGo(move, 0, -4, false)).toBe(-1);
    expect(leftToGo(move, 0, 1, true)).toBe(2);
    expect(leftToGo(move, 0, 1, false)).toBe(4); // the wrong way
  });
});

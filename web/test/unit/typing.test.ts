import { describe, expect, it } from 'vitest';
import { jobNumberOf, nothingTyped, pauseMax, takeKey } from '../../src/calc/scanner';
import { takeChunk } from '../../src/calc/serial_line';
import { flipSign, isBlank, isReadingKey } from '../../src/calc/typed_number';

function type(text: string, pause: number) {
  let typed = nothingTyped;
  let at = 1000;
  for (const key of text) {
    typed = takeKey(typed, key, at).typed;
    at += pause;
  }
  return takeKey(typed, 'Enter', at).scanned;
}

describe('a keyboard scanner', () => {
  it('is told from a hand by its speed', () => {
    expect(type('G-2117', 8)).toBe('G-2117');
    expect(type('G-2117', pauseMax + 80)).toBeNull();
  });

  it('is not seen in a few keys', () => {
    expect(type('G2', 8)).toBeNull();
  });

  it('reads a number or the address on a tag', () => {
    expect(jobNumberOf(' G-2117 ')).toBe('G-2117');
    expect(jobNumberOf('https://shop.example/job/G-2117?x=1')).toBe('G-2117');
    expect(jobNumberOf('/job/A%2F1/step/x')).toBe('A/1');
  });
});

describe('what is typed for a reading', () => {
  it('takes numbers, signs, both decimal marks and units', () => {
    for (const key of ['0', '9', '.', ',', '+', '-', '−', '/', ' ', 'm', 'µ'])
      expect(isReadingKey(key), key).toBe(true);
    for (const key of ['Enter', 'Tab', '?', '<', 'F1']) expect(isReadingKey(key), key).toBe(false);
  });

  it('changes the sign of the text and nothing else', () => {
    expect(flipSign('1.5')).toBe('-1.5');
    expect(flipSign('-1.5')).toBe('+1.5');
    expect(flipSign('+0,10 mm')).toBe('-0,10 mm');
    expect(flipSign('')).toBe('-');
  });

  it('knows an empty field', () => {
    expect(isBlank('  ')).toBe(true);
    expect(isBlank('0')).toBe(false);
  });
});

describe('a serial indicator', () => {
  it('sends a reading a line, in whatever pieces it arrives', () => {
    const one = takeChunk({ rest: '' }, '01A+00.12');
    expect(one.readings).toEqual([]);
    const two = takeChunk(one.lines, '5\r\n-0,003\r');
    expect(two.readings).toEqual(['+00.125', '-0,003']);
    expect(two.lines.rest).toBe('');
  });

  it('gives nothing for a line without a number', () => {
    expect(takeChunk({ rest: '' }, 'OK\r\n\r\n').readings).toEqual([]);
  });
});

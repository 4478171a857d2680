import { describe, expect, it } from 'vitest';
import { countsIn, type Marks, marked, marksOf, sheetOfMarks, withWhere } from '../../src/cause/marks';

const text = (en: string) => ({ en, es: en });

describe('marks of a strip-down', () => {
  it('go there, not there, and away again when pressed twice', () => {
    let marks: Marks = {};
    marks = marked(marks, 'heat-checks', 'there');
    expect(marks['heat-checks']?.seen).toBe('there');
    marks = marked(marks, 'heat-checks', 'not');
    expect(marks['heat-checks']?.seen).toBe('not');
    marks = marked(marks, 'heat-checks', 'not');
    expect(marks).toEqual({});
  });

  it('keep where it was when a press is mended', () => {
    let marks = withWhere(marked({}, 'heat-checks', 'there'), 'heat-checks', "2 o'clock");
    marks = marked(marked(marks, 'heat-checks', 'not'), 'heat-checks', 'there');
    expect(marks['heat-checks']?.where).toBe("2 o'clock");
    expect(withWhere({}, 'heat-checks', 'here')).toEqual({});
  });

  it('become a sheet that says what the screen said, and nothing that is empty', () => {
    const marks = withWhere(
      marked(marked({}, 'heat-checks', 'there'), 'track-wide', 'not'),
      'heat-checks',
      " 2 o'clock ",
    );
    expect(sheetOfMarks(marks, (f) => (f === 'heat-checks' ? 'fine cracks' : ''))).toEqual({
      found: [{ finding: 'heat-checks', said: 'fine cracks', where: "2 o'clock" }],
      not_found: [{ finding: 'track-wide' }],
    });
    expect(sheetOfMarks({}, () => '')).toEqual({});
  });

  it('come back from a sheet with what the fields can not hold', () => {
    const sheet = { found: [{ finding: 'heat-checks', note: 'photo 3' }], not_found: ['track-wide'] };
    const marks = marksOf(sheet);
    expect(marks['track-wide']?.seen).toBe('not');
    expect(sheetOfMarks(marks, () => '')).toEqual({
      found: [{ finding: 'heat-checks', note: 'photo 3' }],
      not_found: [{ finding: 'track-wide' }],
    });
  });

  it('are counted part by part', () => {
    const part = {
      part: 'faces',
      title: text('faces'),
      findings: ['heat-checks', 'track-wide', 'two-spots'].map((finding) => ({
        finding,
        title: text(finding),
        look: text(''),
      })),
    };
    const marks = marked(marked({}, 'heat-checks', 'there'), 'two-spots', 'not');
    expect(countsIn(part, marks)).toEqual({ there: 1, not: 1 });
  });
});

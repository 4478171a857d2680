// Bench tests of a job: what is asked for their sheets, and the pictures of what they came to.
import type { Text } from './types';

export type Ink = 'part' | 'guide' | 'limit' | 'found' | 'wanted';
export type PicturePoint = [number, number];

/** Of a bench test: strokes and words in units of which `width` go across. */
export interface SheetPicture {
  width: number;
  height: number;
  strokes: { ink: Ink; points: PicturePoint[]; closed: boolean }[];
  circles: { ink: Ink; centre: PicturePoint; radius: number }[];
  words: { text: Text; at: PicturePoint; anchor: 'start' | 'middle' | 'end'; ink: Ink }[];
  title: Text;
  note: Text;
}

/** One field of a bench test's sheet. */
export interface SheetFieldView {
  /** JSON pointer into the sheet; of a list's item, into one element, empty for the element itself. */
  at: string;
  kind: 'quantity' | 'text' | 'number' | 'word' | 'flag' | 'list' | 'fixed';
  title: Text;
  example: string;
  /** Of a fixed field, which nobody is asked for. */
  value: string;
  optional: boolean;
  /** A number without a unit is in the unit of the instrument it is read with. */
  bare: boolean;
  choices: { word: string; title: Text }[];
  items: SheetFieldView[];
  only_if: { at: string; is: string[] } | null;
}

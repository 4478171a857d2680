// Puts a half-section onto a screen to scale and finds room for a touch target at every place: targets never cover one
// another; what can not stand apart is gathered into one target.
import type { Window4 } from '../api/types';
import { niceStepBelow, tidy } from './nice_step';
import { type Metres, type Pixels, pixels } from './units';

export interface SectionScale {
  width: Pixels;
  height: Pixels;
  perMetre: number;
  /** Screen place of a section place. */
  x(xM: number): Pixels;
  y(rM: number): Pixels;
}

export interface Margins {
  top: number;
  bottom: number;
  side: number;
}

/** The window fills the width; higher than `heightMax` it shrinks instead. */
export function sectionScale(
  window: Window4,
  width: Pixels,
  heightMax: Pixels,
  margins: Margins,
): SectionScale {
  const [x0, x1, r0, r1] = window;
  const roomX = Math.max(10, width - 2 * margins.side);
  const roomY = Math.max(10, heightMax - margins.top - margins.bottom);
  const perMetre = Math.min(roomX / (x1 - x0), roomY / (r1 - r0));
  const height = (r1 - r0) * perMetre + margins.top + margins.bottom;
  const left = (width - (x1 - x0) * perMetre) / 2;
  return {
    width,
    height: pixels(height),
    perMetre,
    x: (xM) => pixels(left + (xM - x0) * perMetre),
    y: (rM) => pixels(height - margins.bottom - (rM - r0) * perMetre),
  };
}

export interface MarkWish {
  key: string;
  x: number;
  y: number;
  width: number;
}

export interface MarkSpot {
  /** The places gathered here; the first one's true place is where the leader ends. */
  keys: string[];
  x: number;
  y: number;
  width: number;
  truth: { x: number; y: number }[];
}

export const targetSize = 48;

interface Room {
  width: number;
  height: number;
}

const overlaps = (a: { x: number; y: number; width: number }, b: { x: number; y: number; width: number }) =>
  Math.abs(a.x - b.x) < (a.width + b.width) / 2 && Math.abs(a.y - b.y) < targetSize;

/** How many other places the visible part of a mark at `at` would hide. */
function hidden(
  at: { x: number; y: number; width: number },
  wish: MarkWish,
  all: readonly MarkWish[],
): number {
  return all.filter((w) => w !== wish && Math.abs(w.x - at.x) < at.width / 2 + 2 && Math.abs(w.y - at.y) < 17)
    .length;
}

/** What hiding one place is worth in pixels of leader. */
const hidingCost = 26;

/** Offsets from near to far; up and down before sideways, since leaders read best that way. */
function offsets(reach: number): { dx: number; dy: number }[] {
  const out = [{ dx: 0, dy: 0 }];
  for (let r = 10; r <= reach; r += 10)
    for (let k = 0; k < 24; k++) {
      const t = (k / 24) * 2 * Math.PI;
      out.push({ dx: r * Math.sin(t) * 0.8, dy: -r * Math.cos(t) });
    }
  return out;
}

/**
 * Finds a spot for every wish within the room. A wish that finds none within `reach` joins the nearest spot.
 * The same wishes always give the same spots.
 */
export function layOutMarks(wishes: readonly MarkWish[], room: Room, reach: number): MarkSpot[] {
  const spots: MarkSpot[] = [];
  const tries = offsets(reach);
  const ordered = [...wishes].sort((a, b) => a.x - b.x || a.y - b.y);
  for (const wish of ordered) {
    const width = Math.max(targetSize, wish.width);
    let best: { x: number; y: number; cost: number } | null = null;
    for (const { dx, dy } of tries) {
      const at = { x: wish.x + dx, y: wish.y + dy, width };
      const inside =
        at.x - width / 2 >= 0 &&
        at.x + width / 2 <= room.width &&
        at.y - targetSize / 2 >= 0 &&
        at.y + targetSize / 2 <= room.height;
      if (!inside || spots.some((s) => overlaps(s, at))) continue;
      const cost = Math.hypot(dx, dy) + hidden(at, wish, ordered) * hidingCost;
      if (best === null || cost < best.cost) best = { x: at.x, y: at.y, cost };
    }
    if (best) {
      spots.push({ keys: [wish.key], x: best.x, y: best.y, width, truth: [{ x: wish.x, y: wish.y }] });
      continue;
    }
    const nearest = spots.reduce<MarkSpot | null>((best, s) => {
      if (best === null) return s;
      return Math.hypot(s.x - wish.x, s.y - wish.y) < Math.hypot(best.x - wish.x, best.y - wish.y) ? s : best;
    }, null);
    if (nearest) {
      nearest.keys.push(wish.key);
      nearest.truth.push({ x: wish.x, y: wish.y });
    }
  }
  return spots;
}

/** A length for the scale bar in the given unit, at most `room` long on the screen. */
export function sectionBar(
  perMetre: number,
  unit: Metres,
  room: Pixels,
): { length: number; onScreen: Pixels } {
  const length = tidy(niceStepBelow(room / perMetre / unit));
  return { length, onScreen: pixels(length * unit * perMetre) };
}

/** A window round one place, `share` of the whole's height, as wide as `aspect` (width over height) makes it. */
export function windowAround(whole: Window4, x: number, r: number, share: number, aspect: number): Window4 {
  const [x0, x1, r0, r1] = whole;
  const h = (r1 - r0) * share;
  const w = Math.min(h * aspect, x1 - x0);
  const left = Math.min(Math.max(x - w / 2, x0), x1 - w);
  const low = Math.min(Math.max(r - h / 2, r0), r1 - h);
  return [left, left + w, low, low + h];
}

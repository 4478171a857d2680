// The unrolled strip of a sweep: which places there are, which comes next, what happens on undo and on a correction.
// Readings stay the text the hand wrote; nothing here reads a number.
import { type Degrees, degrees, withinTurn } from './units';

export interface StripPoint {
  angle: Degrees;
  reading: string;
}

export interface Strip {
  /** Even places round the turn; 0 when the angles are free. */
  places: number;
  points: readonly StripPoint[];
  /** Places without a surface, such as a keyway. */
  gaps: readonly Degrees[];
  /** How many turns are read; the first place is read again at the end of the last one. */
  turns: 1 | 2;
  /** The place the next reading goes to when it is not simply the next free one. */
  chosen: Degrees | null;
}

export const placeCounts = [4, 8, 12, 24] as const;

export const emptyStrip = (places: number): Strip => ({
  places,
  points: [],
  gaps: [],
  turns: 1,
  chosen: null,
});

/** Every place to read, in order; the last one closes the turn at the first place. */
export function anglesOf(strip: Strip): Degrees[] {
  if (strip.places === 0) return strip.points.map((p) => p.angle);
  const step = 360 / strip.places;
  const count = strip.places * strip.turns;
  return Array.from({ length: count + 1 }, (_, i) => degrees(i * step));
}

export const isGap = (strip: Strip, angle: Degrees): boolean => strip.gaps.includes(withinTurn(angle));

export const readingAt = (strip: Strip, angle: Degrees): string | null =>
  strip.points.find((p) => p.angle === angle)?.reading ?? null;

/** The place the next reading goes to; null when every place has one (or the angles are free). */
export function nextPlace(strip: Strip): Degrees | null {
  if (strip.chosen !== null) return strip.chosen;
  if (strip.places === 0) return null;
  for (const angle of anglesOf(strip))
    if (!isGap(strip, angle) && readingAt(strip, angle) === null) return angle;
  return null;
}

const inOrder = (points: readonly StripPoint[]): StripPoint[] =>
  [...points].sort((a, b) => a.angle - b.angle);

/** With the reading at the place; one already there gives way (nothing was sent yet). */
export function put(strip: Strip, angle: Degrees, reading: string): Strip {
  const rest = strip.points.filter((p) => p.angle !== angle);
  return { ...strip, points: inOrder([...rest, { angle, reading }]), chosen: null };
}

export function choose(strip: Strip, angle: Degrees): Strip {
  return { ...strip, chosen: angle };
}

/** Marks the place as having no surface, or takes the mark off. Its readings go. */
export function toggleGap(strip: Strip, angle: Degrees): Strip {
  const at = withinTurn(angle);
  if (strip.gaps.includes(at)) return { ...strip, gaps: strip.gaps.filter((g) => g !== at), chosen: null };
  return {
    ...strip,
    gaps: [...strip.gaps, at].sort((a, b) => a - b),
    points: strip.points.filter((p) => withinTurn(p.angle) !== at),
    chosen: null,
  };
}

/** The gaps as ranges: half a step to both sides of each marked place, neighbours joined. */
export function gapRanges(strip: Strip): { from_deg: number; to_deg: number }[] {
  if (strip.places === 0 || strip.gaps.length === 0) return [];
  const half = 180 / strip.places;
  const ranges: { from_deg: number; to_deg: number }[] = [];
  for (const gap of [...strip.gaps].sort((a, b) => a - b)) {
    const last = ranges[ranges.length - 1];
    if (last !== undefined && Math.abs(last.to_deg - (gap - half)) < 1e-9) last.to_deg = gap + half;
    else ranges.push({ from_deg: gap - half, to_deg: gap + half });
  }
  const first = ranges[0];
  const last = ranges[ranges.length - 1];
  if (first && last && ranges.length > 1 && Math.abs(last.to_deg - 360 - first.from_deg) < 1e-9) {
    first.from_deg = last.from_deg - 360;
    ranges.pop();
  }
  return ranges.map((r) => ({
    from_deg: r.from_deg < 0 ? r.from_deg + 360 : r.from_deg,
    to_deg: r.to_deg >= 360 ? r.to_deg - 360 : r.to_deg,
  }));
}

/** Different places within the turn that have a reading. */
export function distinctPlaces(strip: Strip): number {
  return new Set(strip.points.map((p) => withinTurn(p.angle))).size;
}

/** Starts over on another division of the turn, keeping the readings whose place is still there. */
export function divide(strip: Strip, places: number): Strip {
  const next: Strip = { ...strip, places, gaps: [], chosen: null };
  if (places === 0) return next;
  const kept = new Set<number>(anglesOf(next));
  return { ...next, points: strip.points.filter((p) => kept.has(p.angle)) };
}

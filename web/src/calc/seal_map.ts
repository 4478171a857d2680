// The map of suction pressure against temperature as few paths: one for each letter, a rectangle for each run of it.
import { type Box, shareOf } from './curve';

/** Letters of the server: boils, too small a margin, enough, opens, unsolved. */
export const mapLetters = ['e', 's', 'b', 'o', 'u'] as const;
export type MapLetter = (typeof mapLetters)[number];

export interface Run {
  column: number;
  from: number;
  to: number;
}

/** Runs of one letter: cells `from` to `to` (beyond the last) of a column, lowest pressure first. */
export function runsOf(columns: readonly string[], letter: MapLetter): Run[] {
  return columns.flatMap((cells, column) => {
    const runs: Run[] = [];
    for (let from = 0; from < cells.length; from++) {
      if (cells[from] !== letter) continue;
      let to = from + 1;
      while (cells[to] === letter) to++;
      runs.push({ column, from, to });
      from = to;
    }
    return runs;
  });
}

/** Columns stand at evenly spaced temperatures with both ends; each fills the room half-way to its neighbours. */
function edges(index: number, count: number): [number, number] {
  const step = 1 / (count - 1);
  return [Math.max(0, (index - 0.5) * step), Math.min(1, (index + 0.5) * step)];
}

export function mapPath(columns: readonly string[], letter: MapLetter, box: Box): string {
  const width = box.right - box.left;
  const height = box.bottom - box.top;
  return runsOf(columns, letter)
    .map(({ column, from, to }) => {
      const cells = columns[column]!.length;
      const [x0, x1] = edges(column, columns.length);
      const low = edges(from, cells)[0];
      const high = edges(to - 1, cells)[1];
      const [x, w] = [box.left + x0 * width, (x1 - x0) * width];
      const [y, h] = [box.bottom - high * height, (high - low) * height];
      return `M${x.toFixed(1)} ${y.toFixed(1)}h${w.toFixed(1)}v${h.toFixed(1)}h${(-w).toFixed(1)}z`;
    })
    .join('');
}

interface Range {
  lowest: { si: number };
  highest: { si: number };
}

/** Where a point stands in the drawing; null when it lies outside the map. */
export function mapPlace(
  point: { temperature: number; suction: number },
  map: { temperature: Range; suction: Range },
  box: Box,
): [number, number] | null {
  const inside = (value: number, { lowest, highest }: Range) => value >= lowest.si && value <= highest.si;
  if (!inside(point.temperature, map.temperature) || !inside(point.suction, map.suction)) return null;
  const along = shareOf(point.temperature, map.temperature.lowest.si, map.temperature.highest.si);
  const up = shareOf(point.suction, map.suction.lowest.si, map.suction.highest.si);
  return [box.left + along * (box.right - box.left), box.bottom - up * (box.bottom - box.top)];
}

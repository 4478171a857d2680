// The part of the pumps still out against the days since they left: a stair for each group, told apart by its dashes and
// its name as well as by its place, with the band where there is one stair.
import type { CurvePoint, ReturnsCurve } from '../api/returns_types';
import { niceStepBelow, tidy } from '../calc/nice_step';
import { t } from '../text/text';
import { useWidth } from '../widgets/use_size';

const left = 56;
const right = 12;
const top = 12;
const bottom = 40;
const dashes = ['', '9 4', '2 4', '12 4 2 4', '5 3', '1 3'];

/** Round days that cut the axis into four to ten; on a narrow screen into two to five. */
export function daySteps(last: number, parts = 4): number[] {
  const step = niceStepBelow(last / parts);
  return Array.from({ length: Math.floor(last / step + 1e-9) + 1 }, (_, i) => tidy(i * step));
}

/** The lowest part worth showing: most lists never come near to none. */
export function lowestShown(curves: readonly ReturnsCurve[]): number {
  const least = Math.min(1, ...curves.flatMap((c) => c.points.map((p) => p[2] ?? p[1])));
  return Math.max(0, Math.floor(least * 10 - 0.5) / 10);
}

interface Scale {
  x: (days: number) => number;
  y: (part: number) => number;
}

/** Across, then down: nothing happens between returns. `of`: the curve itself, or an end of its band. */
export function stairOf(
  points: readonly CurvePoint[],
  lastDays: number,
  scale: Scale,
  of: 1 | 2 | 3,
): [number, number][] {
  const corners: [number, number][] = [[scale.x(0), scale.y(1)]];
  let part = 1;
  for (const point of points) {
    corners.push([scale.x(point[0]), scale.y(part)]);
    part = point[of] ?? part;
    corners.push([scale.x(point[0]), scale.y(part)]);
  }
  corners.push([scale.x(lastDays), scale.y(part)]);
  return corners;
}

const lineThrough = (corners: readonly [number, number][]) =>
  `M${corners.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}`;

function Band({ curve, scale }: { curve: ReturnsCurve; scale: Scale }) {
  const { points, last_days } = curve;
  const lower = stairOf(points, last_days, scale, 2).reverse();
  return <path class="out-band" d={`${lineThrough([...stairOf(points, last_days, scale, 3), ...lower])}Z`} />;
}

export function StillOutCurve({
  curves,
  nameOf,
}: {
  curves: readonly ReturnsCurve[];
  nameOf: (name: string) => string;
}) {
  const [box, width] = useWidth<HTMLElement>(560);
  const height = Math.min(320, Math.max(220, width * 0.5));
  const last = Math.max(...curves.map((c) => c.last_days));
  const low = lowestShown(curves);
  const scale: Scale = {
    x: (days) => left + ((width - left - right) * days) / last,
    y: (part) => top + ((height - top - bottom) * (1 - part)) / (1 - low),
  };
  const parts = Array.from({ length: 6 }, (_, i) => low + ((1 - low) * i) / 5);
  return (
    <figure class="out-figure" ref={box}>
      <svg
        class="out-curve"
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={t('returnsCurveLabel')}
      >
        {parts.map((part) => (
          <g key={part}>
            <path class="out-grid" d={`M${left} ${scale.y(part)}H${width - right}`} />
            <text class="out-mark" x={left - 6} y={scale.y(part) + 4} text-anchor="end">
              {Math.round(100 * part)} %
            </text>
          </g>
        ))}
        {daySteps(last, width < 420 ? 2 : 4).map((d) => (
          <g key={d}>
            <path class="out-grid" d={`M${scale.x(d)} ${top}V${height - bottom}`} />
            <text class="out-mark" x={scale.x(d)} y={height - bottom + 16} text-anchor="middle">
              {d}
            </text>
          </g>
        ))}
        <text class="out-mark" x={(left + width - right) / 2} y={height - 6} text-anchor="middle">
          {t('returnsDaysOut')}
        </text>
        {curves.length === 1 && curves[0] && <Band curve={curves[0]} scale={scale} />}
        {curves.map((curve, i) => (
          <path
            key={curve.name}
            class={`out-stair out-stair-${i}`}
            d={lineThrough(stairOf(curve.points, curve.last_days, scale, 1))}
            stroke-dasharray={dashes[i]}
          />
        ))}
      </svg>
      {curves.length > 1 && (
        <figcaption>
          <ul class="out-names">
            {curves.map((curve, i) => (
              <li key={curve.name}>
                <svg viewBox="0 0 44 12" aria-hidden="true">
                  <path class={`out-stair out-stair-${i}`} d="M2 6H42" stroke-dasharray={dashes[i]} />
                </svg>
                {nameOf(curve.name)}
              </li>
            ))}
          </ul>
        </figcaption>
      )}
    </figure>
  );
}

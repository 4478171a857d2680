// The parts of one chain to scale, each where its errors put it; what is off the axis is drawn larger by a stated factor.
import type { TruePicture } from '../api/true_types';
import { say } from '../session/preferences';
import { t } from '../text/text';

const width = 320;
const edge = 10;
const titleRoom = 20;

type Part = TruePicture['parts'][number];

/** Corners of the part's side view, in metres: along the axis, across it. */
export function cornersOf(part: Part, magnification: number): [number, number][] {
  const [near, far] = [part.off_from_m * magnification, part.off_to_m * magnification];
  return [
    [part.from_m, near + part.radius_m],
    [part.to_m, far + part.radius_m],
    [part.to_m, far - part.radius_m],
    [part.from_m, near - part.radius_m],
  ];
}

export function TruePictureFigure({ picture, standing }: { picture: TruePicture; standing: boolean }) {
  const corners = picture.parts.map((p) => cornersOf(p, picture.magnification));
  const all = corners.flat();
  const from = Math.min(0, ...all.map(([x]) => x));
  const to = Math.max(...all.map(([x]) => x));
  const reach = Math.max(...all.map(([, y]) => Math.abs(y)));
  const scale = Math.min((width - 2 * edge) / (to - from), 110 / reach);
  const x = (m: number) => edge + (m - from) * scale;
  const axis = titleRoom + reach * scale;
  const y = (m: number) => axis - m * scale;
  const height = axis + reach * scale + edge;
  const factor = `${picture.magnification} ×`;
  return (
    <figure class="face-figure">
      <svg
        class="face-picture true-picture"
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={t('truePictureWords', { up: say(picture.up), factor })}
      >
        <text x={edge} y={13}>
          ↑ {say(picture.up)}
          <tspan class="face-range" x={width - edge} text-anchor="end">
            {factor}
          </tspan>
        </text>
        {[...corners.entries()].reverse().map(([i, c]) => (
          <polygon
            key={picture.parts[i]?.part}
            class={standing ? 'true-standing' : 'true-rotating'}
            points={c.map(([a, b]) => `${x(a)},${y(b)}`).join(' ')}
          />
        ))}
        <path class="true-axis" d={`M0 ${axis}H${width}`} />
        {picture.parts.map((p) => (
          <path
            key={p.part}
            class="true-centre"
            d={`M${x(p.from_m)} ${y(p.off_from_m * picture.magnification)}L${x(p.to_m)} ${y(p.off_to_m * picture.magnification)}`}
          />
        ))}
      </svg>
      <figcaption class="hint">{t('truePictureHint', { factor })}</figcaption>
    </figure>
  );
}

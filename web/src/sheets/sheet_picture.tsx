// What a bench test came to, drawn from the strokes and words the server sends.
import type { SheetPicture } from '../api/sheet_types';
import { say } from '../session/preferences';
import '../style/sheet.css';

const pathOf = (points: readonly (readonly [number, number])[], closed: boolean): string =>
  `M${points.map(([x, y]) => `${x} ${y}`).join('L')}${closed ? 'Z' : ''}`;

export function SheetPictureFigure({ picture }: { picture: SheetPicture }) {
  return (
    <figure class="sheet-figure">
      <svg
        class="sheet-picture"
        viewBox={`0 0 ${picture.width} ${picture.height}`}
        role="img"
        aria-label={say(picture.title)}
      >
        {picture.circles.map((c, i) => (
          <circle key={i} class={`ink-${c.ink}`} cx={c.centre[0]} cy={c.centre[1]} r={c.radius} />
        ))}
        {picture.strokes.map((s, i) => (
          <path
            key={i}
            class={s.closed ? `ink-${s.ink} ink-full` : `ink-${s.ink}`}
            d={pathOf(s.points, s.closed)}
          />
        ))}
        {picture.words.map((w, i) => (
          <text key={i} class={`ink-${w.ink}`} x={w.at[0]} y={w.at[1]} text-anchor={w.anchor}>
            {say(w.text)}
          </text>
        ))}
      </svg>
      <figcaption class="hint">{say(picture.note)}</figcaption>
    </figure>
  );
}

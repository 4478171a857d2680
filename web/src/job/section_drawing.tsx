// The half-section drawn to scale: each part with its own hatch, what turns told apart from what stands, the centre
// line. Only the drawing; the marks on it are section.tsx's.
import { useId } from 'preact/hooks';
import type { SectionShape, SectionView, Window4 } from '../api/types';
import type { SectionScale } from '../calc/section_layout';

interface Hatch {
  angle: number;
  gap: number;
  crossed?: boolean;
}

/** Cut parts are hatched each its own way; shaft, key, fastener, springs and balls are not cut. */
const hatches: Record<string, Hatch> = {
  casing: { angle: 45, gap: 7 },
  bracket: { angle: -45, gap: 7 },
  motor: { angle: 45, gap: 11 },
  'wear-ring': { angle: -45, gap: 3.6 },
  seat: { angle: 45, gap: 3.4, crossed: true },
  impeller: { angle: 30, gap: 5.5 },
  sleeve: { angle: -30, gap: 4 },
  'seal-ring': { angle: -60, gap: 3 },
};

const partWord = (part: string) => part.replace(/_/g, '-');

/** Dark rubber and gaskets, the seal's metal shell; everything else takes its tone from turning or standing. */
function toneOf(shape: SectionShape): string {
  const part = partWord(shape.part);
  if (part === 'elastomer' || part === 'seat-cup') return 'tone-rubber';
  if (part === 'gasket') return 'tone-gasket';
  if (part === 'retainer') return 'tone-retainer';
  if (part === 'vane') return 'tone-vane';
  return shape.turning === 'rotating' ? 'tone-rotating' : 'tone-standing';
}

function outline(shape: SectionShape, scale: SectionScale): string {
  const parts = shape.points.map(([x, r]) => `${scale.x(x).toFixed(1)} ${scale.y(r).toFixed(1)}`);
  return `M${parts.join('L')}Z`;
}

function HatchPattern({ id, hatch, turning }: { id: string; hatch: Hatch; turning: string }) {
  return (
    <pattern
      id={id}
      width={hatch.gap}
      height={hatch.gap}
      patternUnits="userSpaceOnUse"
      patternTransform={`rotate(${hatch.angle})`}
    >
      <path
        class={`hatch hatch-${turning}`}
        d={hatch.crossed ? `M0 0V${hatch.gap}M0 0H${hatch.gap}` : `M0 0V${hatch.gap}`}
      />
    </pattern>
  );
}

function MotorBreak({ section, scale }: { section: SectionView; scale: SectionScale }) {
  let top = 0;
  for (const s of section.shapes)
    if (s.part === 'motor') for (const [, r] of s.points) top = Math.max(top, r);
  const x = scale.x(section.whole[0]);
  let path = '';
  for (let y = scale.y(top) - 6; y <= scale.y(0) + 4; y += 2)
    path += `${path ? 'L' : 'M'}${(x + 1.8 * Math.sin((y - scale.y(0)) / 11)).toFixed(1)} ${y.toFixed(1)}`;
  return (
    <>
      <path class="break-gap" d={path} />
      <path class="break-line" d={path} />
    </>
  );
}

export function SectionDrawing(props: {
  section: SectionView;
  window: Window4;
  scale: SectionScale;
  /** Draws everything beyond the window too, up to the picture's edge. */
  whole: boolean;
}) {
  const { section, window, scale, whole } = props;
  const id = useId();
  const left = scale.x(window[0]);
  const right = scale.x(window[1]);
  const top = scale.y(window[3]);
  const foot = scale.y(window[2]);
  return (
    <g class="section-drawing" aria-hidden="true">
      <defs>
        <clipPath id={`${id}clip`}>
          <rect x={left - 1} y={top - 1} width={right - left + 2} height={foot - top + 2} />
        </clipPath>
        {Object.entries(hatches).map(([part, hatch]) => {
          const turning = section.shapes.find((s) => partWord(s.part) === part)?.turning ?? 'standing';
          return <HatchPattern key={part} id={`${id}${part}`} hatch={hatch} turning={turning} />;
        })}
      </defs>
      <g clip-path={`url(#${id}clip)`}>
        {section.shapes.map((shape, i) => {
          const d = outline(shape, scale);
          const part = partWord(shape.part);
          return (
            <g key={`${part}${i}`} class={shape.assumed ? 'shape shape-assumed' : 'shape'}>
              <path class={toneOf(shape)} d={d} />
              {hatches[part] && <path d={d} fill={`url(#${id}${part})`} />}
              <path class="outline" d={d} />
            </g>
          );
        })}
      </g>
      {window[2] <= 0 && (
        <path class="centre-line" d={`M${left - 6} ${foot}H${Math.min(right + 18, scale.width)}`} />
      )}
      {whole && <MotorBreak section={section} scale={scale} />}
      {!whole && <rect class="window-frame" x={left} y={top} width={right - left} height={foot - top} />}
    </g>
  );
}

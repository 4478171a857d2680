// The half-section as the way to what was found: a tap on a place opens the findings of the part that is there. What was
// found at a place is marked on it.
import { useMemo } from 'preact/hooks';
import type { StripPart } from '../api/cause_types';
import type { SectionView } from '../api/types';
import { layOutMarks, sectionScale } from '../calc/section_layout';
import { pixels } from '../calc/units';
import { SectionDrawing } from '../job/section_drawing';
import { say } from '../session/preferences';
import { t } from '../text/text';
import { useWidth } from '../widgets/use_size';
import { countsIn, type Marks } from './marks';

/** Where on the pump each part is looked for; what is told or was read elsewhere has no place. */
const placeOf: Record<string, string> = {
  faces: 'seat-face',
  elastomer: 'seal-head',
  'seal-metal': 'shaft-seal-area',
  rubs: 'wear-ring',
  impeller: 'impeller-face',
};

const margins = { top: 34, bottom: 34, side: 34 };
const spotWidth = 48;

/** The bearing has no check and so no place of its own: it is where it is drawn. */
function bearingOf(section: SectionView): { x_m: number; r_m: number } | null {
  const points = section.shapes.find((shape) => shape.part === 'bearing')?.points;
  if (!points || points.length === 0) return null;
  const mean = (i: 0 | 1) => points.reduce((sum, p) => sum + p[i], 0) / points.length;
  return { x_m: mean(0), r_m: mean(1) };
}

const spotOf = (section: SectionView, part: string) =>
  part === 'bearings' ? bearingOf(section) : section.places.find((p) => p.place === placeOf[part]);

export const partAnchor = (part: string): string => `strip-part-${part}`;

function openPart(part: string): void {
  const details = document.getElementById(partAnchor(part)) as HTMLDetailsElement | null;
  if (!details) return;
  details.open = true;
  details.querySelector('summary')?.focus({ preventScroll: true });
  details.scrollIntoView({ block: 'start' });
}

export function PartsOnSection({
  section,
  parts,
  marks,
}: {
  section: SectionView;
  parts: readonly StripPart[];
  marks: Marks;
}) {
  const [box, width] = useWidth<HTMLDivElement>(360);
  const scale = useMemo(
    () => sectionScale(section.whole, pixels(width), pixels(320), margins),
    [section, width],
  );
  const spots = useMemo(() => {
    const wishes = parts.flatMap((part) => {
      const at = spotOf(section, part.part);
      return at ? [{ key: part.part, x: scale.x(at.x_m), y: scale.y(at.r_m), width: spotWidth }] : [];
    });
    return layOutMarks(wishes, { width: scale.width, height: scale.height }, spotWidth);
  }, [section, parts, scale]);
  const partOf = (key: string | undefined) => parts.find((p) => p.part === key);
  return (
    <div class="section-box" ref={box}>
      <svg
        class="section"
        width={scale.width}
        height={scale.height}
        viewBox={`0 0 ${scale.width} ${scale.height}`}
        role="group"
        aria-label={t('stripOnSection')}
      >
        <SectionDrawing section={section} window={section.whole} scale={scale} whole />
        {spots.flatMap((spot) =>
          spot.keys.map((key, i) => {
            const part = partOf(key);
            const truth = spot.truth[i];
            if (!part || !truth) return null;
            const x = spot.x + (i - (spot.keys.length - 1) / 2) * spotWidth;
            const { there, not } = countsIn(part, marks);
            return (
              <g
                key={key}
                class="spot"
                role="button"
                tabindex={0}
                aria-label={`${say(part.title)}: ${t('stripCounts', { there, not })}`}
                onClick={() => openPart(key)}
                onKeyDown={(e) => {
                  if (e.key !== 'Enter' && e.key !== ' ') return;
                  e.preventDefault();
                  openPart(key);
                }}
              >
                <path class="leader-ground" d={`M${truth.x} ${truth.y}L${x} ${spot.y}`} />
                <path class="leader" d={`M${truth.x} ${truth.y}L${x} ${spot.y}`} />
                <circle class="true-place" cx={truth.x} cy={truth.y} r="2.6" />
                <rect class="strip-spot-hit" x={x - 24} y={spot.y - 24} width="48" height="48" />
                <circle
                  class={`strip-spot${there > 0 ? ' strip-spot-found' : ''}`}
                  cx={x}
                  cy={spot.y}
                  r="14"
                />
                <text class="strip-spot-count" x={x} y={spot.y + 5} text-anchor="middle">
                  {there > 0 ? there : not > 0 ? '–' : '?'}
                </text>
              </g>
            );
          }),
        )}
      </svg>
    </div>
  );
}

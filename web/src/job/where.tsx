// The picture of where to measure: the section zoomed to the check's place, with the place ringed.
import type { CheckView, SectionView } from '../api/types';
import { sectionScale, windowAround } from '../calc/section_layout';
import { pixels } from '../calc/units';
import { say } from '../session/preferences';
import { t } from '../text/text';
import { useTurn } from '../widgets/turn';
import { useWidth } from '../widgets/use_size';
import { SectionDrawing } from './section_drawing';

const pictureHeight = 160;

export function Where({ section, check }: { section: SectionView; check: CheckView }) {
  const [box, width] = useWidth<HTMLElement>(320);
  const drawn = useTurn();
  const place = section.places.find((p) => p.place === check.place);
  if (!place) return null;
  const window = windowAround(section.whole, place.x_m, place.r_m, 0.42, width / pictureHeight);
  const scale = sectionScale(window, pixels(width), pixels(pictureHeight + 12), {
    top: 2,
    bottom: 10,
    side: 2,
  });
  const x = scale.x(place.x_m);
  const y = scale.y(place.r_m);
  const title = say(place.title);
  return (
    <figure class="where" ref={box}>
      <svg
        width={scale.width}
        height={scale.height}
        viewBox={`0 0 ${scale.width} ${scale.height}`}
        role="img"
        aria-label={t('whereLabel', { place: title })}
      >
        {drawn && <SectionDrawing section={section} window={window} scale={scale} whole={false} />}
        <circle class="where-ring-ground" cx={x} cy={y} r="17" />
        <circle class="where-ring" cx={x} cy={y} r="17" />
        <circle class="where-dot" cx={x} cy={y} r="3.5" />
      </svg>
      <figcaption>
        {title} · {check.turning === 'rotating' ? t('fromKeyway') : t('fromTop')}
      </figcaption>
    </figure>
  );
}

// The unrolled strip: the turn laid out flat from the keyway (or the top mark) to where it began again, the next place
// lit, the readings above it as a line once the server has read them.
import { useEffect, useRef } from 'preact/hooks';
import type { SweepView, Turning } from '../api/types';
import { anglesOf, isGap, nextPlace, readingAt, type Strip } from '../calc/strip';
import { type Degrees, withinTurn } from '../calc/units';
import { placeName } from '../job/polar_picture';
import { t } from '../text/text';

const cell = 64;
const profileHeight = 56;

/** The readings as a line over the strip, scaled to its height; from the server's numbers only. */
function Profile({ strip, sweep }: { strip: Strip; sweep: SweepView | null }) {
  const angles = anglesOf(strip);
  const width = angles.length * cell;
  if (!sweep || sweep.points.length === 0)
    return <svg class="profile" width={width} height={profileHeight} aria-hidden="true" />;
  const values = sweep.points.map((p) => p.value_m);
  const low = Math.min(...values);
  const span = Math.max(...values) - low || 1e-9;
  const suspects = new Set(sweep.suspects.map((s) => s.index));
  const seen = sweep.points.flatMap((p, i) => {
    const index = p.index ?? i;
    const column = angles.indexOf(strip.points[index]?.angle ?? (Number.NaN as Degrees));
    if (column < 0) return [];
    const y = profileHeight - 8 - ((p.value_m - low) / span) * (profileHeight - 16);
    return [{ x: (column + 0.5) * cell, y, suspect: suspects.has(index) }];
  });
  return (
    <svg class="profile" width={width} height={profileHeight} aria-hidden="true">
      <path class="profile-line" d={seen.map((p, i) => `${i === 0 ? 'M' : 'L'}${p.x} ${p.y}`).join('')} />
      {seen.map((p) => (
        <circle key={p.x} class={p.suspect ? 'sweep-point suspect' : 'sweep-point'} cx={p.x} cy={p.y} r="4" />
      ))}
    </svg>
  );
}

function Mark({ turning }: { turning: Turning }) {
  return (
    <svg class="strip-mark" viewBox="0 0 20 14" aria-hidden="true">
      <path class="keyway" d={turning === 'rotating' ? 'M3 0h14v12h-14z' : 'M2 0h16l-8 13z'} />
    </svg>
  );
}

export function StripView(props: {
  strip: Strip;
  turning: Turning;
  sweep: SweepView | null;
  badAngle: Degrees | null;
  onChoose: (angle: Degrees) => void;
}) {
  const { strip, turning, sweep } = props;
  const box = useRef<HTMLDivElement>(null);
  const angles = anglesOf(strip);
  const next = nextPlace(strip);
  useEffect(() => {
    const lit = box.current?.querySelector<HTMLElement>('.strip-next');
    if (!lit || !box.current) return;
    const left = lit.offsetLeft - box.current.clientWidth / 2 + cell / 2;
    const calm = matchMedia('(prefers-reduced-motion: reduce)').matches;
    box.current.scrollTo({ left, behavior: calm ? 'auto' : 'smooth' });
  }, [next, strip.places]);
  const suspect = new Set((sweep?.suspects ?? []).map((s) => withinTurn(s.angle_deg as Degrees)));
  return (
    <div class="strip" ref={box} role="group" aria-label={t('stripLabel')} tabIndex={-1}>
      <div class="strip-inner">
        <Profile strip={strip} sweep={sweep} />
        <ol class="strip-cells">
          {angles.map((angle) => {
            const reading = readingAt(strip, angle);
            const gap = isGap(strip, angle);
            const isNext = angle === next;
            const classes = ['strip-cell'];
            if (isNext) classes.push('strip-next');
            if (gap) classes.push('strip-gap');
            if (angle === props.badAngle) classes.push('strip-bad');
            if (suspect.has(withinTurn(angle)) && reading !== null) classes.push('strip-suspect');
            const turn = angle >= 360 ? t('againMark') : '';
            return (
              <li key={angle}>
                <button
                  type="button"
                  class={classes.join(' ')}
                  aria-pressed={isNext}
                  onClick={() => props.onChoose(angle)}
                >
                  {withinTurn(angle) === 0 ? <Mark turning={turning} /> : <span class="strip-mark" />}
                  <span class="strip-angle">
                    {placeName(withinTurn(angle), turning)}
                    {turn && <span class="strip-turn"> {turn}</span>}
                  </span>
                  <span class="strip-reading">{gap ? t('gap') : (reading ?? (isNext ? '▾' : '·'))}</span>
                  {isNext && <span class="unseen">{t('nextPlace')}</span>}
                </button>
              </li>
            );
          })}
        </ol>
      </div>
    </div>
  );
}

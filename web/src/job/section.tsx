// The way around a pump: the half-section with every check at its place. A tap on a place goes to its check, or opens
// the choice where several share one.
import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { CheckView, JobView, SectionView, Verdict, Window4 } from '../api/types';
import { layOutMarks, type MarkSpot, sectionBar, sectionScale } from '../calc/section_layout';
import { pixels } from '../calc/units';
import { address } from '../route';
import { coarseUnit, say } from '../session/preferences';
import { t } from '../text/text';
import { useTurn } from '../widgets/turn';
import { useWidth } from '../widgets/use_size';
import { VerdictIcon, VerdictMark, verdictWord } from '../widgets/verdict';
import { SectionDrawing } from './section_drawing';

const margins = { top: 26, bottom: 74, side: 26 };
const shapeStep = 17;

interface Props {
  section: SectionView;
  checks: readonly CheckView[];
  number: string | null;
  currentStep: string | null;
  currentCheck: string | null;
  heightMax: number;
}

const titleOf = (section: SectionView, place: string) =>
  say(section.places.find((p) => p.place === place)?.title) || place;

const widthOf = (count: number) => 14 + shapeStep * Math.min(count, 5);

function checksAt(checks: readonly CheckView[], places: readonly string[]) {
  return checks.filter((c) => places.includes(c.place));
}

const insideWindow = (w: Window4, x: number, r: number) => w[0] <= x && x <= w[1] && w[2] <= r && r <= w[3];

function label(section: SectionView, spot: MarkSpot, checks: readonly CheckView[]): string {
  const place = spot.keys.map((k) => titleOf(section, k)).join(', ');
  return `${place}: ${checks.map((c) => `${say(c.title)}, ${verdictWord(c.finding.verdict)}`).join('; ')}`;
}

const severity: Verdict[] = ['fail', 'unproven', 'not-taken', 'pass'];

/** The shapes that fit a spot: all of them, or the worst ones and a plus for the rest. */
function shapesFor(verdicts: readonly Verdict[], width: number): { shown: Verdict[]; more: boolean } {
  const fits = Math.max(1, Math.floor((width - 9) / shapeStep));
  if (verdicts.length <= fits) return { shown: [...verdicts], more: false };
  const worstFirst = [...verdicts].sort((a, b) => severity.indexOf(a) - severity.indexOf(b));
  return { shown: worstFirst.slice(0, Math.max(1, fits - 1)), more: true };
}

/** The shapes of the checks gathered at a spot, on a pale ground. */
function SpotFace({ spot, verdicts, current }: { spot: MarkSpot; verdicts: Verdict[]; current: boolean }) {
  const { shown, more } = shapesFor(verdicts, spot.width);
  const slots = shown.length + (more ? 1 : 0);
  const width = Math.max(26, 9 + shapeStep * slots);
  const at = (i: number) => spot.x + (i - (slots - 1) / 2) * shapeStep;
  return (
    <>
      <rect
        class="spot-target"
        x={spot.x - spot.width / 2}
        y={spot.y - 24}
        width={spot.width}
        height={48}
        rx="10"
      />
      <rect
        class={current ? 'spot-ground spot-current' : 'spot-ground'}
        x={spot.x - width / 2}
        y={spot.y - 13}
        width={width}
        height={26}
        rx="13"
      />
      {shown.map((v, i) => (
        <VerdictMark key={`${i}${v}`} verdict={v} x={at(i)} y={spot.y} h={7} />
      ))}
      {more && (
        <path class="spot-more" d={`M${at(slots - 1) - 5} ${spot.y}h10M${at(slots - 1)} ${spot.y - 5}v10`} />
      )}
    </>
  );
}

function Fan(props: { title: string; checks: readonly CheckView[]; number: string; onClose: () => void }) {
  const box = useRef<HTMLDivElement>(null);
  useEffect(() => {
    box.current?.querySelector('a')?.focus();
  }, [props.title]);
  return (
    <div
      class="fan"
      ref={box}
      onKeyDown={(e) => {
        if (e.key === 'Escape') props.onClose();
      }}
    >
      <p class="fan-title">{props.title}</p>
      <ul>
        {props.checks.map((c) => (
          <li key={c.id}>
            <a href={address.check(props.number, c.step, c.id)} onClick={props.onClose}>
              <VerdictIcon verdict={c.finding.verdict} />
              <span>{say(c.title)}</span>
              <em>{verdictWord(c.finding.verdict)}</em>
            </a>
          </li>
        ))}
      </ul>
      <button type="button" class="button button-plain" onClick={props.onClose}>
        {t('close')}
      </button>
    </div>
  );
}

function Legend({ section, perMetre }: { section: SectionView; perMetre: number }) {
  const unit = coarseUnit();
  const bar = sectionBar(perMetre, unit.length, pixels(110));
  return (
    <p class="section-legend">
      <span class="swatch-word">
        <span class="swatch swatch-rotating" /> {t('turns')}
      </span>
      <span class="swatch-word">
        <span class="swatch swatch-standing" /> {t('stands')}
      </span>
      {section.shapes.some((s) => s.assumed) && (
        <span class="swatch-word">
          <span class="swatch swatch-assumed" /> {t('sizeAssumed')}
        </span>
      )}
      <span class="scale-bar">
        <svg width={bar.onScreen + 2} height="8" aria-hidden="true">
          <path class="bar-line" d={`M1 1V7M1 4H${bar.onScreen + 1}M${bar.onScreen + 1} 1V7`} />
        </svg>
        {bar.length} {unit.symbol}
      </span>
    </p>
  );
}

export function Section({ section, checks, number, currentStep, currentCheck, heightMax }: Props) {
  const [box, width] = useWidth<HTMLDivElement>(360);
  const [detail, setDetail] = useState(false);
  const [open, setOpen] = useState<string | null>(null);
  const drawn = useTurn();
  const window = detail ? section.seal : section.whole;
  const scale = useMemo(
    () => sectionScale(window, pixels(width), pixels(heightMax), margins),
    [window, width, heightMax],
  );
  const spots = useMemo(() => {
    if (!drawn) return [];
    const wishes = section.places
      .filter((p) => insideWindow(window, p.x_m, p.r_m) && checks.some((c) => c.place === p.place))
      .map((p) => ({
        key: p.place,
        x: scale.x(p.x_m),
        y: scale.y(p.r_m),
        width: widthOf(checksAt(checks, [p.place]).length),
      }));
    return layOutMarks(wishes, { width: scale.width, height: scale.height }, 130);
  }, [section, checks.length, scale, drawn]);
  const opened = spots.find((s) => s.keys.join() === open);
  const isCurrent = (c: CheckView) =>
    c.id === currentCheck || (currentCheck === null && c.step === currentStep);
  return (
    <div class="section-box" ref={box}>
      <svg
        class="section"
        width={scale.width}
        height={scale.height}
        viewBox={`0 0 ${scale.width} ${scale.height}`}
        role="group"
        aria-label={t('sectionLabel')}
      >
        {drawn && <SectionDrawing section={section} window={window} scale={scale} whole={!detail} />}
        <g aria-hidden="true">
          {spots.flatMap((s) =>
            s.truth.map((p, i) => (
              <g key={s.keys[i]}>
                <path class="leader-ground" d={`M${p.x} ${p.y}L${s.x} ${s.y}`} />
                <path class="leader" d={`M${p.x} ${p.y}L${s.x} ${s.y}`} />
                <circle class="true-place" cx={p.x} cy={p.y} r="2.6" />
              </g>
            )),
          )}
        </g>
        {spots.map((spot) => {
          const here = checksAt(checks, spot.keys);
          const face = (
            <SpotFace
              spot={spot}
              verdicts={here.map((c) => c.finding.verdict)}
              current={here.some(isCurrent)}
            />
          );
          const name = label(section, spot, here);
          const only = here.length === 1 ? here[0] : undefined;
          if (number === null) return <g key={spot.keys.join()}>{face}</g>;
          if (only)
            return (
              <a
                key={spot.keys.join()}
                class="spot"
                href={address.check(number, only.step, only.id)}
                aria-label={name}
              >
                {face}
              </a>
            );
          const toggle = () => setOpen(open === spot.keys.join() ? null : spot.keys.join());
          return (
            <g
              key={spot.keys.join()}
              class="spot"
              data-spot={spot.keys.join()}
              role="button"
              tabindex={0}
              aria-expanded={open === spot.keys.join()}
              aria-label={name}
              onClick={toggle}
              onKeyDown={(e) => {
                if (e.key !== 'Enter' && e.key !== ' ') return;
                e.preventDefault();
                toggle();
              }}
            >
              {face}
            </g>
          );
        })}
      </svg>
      {opened && number !== null && (
        <Fan
          title={opened.keys.map((k) => titleOf(section, k)).join(' · ')}
          checks={checksAt(checks, opened.keys)}
          number={number}
          onClose={() => {
            setOpen(null);
            box.current?.querySelector<SVGElement>(`[data-spot="${opened.keys.join()}"]`)?.focus();
          }}
        />
      )}
      <div class="section-foot">
        <Legend section={section} perMetre={scale.perMetre} />
        <button
          type="button"
          class="button button-plain section-zoom"
          aria-pressed={detail}
          onClick={() => {
            setDetail(!detail);
            setOpen(null);
          }}
        >
          {detail ? t('wholePump') : t('sealDetail')}
        </button>
      </div>
    </div>
  );
}

/** All steps by stage, for those who know the name and not the place. */
export function StepList({ view, current }: { view: JobView; current: string | null }) {
  const worst = (ids: readonly string[]): Verdict => {
    const all = view.checks.filter((c) => ids.includes(c.id)).map((c) => c.finding.verdict);
    for (const v of ['fail', 'unproven', 'not-taken', 'pass'] as const) if (all.includes(v)) return v;
    return 'not-taken';
  };
  const listed = useTurn();
  const [wide] = useState(() => matchMedia('(min-width: 1280px)').matches);
  return (
    <details class="steps" open={wide}>
      <summary>{t('allSteps', { count: view.steps.length })}</summary>
      {(listed ? view.stages : []).map((stage) => (
        <section key={stage.word}>
          <h3>{say(stage.title)}</h3>
          <ol>
            {view.steps
              .filter((s) => s.stage === stage.word)
              .map((s) => (
                <li key={s.id}>
                  <a
                    href={address.step(view.number, s.id)}
                    aria-current={s.id === current ? 'step' : undefined}
                    class={`step-link step-${s.state}`}
                  >
                    <VerdictIcon verdict={worst(s.checks)} />
                    <span>{say(s.title)}</span>
                    <em>
                      {s.state === 'done' ? t('stepDone') : s.hold ? t('holdPoint') : ''}
                      {s.state === 'waits' && ` ${t('stepWaits')}`}
                    </em>
                  </a>
                </li>
              ))}
          </ol>
        </section>
      ))}
    </details>
  );
}

// The polar picture of a sweep: readings, fitted circle magnified with its scale stated, limit band, high spot, suspects.
import type { Amount, SweepView, Turning } from '../api/types';
import { fittedPath, limitBand, place, polarScale, rim, type SweepShape, scaleBar } from '../calc/polar';
import { angleText, clockPosition, degrees, metres, pixels } from '../calc/units';
import { fineUnit, show } from '../session/preferences';
import { t } from '../text/text';

export function placeName(angleDeg: number, turning: Turning): string {
  const angle = degrees(angleDeg);
  return turning === 'standing' ? t('oclock', { clock: clockPosition(angle) }) : angleText(angle);
}

export interface PolarProps {
  sweep: SweepView;
  turning: Turning;
  /** The widest movement permitted, when the limit bounds the TIR. */
  band: Amount | null;
  size: number;
}

function Compass({ scale, turning }: { scale: ReturnType<typeof polarScale>; turning: Turning }) {
  const outer = pixels(scale.centre.x * 0.93);
  return (
    <g class="polar-compass">
      {Array.from({ length: 12 }, (_, i) => {
        const a = degrees(i * 30);
        const from = rim(scale, a, pixels(outer - (i % 3 === 0 ? 8 : 4)));
        const to = rim(scale, a, outer);
        return <path key={i} d={`M${from.x} ${from.y}L${to.x} ${to.y}`} />;
      })}
      {[90, 180, 270].map((deg) => {
        const at = rim(scale, degrees(deg), pixels(outer - 20));
        return (
          <text key={deg} x={at.x} y={at.y + 4}>
            {turning === 'standing' ? clockPosition(degrees(deg)) : angleText(degrees(deg))}
          </text>
        );
      })}
      <path
        class="keyway"
        d={
          turning === 'rotating'
            ? `M${scale.centre.x - 9} ${scale.centre.y - outer}v13h18v-13z`
            : `M${scale.centre.x - 9} ${scale.centre.y - outer}h18l-9 13z`
        }
      />
    </g>
  );
}

export function PolarPicture({ sweep, turning, band, size }: PolarProps) {
  const shape: SweepShape = {
    points: sweep.points.map((p) => ({ angle: degrees(p.angle_deg), value: metres(p.value_m) })),
    mean: metres(sweep.mean_m),
    a1: metres(sweep.a1_m),
    b1: metres(sweep.b1_m),
  };
  const bandM = band ? metres(band.si) : null;
  const scale = polarScale(shape, pixels(size), bandM);
  const ring = bandM === null ? null : limitBand(scale, shape, bandM);
  const outerMax = size / 2;
  const inPicture = ring !== null && ring.outer < outerMax;
  const unit = fineUnit();
  const bar = scaleBar(scale, unit.length, pixels(size * 0.3));
  const c = scale.centre;
  const high = sweep.high_spot_deg;
  const tip = high === null ? null : rim(scale, degrees(high), pixels(outerMax * 0.93));
  const suspects = new Set(sweep.suspects.map((s) => s.index));
  const words = [
    t('polarLabel', { count: sweep.points.length, tir: show(sweep.tir) }),
    high === null ? t('noHighSpot') : t('highSpotAt', { place: placeName(Math.round(high), turning) }),
  ].join('. ');
  return (
    <figure class="polar">
      <svg width={size} height={size} viewBox={`0 0 ${size} ${size}`} role="img" aria-label={words}>
        {ring && inPicture && (
          <path
            class="limit-band"
            fill-rule="evenodd"
            d={`${circlePath(c.x, c.y, ring.outer)}${circlePath(c.x, c.y, ring.inner)}`}
          />
        )}
        <circle class="mean-circle" cx={c.x} cy={c.y} r={scale.base} />
        <Compass scale={scale} turning={turning} />
        <path class="fit-line" d={fittedPath(scale, shape)} />
        <path class="axis-cross" d={`M${c.x - 6} ${c.y}h12M${c.x} ${c.y - 6}v12`} />
        {tip && (
          <>
            <path class="high-line" d={`M${c.x} ${c.y}L${tip.x} ${tip.y}`} />
            <circle class="high-tip" cx={tip.x} cy={tip.y} r="6" />
          </>
        )}
        {shape.points.map((p, i) => {
          const at = place(scale, p.angle, p.value);
          return suspects.has(sweep.points[i]?.index ?? i) ? (
            <g key={`${p.angle}-${i}`}>
              <circle class="suspect-ring" cx={at.x} cy={at.y} r="10" />
              <circle class="sweep-point suspect" cx={at.x} cy={at.y} r="4" />
            </g>
          ) : (
            <circle key={`${p.angle}-${i}`} class="sweep-point" cx={at.x} cy={at.y} r="4" />
          );
        })}
        <g class="polar-bar" transform={`translate(8 ${size - 8})`}>
          <path d={`M0 -5V0H${bar.onScreen}V-5`} />
          <text x={bar.onScreen + 6} y="0">
            {bar.length} {unit.symbol}
          </text>
        </g>
      </svg>
      <figcaption>
        <span>
          {t('magnified', { bar: `${bar.length} ${unit.symbol}` })}
          {band && ring && !inPicture ? ` ${t('limitOutside')}` : ''}
        </span>
      </figcaption>
    </figure>
  );
}

function circlePath(x: number, y: number, r: number): string {
  return `M${x - r} ${y}A${r} ${r} 0 1 0 ${x + r} ${y}A${r} ${r} 0 1 0 ${x - r} ${y}Z`;
}

/** The numbers beside the picture, and what the sweep warns of. */
export function SweepFigures(props: { sweep: SweepView; turning: Turning; warns?: boolean }) {
  const { sweep, turning, warns } = props;
  return (
    <>
      <dl class="figures">
        <div class="figure-main">
          <dt>{t('tir')}</dt>
          <dd>{show(sweep.tir)}</dd>
        </div>
        <div>
          <dt>{t('eccentricity')}</dt>
          <dd>
            {show(sweep.eccentricity)}
            {sweep.eccentricity_u && <small> ± {show(sweep.eccentricity_u)}</small>}
          </dd>
        </div>
        <div>
          <dt>{turning === 'rotating' ? t('highSpotKeyway') : t('highSpotTop')}</dt>
          <dd>
            {sweep.high_spot_deg === null
              ? t('noHighSpotShort')
              : placeName(Math.round(sweep.high_spot_deg), turning)}
          </dd>
        </div>
        <div>
          <dt>{t('missedTir')}</dt>
          <dd>{show(sweep.missed_tir)}</dd>
        </div>
        <div>
          <dt>{t('outOfRound')}</dt>
          <dd>{show(sweep.ront)}</dd>
        </div>
      </dl>
      {(warns ? sweep.suspects : []).map((s) => (
        <p class="suspect-note" key={s.index}>
          {t('readAgainAt', { place: placeName(s.angle_deg, turning) })}
        </p>
      ))}
    </>
  );
}

// The faces of the seal: the film between them, and pressure and temperature along it, each to its own scale.
import type { FaceCurve, SealFace } from '../api/seal_types';
import { type Box, curvePoints, pathOf } from '../calc/curve';
import { show } from '../session/preferences';
import { type TextKey, t } from '../text/text';

const width = 320;
const left = 8;
const right = width - 8;
const panel = 62;
const titleRoom = 20;
const partRoom = 14;

const titles: Record<FaceCurve['name'], TextKey> = {
  film: 'sealFilm',
  pressure: 'sealPressure',
  temperature: 'sealTemperature',
};

const boxOf = (index: number): Box => {
  const top = index * (panel + titleRoom) + titleRoom + (index > 0 ? partRoom : 0);
  return { left, right, top, bottom: top + panel - 10 };
};

/** A film is drawn from nothing up, the others between their own ends. */
const rangeOf = (curve: FaceCurve) => ({
  low: curve.name === 'film' ? 0 : curve.lowest.si,
  high: curve.highest.si,
});

function Title({ curve, y }: { curve: FaceCurve; y: number }) {
  const same = show(curve.lowest) === show(curve.highest);
  return (
    <text x={left} y={y}>
      {t(titles[curve.name])}
      <tspan class="face-range" x={right} text-anchor="end">
        {same ? show(curve.highest) : `${show(curve.lowest)} … ${show(curve.highest)}`}
      </tspan>
    </text>
  );
}

/** The two faces with the film between them; the standing seat above, the turning ring below. */
function Film({ face, curve, box }: { face: SealFace; curve: FaceCurve; box: Box }) {
  const points = curvePoints(face.radius_m, curve.values, rangeOf(curve), { ...box, top: box.top + 8 });
  const line = pathOf(points);
  const wet = points.filter((_, i) => face.boils[i]);
  return (
    <g>
      <path class="face-seat" d={`${line}V${box.top}H${box.left}Z`} />
      <rect class="face-ring" x={box.left} y={box.bottom} width={box.right - box.left} height={partRoom} />
      <path class="face-edge" d={`${line}M${box.left} ${box.bottom}H${box.right}`} />
      {wet.map(([x, y]) => (
        <circle key={x} class="face-boils" cx={x} cy={(y + box.bottom) / 2} r="2.6" />
      ))}
    </g>
  );
}

function Curve({ face, curve, box }: { face: SealFace; curve: FaceCurve; box: Box }) {
  const points = curvePoints(face.radius_m, curve.values, rangeOf(curve), { ...box, top: box.top + 6 });
  return (
    <g>
      <path class="face-axis" d={`M${box.left} ${box.bottom}H${box.right}`} />
      <path class={`face-curve face-${curve.name}`} d={pathOf(points)} />
    </g>
  );
}

export function FacePicture({ face }: { face: SealFace }) {
  const height = boxOf(face.curves.length - 1).bottom + 38;
  const words = face.curves
    .map((c) => `${t(titles[c.name])} ${show(c.lowest)} … ${show(c.highest)}`)
    .join('; ');
  return (
    <figure class="face-figure">
      <svg
        class="face-picture"
        viewBox={`0 0 ${width} ${height}`}
        role="img"
        aria-label={`${t('sealAlongFace')}: ${words}`}
      >
        {face.curves.map((curve, i) => {
          const box = boxOf(i);
          return (
            <g key={curve.name}>
              <Title curve={curve} y={box.top - 6} />
              {curve.name === 'film' ? (
                <Film face={face} curve={curve} box={box} />
              ) : (
                <Curve face={face} curve={curve} box={box} />
              )}
            </g>
          );
        })}
        <text class="face-end" x={left} y={height - 18}>
          {t('sealInside')}
          <tspan x={left} dy="15">
            Ø {show(face.inside)}
          </tspan>
        </text>
        <text class="face-end" x={right} y={height - 18} text-anchor="end">
          {t('sealOutside')}
          <tspan x={right} dy="15">
            Ø {show(face.outside)}
          </tspan>
        </text>
      </svg>
      <figcaption class="hint">
        {t(face.pressed_outside ? 'sealLiquidOutside' : 'sealLiquidInside')}{' '}
        {face.boils.some(Boolean) && t('sealBoilsDots')}
      </figcaption>
    </figure>
  );
}

// Suction pressure against temperature: where this seal may run, and where the job and what is tried stand.
import { useId } from 'preact/hooks';
import type { SealConditions, SealMap } from '../api/seal_types';
import type { Box } from '../calc/curve';
import { type MapLetter, mapLetters, mapPath, mapPlace } from '../calc/seal_map';
import { show } from '../session/preferences';
import { type TextKey, t } from '../text/text';

const width = 320;
const height = 236;
const box: Box = { left: 8, right: width - 8, top: 22, bottom: height - 40 };

const names: Record<MapLetter, TextKey> = {
  e: 'sealMapEnough',
  s: 'sealMapSmall',
  b: 'sealMapBoils',
  o: 'sealMapOpens',
  u: 'sealMapUnsolved',
};

/** Told apart by their lines, so that they need no colour. */
const hatches: Record<MapLetter, string> = {
  e: '',
  s: 'M0 8L8 0',
  b: 'M0 8L8 0M0 0L8 8',
  o: 'M4 0V8',
  u: 'M3 4h2',
};

function Hatches({ id }: { id: string }) {
  return (
    <defs>
      {mapLetters.map((letter) => (
        <pattern
          key={letter}
          id={`${id}-${letter}`}
          width="8"
          height="8"
          patternUnits="userSpaceOnUse"
          class={`map-hatch map-${letter}`}
        >
          <rect width="8" height="8" />
          <path d={hatches[letter]} />
        </pattern>
      ))}
    </defs>
  );
}

function Legend({ id, there }: { id: string; there: readonly MapLetter[] }) {
  return (
    <ul class="map-legend">
      {there.map((letter) => (
        <li key={letter}>
          <svg viewBox="0 0 24 16" aria-hidden="true">
            <rect class="map-key" x="1" y="1" width="22" height="14" fill={`url(#${id}-${letter})`} />
          </svg>
          {t(names[letter])}
        </li>
      ))}
    </ul>
  );
}

function Own({ at }: { at: [number, number] }) {
  return <circle class="map-own" cx={at[0]} cy={at[1]} r="7" />;
}

function Tried({ at }: { at: [number, number] }) {
  return <path class="map-tried" d={`M${at[0]} ${at[1] - 10}l10 10l-10 10l-10 -10z`} />;
}

export type DrawnMap = NonNullable<SealMap['map']>;

function placeOf(map: DrawnMap, at: SealConditions): [number, number] | null {
  if (!at.temperature || !at.suction) return null;
  return mapPlace({ temperature: at.temperature.si, suction: at.suction.si }, map, box);
}

/** Whether conditions have a place on the map. */
export const isOn = (map: DrawnMap, at: SealConditions): boolean => placeOf(map, at) !== null;

export function MapPicture({
  map,
  own,
  tried,
}: {
  map: DrawnMap;
  own: SealConditions;
  /** Null when the job's own conditions are shown. */
  tried: SealConditions | null;
}) {
  const id = useId();
  const there = mapLetters.filter((letter) => map.columns.some((c) => c.includes(letter)));
  const today = placeOf(map, own);
  const here = tried && placeOf(map, tried);
  const shown = tried ?? own;
  const words = t('sealMapLabel', {
    temperature: show(shown.temperature),
    suction: show(shown.suction),
  });
  return (
    <figure class="map-figure">
      <svg class="map-picture" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={words}>
        <Hatches id={id} />
        {there.map((letter) => (
          <path key={letter} fill={`url(#${id}-${letter})`} d={mapPath(map.columns, letter, box)} />
        ))}
        <rect
          class="map-frame"
          x={box.left}
          y={box.top}
          width={box.right - box.left}
          height={box.bottom - box.top}
        />
        {today && <Own at={today} />}
        {here && <Tried at={here} />}
        <text x={box.left} y={box.top - 7}>
          {t('sealMapSuction')}: {show(map.suction.lowest)} … {show(map.suction.highest)} ↑
        </text>
        <text x={box.left} y={box.bottom + 17}>
          {show(map.temperature.lowest)}
        </text>
        <text x={box.right} y={box.bottom + 17} text-anchor="end">
          {show(map.temperature.highest)}
        </text>
        <text x={(box.left + box.right) / 2} y={box.bottom + 34} text-anchor="middle">
          {t('sealMapTemperature')} →
        </text>
      </svg>
      <figcaption>
        <Legend id={id} there={there} />
        <ul class="map-legend">
          {today && (
            <li>
              <svg viewBox="-12 -8 24 16" aria-hidden="true">
                <circle class="map-own" r="6" />
              </svg>
              {t('sealMapOwn')}
            </li>
          )}
          {here && (
            <li>
              <svg viewBox="-12 -8 24 16" aria-hidden="true">
                <path class="map-tried" d="M0 -7l7 7l-7 7l-7 -7z" />
              </svg>
              {t('sealMapTried')}
            </li>
          )}
        </ul>
        {tried && !today && own.suction && <p class="hint">{t('sealMapOwnOutside')}</p>}
      </figcaption>
    </figure>
  );
}

// Plain drawings of what is found at a strip-down, so that it can be picked by eye: a ring seen on its face, a section of
// the elastomer, a piece of sleeve, vane or race. Not to scale.
import type { JSX } from 'preact';

const circle = (r: number, x = 24, y = 24): string =>
  `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0`;

const around = (angle: number, r: number): [number, number] => [
  24 + r * Math.sin((angle * Math.PI) / 180),
  24 - r * Math.cos((angle * Math.PI) / 180),
];

const ring = <path class="body" fill-rule="evenodd" d={circle(21) + circle(10)} />;

const band = (inner: number, outer: number, x = 24) => (
  <path class="tint" fill-rule="evenodd" d={circle(outer, x) + circle(inner, x)} />
);

const rays = (angles: readonly number[], from: number, to: number) => (
  <path
    class="mark"
    d={angles.map((a) => `M${around(a, from).join(' ')}L${around(a, to).join(' ')}`).join('')}
  />
);

const spots = (places: readonly (readonly [number, number])[], size: number, kind = 'filled') =>
  places.map(([x, y]) => <circle key={`${x} ${y}`} class={kind} cx={x} cy={y} r={size} />);

const every = (step: number, from = 0): number[] =>
  Array.from({ length: Math.floor(360 / step) }, (_, i) => from + i * step);

const arc = (from: number, to: number, r: number) => (
  <path
    class="mark"
    style={{ strokeWidth: 6 }}
    d={`M${around(from, r).join(' ')}A${r} ${r} 0 0 1 ${around(to, r).join(' ')}`}
  />
);

const chips = (r: number) => (
  <g>
    {[20, 95, 150, 260].map((a) => {
      const [x, y] = around(a, r);
      return <circle key={a} class="gone" cx={x} cy={y} r="3.2" />;
    })}
  </g>
);

const scattered: readonly (readonly [number, number])[] = [
  [24, 8],
  [31, 10],
  [38, 17],
  [40, 26],
  [35, 35],
  [26, 40],
  [16, 37],
  [9, 30],
  [9, 20],
  [15, 11],
  [36, 24],
  [12, 25],
];

const orings = {
  section: <circle class="soft" cx="24" cy="24" r="11" />,
  whole: <path class="soft" fill-rule="evenodd" d={circle(20) + circle(14)} />,
};

const sleeve = <rect class="body" x="5" y="14" width="38" height="20" />;
const race = <rect class="body" x="4" y="15" width="40" height="18" rx="2" />;
const spring = 'M6 24L10 14L16 34L22 14L28 34L34 14L40 34L43 24';
const vane = 'M8 40C14 26 26 14 42 10L40 15C28 20 18 29 13 41Z';

const rubbing = (rotor: JSX.Element, standing: JSX.Element) => (
  <>
    <path class="body" fill-rule="evenodd" d={circle(21) + circle(15)} />
    <circle class="body" cx="24" cy="24" r="11" />
    {rotor}
    {standing}
  </>
);

const all: Readonly<Record<string, JSX.Element>> = {
  'track-wide': (
    <>
      {ring}
      {band(11, 20)}
    </>
  ),
  'track-narrow': (
    <>
      {ring}
      {band(14.5, 16.5)}
    </>
  ),
  'track-even': (
    <>
      {ring}
      {band(13, 18)}
    </>
  ),
  'track-off-centre': (
    <>
      {ring}
      {band(12.5, 17, 27)}
    </>
  ),
  'two-spots': (
    <>
      {ring}
      {arc(-30, 30, 15.5)}
      {arc(150, 210, 15.5)}
    </>
  ),
  'heavy-outside': (
    <>
      {ring}
      {band(17, 21)}
    </>
  ),
  'heavy-inside': (
    <>
      {ring}
      {band(10, 14)}
    </>
  ),
  'heat-checks': (
    <>
      {ring}
      {rays(every(22), 11, 20)}
    </>
  ),
  'face-tinted': (
    <>
      {ring}
      {band(10.5, 20.5)}
    </>
  ),
  'face-blistered': (
    <>
      {ring}
      {spots(scattered.slice(0, 7), 2.6, 'mark')}
    </>
  ),
  'face-cratered': (
    <>
      {ring}
      {spots(
        every(28).map((a) => around(a, 12.5)),
        1.9,
      )}
      {chips(21)}
    </>
  ),
  'chips-outside': (
    <>
      {ring}
      {chips(21)}
    </>
  ),
  'chips-inside': (
    <>
      {ring}
      {chips(10)}
    </>
  ),
  'face-broken': (
    <>
      {ring}
      <path class="mark" d="M24 3L22 8L26 11L23 14M37 37L34 34L35 31" />
    </>
  ),
  'face-grooved': (
    <>
      {ring}
      <path class="mark" style={{ strokeWidth: 1 }} d={[12, 14, 16, 18, 20].map((r) => circle(r)).join('')} />
    </>
  ),
  'solids-bedded': (
    <>
      {ring}
      <path
        class="filled"
        d={scattered
          .map(([x, y]) => `M${x} ${y - 2.4}L${x + 2.4} ${y}L${x} ${y + 2.4}L${x - 2.4} ${y}Z`)
          .join('')}
      />
    </>
  ),
  'face-pitted': (
    <>
      {ring}
      {spots([...scattered, ...every(24).map((a) => around(a, 18.5))], 1.1)}
    </>
  ),
  'face-worn-away': (
    <>
      <path class="was" d="M10 8H38V26H10Z" />
      <path class="body" d="M6 42V30H10V24H38V30H42V42Z" />
    </>
  ),
  'face-unworn': (
    <>
      <path class="body" d="M6 6H42V17H6Z M6 31H42V42H6Z" />
      <path class="mark" d="M24 19V29M21 22L24 19L27 22M21 26L24 29L27 26" />
    </>
  ),
  'black-deposit': (
    <>
      {ring}
      <path class="filled" fill-rule="evenodd" d={circle(11.5) + circle(7, 23, 25)} />
    </>
  ),
  'white-deposit': (
    <>
      {ring}
      <path
        class="mark"
        d={every(60)
          .map((a) => {
            const [x, y] = around(a, 8);
            return `M${x - 2.5} ${y}H${x + 2.5}M${x} ${y - 2.5}V${y + 2.5}`;
          })
          .join('')}
      />
    </>
  ),
  'elastomer-swollen': (
    <>
      <circle class="soft" cx="24" cy="24" r="17" />
      <circle class="was" style={{ stroke: 'var(--paper)' }} cx="24" cy="24" r="10" />
    </>
  ),
  'elastomer-hard': (
    <>
      <circle class="soft" cx="24" cy="24" r="15" />
      <path
        class="mark"
        style={{ stroke: 'var(--paper)' }}
        d="M12 18L18 21L16 27M24 9L25 16L30 19M36 30L30 30L28 36M20 38L22 32"
      />
    </>
  ),
  'elastomer-cut': (
    <>
      {orings.whole}
      <path class="gone" d="M22 2L27 12L28 2Z" />
      <path class="mark" d="M34 38L38 42" />
    </>
  ),
  'elastomer-nibbled': (
    <>
      <path class="body" d="M4 6H14V20H4Z M4 28H14V42H4Z" />
      {orings.section}
      <path class="filled" d="M14 21L5 22L8 24L4 25L9 26L14 27Z" />
    </>
  ),
  'elastomer-spiral': (
    <>
      {orings.whole}
      <path
        class="mark"
        style={{ stroke: 'var(--paper)' }}
        d={every(30)
          .map((a) => `M${around(a, 13.5).join(' ')}L${around(a + 14, 20.5).join(' ')}`)
          .join('')}
      />
    </>
  ),
  'elastomer-flat': (
    <>
      <ellipse class="soft" cx="24" cy="24" rx="17" ry="8" />
      <circle class="was" cx="24" cy="24" r="12" />
    </>
  ),
  'sleeve-fretted': (
    <>
      {sleeve}
      <path class="gone" d="M19 13H29V17H19Z M19 31H29V35H19Z" />
      <path class="mark" d="M19 17H29M19 31H29M22 17V31M26 17V31" />
    </>
  ),
  'drive-worn': (
    <>
      <path class="body" d="M4 10H18V38H4Z M30 10H44V38H30Z" />
      <path class="was" d="M18 10V38" />
      <path class="filled" d="M18 16C12 20 12 28 18 32Z" />
    </>
  ),
  'springs-clogged': (
    <>
      <path class="mark" d={spring} />
      {spots(
        [
          [13, 22],
          [19, 26],
          [25, 22],
          [31, 27],
          [37, 23],
          [16, 29],
        ],
        2.6,
      )}
    </>
  ),
  'spring-broken': <path class="mark" d="M6 24L10 14L16 34L20 20M27 30L34 14L40 34L43 24" />,
  'metal-pitted': (
    <>
      {sleeve}
      {spots(
        [
          [11, 19],
          [17, 27],
          [23, 20],
          [29, 30],
          [34, 22],
          [39, 28],
        ],
        1.8,
      )}
    </>
  ),
  'metal-blued': (
    <>
      {sleeve}
      <path class="tint" d="M5 14H16V34H5Z M20 14H25V34H20Z M29 14H32V34H29Z" />
    </>
  ),
  'rub-rotor-spot': rubbing(arc(-20, 20, 10), <path class="mark" d={circle(15)} />),
  'rub-standing-spot': rubbing(<path class="mark" d={circle(11)} />, arc(160, 200, 16)),
  'ring-rubbed': (
    <>
      {ring}
      {rays(every(12), 10, 13)}
    </>
  ),
  'vane-inlet-pitted': (
    <>
      <path class="body" d={vane} />
      {spots(
        [
          [11, 38],
          [13, 34],
          [15, 30],
          [16, 34],
          [18, 28],
        ],
        1.5,
      )}
    </>
  ),
  'vane-outlet-pitted': (
    <>
      <path class="body" d={vane} />
      {spots(
        [
          [40, 12],
          [36, 13],
          [37, 15],
          [33, 15],
          [32, 17],
        ],
        1.4,
      )}
    </>
  ),
  'worn-smooth': (
    <>
      <path class="was" d={vane} />
      <path class="body" d="M10 38C16 28 24 20 36 14C27 20 18 28 12 39Z" />
    </>
  ),
  'bearing-fluted': (
    <>
      {race}
      <path class="mark" d={[8, 12, 16, 20, 24, 28, 32, 36, 40].map((x) => `M${x} 17V31`).join('')} />
    </>
  ),
  'bearing-blued': (
    <>
      {race}
      <path class="tint" d="M4 19H44V29H4Z" />
    </>
  ),
  'bearing-rusted': (
    <>
      {race}
      {spots(
        [
          [10, 24],
          [19, 24],
          [28, 24],
          [37, 24],
        ],
        3,
        'tint',
      )}
    </>
  ),
  'bearing-track-tilted': (
    <>
      {race}
      <path class="mark" style={{ strokeWidth: 4 }} d="M5 20C16 20 16 29 25 29C34 29 34 20 43 20" />
    </>
  ),
  'bearing-spalled': (
    <>
      {race}
      <path class="filled" d="M16 22L20 19L27 21L31 20L33 25L27 28L21 27L17 28Z" />
    </>
  ),
};

/** Nothing to be seen of what is told or computed: its place is left empty. */
export function FindingDrawing({ finding }: { finding: string }) {
  return (
    <svg class="finding-drawing" viewBox="0 0 48 48" aria-hidden="true">
      {all[finding]}
    </svg>
  );
}

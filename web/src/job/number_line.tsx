// A value against its limits on a line, with its uncertainty; shape and words say the verdict, not the line.
import type { Amount, LimitView, Verdict } from '../api/types';
import { linePlaces } from '../calc/number_line';
import { show } from '../session/preferences';
import { t } from '../text/text';
import { VerdictMark } from '../widgets/verdict';

export function NumberLine(props: {
  value: Amount | null;
  u: Amount | null;
  limit: LimitView | null;
  verdict: Verdict;
}) {
  const { value, u, limit, verdict } = props;
  const width = 320;
  const pad = 14;
  const places = linePlaces({
    value: value?.si ?? null,
    u: u?.si ?? null,
    lower: limit?.lower?.si ?? null,
    upper: limit?.upper?.si ?? null,
  });
  if (!places || (!limit?.lower && !limit?.upper)) return null;
  const x = (share: number) => pad + share * (width - 2 * pad);
  const low = places.lower === null ? 0 : places.lower;
  const high = places.upper === null ? 1 : places.upper;
  const words = t('lineLabel', {
    value: show(value),
    limit: limit ? [show(limit.lower), show(limit.upper)].filter(Boolean).join(' … ') : '',
  });
  const end = (share: number, amount: Amount, anchor: string) => (
    <g>
      <path class="limit-edge" d={`M${x(share)} 22V58`} />
      <text x={x(share)} y="74" text-anchor={anchor}>
        {show(amount)}
      </text>
    </g>
  );
  const anchorOf = (share: number) => (share < 0.25 ? 'start' : share > 0.75 ? 'end' : 'middle');
  return (
    <svg class="number-line" viewBox={`0 0 ${width} 80`} role="img" aria-label={words}>
      <rect class="limit-band" x={x(low)} y="32" width={Math.max(0, x(high) - x(low))} height="16" />
      <path class="line-axis" d={`M${pad} 40H${width - pad}`} />
      {places.lower !== null && limit?.lower && end(places.lower, limit.lower, anchorOf(places.lower))}
      {places.upper !== null && limit?.upper && end(places.upper, limit.upper, anchorOf(places.upper))}
      {places.spread && (
        <path
          class="spread"
          d={`M${x(places.spread[0])} 34v12M${x(places.spread[0])} 40H${x(places.spread[1])}M${x(places.spread[1])} 34v12`}
        />
      )}
      {places.value !== null && value && (
        <>
          <VerdictMark verdict={verdict} x={x(places.value)} y={40} h={8} />
          <text class="line-value" x={x(places.value)} y="18" text-anchor={anchorOf(places.value)}>
            {show(value)}
          </text>
        </>
      )}
    </svg>
  );
}

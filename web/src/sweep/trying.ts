// What the server says of a sweep while it is being read.
import { readingPayload } from '../job/bench_acts';
import { type Tried, useTried } from '../job/trying';
import { type SweepDraft, sweepPayload } from './draft';

export const leastPoints = 3;

export function useTrying(job: string, check: string, draft: SweepDraft | null): Tried {
  const asks = draft?.started === true && draft.strip.points.length >= leastPoints;
  const reading = asks ? { instrument: draft.instrument, sweep: sweepPayload(draft) } : null;
  return useTried(job, reading && JSON.stringify(readingPayload(check, reading)));
}

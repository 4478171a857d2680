// Asks the server, while a sweep is being read, what it says so far. Late answers to earlier questions are dropped.
import { useEffect, useState } from 'preact/hooks';
import { CutOff, jobPath, post, Refused } from '../api/client';
import type { Finding, JudgedReading, ServerError } from '../api/types';
import { readingPayload } from '../job/bench_acts';
import { type SweepDraft, sweepPayload } from './draft';

export interface Tried {
  judged: JudgedReading | null;
  error: ServerError | null;
  cutOff: boolean;
}

const nothing: Tried = { judged: null, error: null, cutOff: false };
const pauseMs = 350;

export const leastPoints = 3;

/** The server may answer with the reading alone or with the whole finding. */
const readingOf = (answer: JudgedReading | Finding): JudgedReading | null =>
  'readings' in answer ? (answer.readings[answer.readings.length - 1] ?? null) : answer;

export function useTrying(job: string, check: string, draft: SweepDraft | null): Tried {
  const [tried, setTried] = useState<Tried>(nothing);
  const asked = draft ? JSON.stringify([draft.instrument, sweepPayload(draft)]) : '';
  useEffect(() => {
    if (!draft?.started || draft.strip.points.length < leastPoints) {
      setTried(nothing);
      return;
    }
    const stop = new AbortController();
    const timer = setTimeout(async () => {
      const payload = readingPayload(check, { instrument: draft.instrument, sweep: sweepPayload(draft) });
      try {
        const answer = await post<JudgedReading | Finding>(
          `${jobPath(job)}/try`,
          { payload: JSON.stringify(payload) },
          { signal: stop.signal },
        );
        setTried({ judged: readingOf(answer), error: null, cutOff: false });
      } catch (error) {
        if (stop.signal.aborted) return;
        if (error instanceof Refused)
          setTried((before) => ({ ...before, error: error.error, cutOff: false }));
        else if (error instanceof CutOff) setTried({ judged: null, error: null, cutOff: true });
        else throw error;
      }
    }, pauseMs);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [job, check, asked, draft?.started]);
  return tried;
}

// Asks the server what it would say of a reading that is not sent yet. Late answers to earlier questions are dropped.
import { useEffect, useState } from 'preact/hooks';
import { CutOff, jobPath, post, Refused } from '../api/client';
import type { Finding, JudgedReading, ServerError } from '../api/types';

export interface Tried {
  judged: JudgedReading | null;
  error: ServerError | null;
  cutOff: boolean;
}

const nothing: Tried = { judged: null, error: null, cutOff: false };
const pauseMs = 350;

/** The server may answer with the reading alone or with the whole finding. */
const readingOf = (answer: JudgedReading | Finding): JudgedReading | null =>
  'readings' in answer ? (answer.readings[answer.readings.length - 1] ?? null) : answer;

/** `payload`: the reading as it would be sent; null while there is nothing to ask. */
export function useTried(job: string, payload: string | null): Tried {
  const [tried, setTried] = useState<Tried>(nothing);
  useEffect(() => {
    if (payload === null) {
      setTried(nothing);
      return;
    }
    const stop = new AbortController();
    const timer = setTimeout(async () => {
      try {
        const answer = await post<JudgedReading | Finding>(
          `${jobPath(job)}/try`,
          { payload },
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
  }, [job, payload]);
  return tried;
}

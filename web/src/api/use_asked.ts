// Asks the server while conditions are being typed. Late answers to earlier questions are dropped; what is shown stays
// until a new answer is there.
import { useEffect, useState } from 'preact/hooks';
import { CutOff, get, Refused } from './client';
import type { ServerError } from './types';

export interface Asked<T> {
  answer: T | null;
  /** The question `answer` belongs to. */
  question: string;
  error: ServerError | null;
  cutOff: boolean;
  asking: boolean;
}

const pauseMs = 400;

/** `path` null asks nothing. `since` asks again when it changes. */
export function useAsked<T>(path: string | null, since: number): Asked<T> {
  const [asked, setAsked] = useState<Asked<T>>({
    answer: null,
    question: '',
    error: null,
    cutOff: false,
    asking: true,
  });
  useEffect(() => {
    if (path === null) return;
    const stop = new AbortController();
    setAsked((before) => ({ ...before, asking: true }));
    const ask = async () => {
      try {
        const answer = await get<T>(path, { signal: stop.signal });
        setAsked({ answer, question: path, error: null, cutOff: false, asking: false });
      } catch (error) {
        if (stop.signal.aborted) return;
        if (error instanceof Refused)
          setAsked((before) => ({ ...before, error: error.error, cutOff: false, asking: false }));
        else if (error instanceof CutOff)
          setAsked((before) => ({ ...before, error: null, cutOff: true, asking: false }));
        else throw error;
      }
    };
    const timer = setTimeout(() => void ask(), asked.answer === null ? 0 : pauseMs);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [path, since]);
  return asked;
}

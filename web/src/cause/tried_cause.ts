// Asks the server what the marks of a strip-down say of the cause while they are being set.
import { signal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { CauseTold } from '../api/cause_types';
import { CutOff, jobPath, post, Refused } from '../api/client';
import type { ServerError } from '../api/types';

/** What is being marked; null when nobody marks anything. */
export const causeTyped = signal<{ check: string; told: CauseTold | null; error: ServerError | null } | null>(
  null,
);

const pauseMs = 250;

/** `sheet`: as JSON text; null while nothing is marked. The last answer stays until the next is there. */
export function useTriedCause(job: string, check: string, sheet: string | null): void {
  useEffect(
    () => () => {
      causeTyped.value = null;
    },
    [check],
  );
  useEffect(() => {
    if (sheet === null) {
      causeTyped.value = null;
      return;
    }
    const stop = new AbortController();
    const timer = setTimeout(async () => {
      try {
        const answer = await post<{ cause: CauseTold }>(
          `${jobPath(job)}/cause`,
          { sheet: JSON.parse(sheet) },
          { signal: stop.signal },
        );
        causeTyped.value = { check, told: answer.cause, error: null };
      } catch (error) {
        if (stop.signal.aborted) return;
        if (error instanceof Refused) causeTyped.value = { check, told: null, error: error.error };
        else if (error instanceof CutOff) causeTyped.value = null;
        else throw error;
      }
    }, pauseMs);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [job, check, sheet]);
}

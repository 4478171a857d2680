// The events a person at the bench makes, written as the record wants them.
import type { ReadingPayload } from '../api/types';
import { type Outcome, record } from '../outbox/outbox';
import { newKey } from '../outbox/uuid';
import { me } from '../session/session';

/** UTC to the second, as the record writes times. */
export const now = (): string => `${new Date().toISOString().slice(0, 19)}Z`;

const actor = (): string => me.value?.id ?? '';

export type ReadingBody = Omit<ReadingPayload, 'event' | 'id' | 'check' | 'time' | 'actor'>;

export function readingPayload(check: string, body: ReadingBody): ReadingPayload {
  return {
    event: 'reading',
    id: `r-${newKey().replace(/-/g, '').slice(0, 16)}`,
    check,
    time: now(),
    actor: actor(),
    ...body,
  };
}

const stream = (number: string) => `job/${number}`;

export const takeReading = (number: string, check: string, body: ReadingBody): Promise<Outcome> =>
  record({ stream: stream(number), type: 'reading', payload: readingPayload(check, body) });

export const finishStep = (number: string, step: string): Promise<Outcome> =>
  record({
    stream: stream(number),
    type: 'step-done',
    payload: { event: 'step-done', step, time: now(), actor: actor() },
  });

export const releaseHold = (number: string, step: string): Promise<Outcome> =>
  record({
    stream: stream(number),
    type: 'hold-released',
    payload: { event: 'hold-released', step, time: now(), actor: actor() },
  });

export const acceptDeviation = (number: string, check: string, reason: string): Promise<Outcome> =>
  record({
    stream: stream(number),
    type: 'deviation-accepted',
    payload: { event: 'deviation-accepted', check, reason, time: now(), actor: actor() },
  });

export const addNote = (number: string, step: string, text: string): Promise<Outcome> =>
  record({ stream: stream(number), type: 'note', payload: { step, text } });

/** A file the server has already. */
export const addKeptFile = (
  number: string,
  file: { hash: string; media_type: string; name: string; step: string; check: string },
): Promise<Outcome> => record({ stream: stream(number), type: 'attachment-added', payload: file });

export const placeOn = (number: string, bench: string): Promise<Outcome> =>
  record({ stream: stream(number), type: 'placed', payload: { bench } });

export const waitFor = (number: string, what: string | null): Promise<Outcome> =>
  record({ stream: stream(number), type: 'waiting', payload: { for: what } });

export const reopen = (number: string, reason: string): Promise<Outcome> =>
  record({ stream: stream(number), type: 'reopened', payload: { reason } });

export const addPhoto = (
  number: string,
  photo: { step: string; check: string | null; name: string; file: Blob },
): Promise<Outcome> =>
  record({
    stream: stream(number),
    type: 'attachment-added',
    payload: {
      hash: '',
      media_type: photo.file.type,
      name: photo.name,
      step: photo.step,
      ...(photo.check ? { check: photo.check } : {}),
    },
    file: photo.file,
  });

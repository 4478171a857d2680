// A sweep as far as it has been read, kept on the tablet after every point: a reload in the middle loses nothing.
import type { SweepPayload, SweepSetup } from '../api/types';
import { emptyStrip, gapRanges, type Strip } from '../calc/strip';
import { isBlank } from '../calc/typed_number';
import { read, remove, write } from '../outbox/database';
import { recall, remember } from '../session/remembered';

export interface SweepDraft {
  instrument: string;
  setup: SweepSetup;
  strip: Strip;
  /** How it sits has been looked at and said to be right. */
  started: boolean;
}

/** What a draft is for: a new sweep of a check, or the correction of one reading. */
export interface DraftFor {
  job: string;
  check: string;
  replaces: string | null;
}

const keyOf = (d: DraftFor) => [d.job, d.check, d.replaces ?? ''].map(encodeURIComponent).join('/');

export const loadDraft = (what: DraftFor): Promise<SweepDraft | undefined> =>
  read<SweepDraft>('drafts', keyOf(what));

export const keepDraft = (what: DraftFor, draft: SweepDraft): Promise<void> =>
  write('drafts', keyOf(what), draft);

export const dropDraft = (what: DraftFor): Promise<void> => remove('drafts', keyOf(what));

export interface SetupFor {
  instrument: string;
  turning: string;
  face: boolean;
}

const memoryOf = (s: SetupFor) => `sweep/${s.instrument}/${s.turning}/${s.face ? 'face' : 'radial'}`;

/** How it sat in the last such sweep with this instrument; zero return and remedy are asked every time. */
export function lastSetup(wanted: SetupFor): { setup: SweepSetup; places: number } | null {
  try {
    return JSON.parse(recall(memoryOf(wanted)) ?? 'null') as { setup: SweepSetup; places: number } | null;
  } catch {
    return null;
  }
}

export function rememberSetup(wanted: SetupFor, setup: SweepSetup, places: number): void {
  const { zero_return: _asked, gaps: _ofThisPart, remedy: _ofThisSweep, ...kept } = setup;
  remember(memoryOf(wanted), JSON.stringify({ setup: kept, places }));
}

/** What is offered first: the last one, else what such a place usually asks for. */
export function firstDraft(wanted: SetupFor): SweepDraft {
  const last = lastSetup(wanted);
  const usual: SweepSetup = {
    mount: wanted.turning === 'rotating' ? 'shaft' : 'housing',
    base: wanted.turning === 'rotating' ? 'motor-face' : 'shaft',
    plunger_in: 'plus',
    ...(wanted.face ? {} : { surface: 'outside' as const }),
  };
  return {
    instrument: wanted.instrument,
    setup: last?.setup ?? usual,
    strip: emptyStrip(last?.places ?? 12),
    started: false,
  };
}

/** The sweep as the record takes it. Texts that were left empty are left out. */
export function sweepPayload(draft: SweepDraft): SweepPayload {
  const { zero_return, bar_sag, radius, ...rest } = draft.setup;
  const gaps = gapRanges(draft.strip);
  return {
    ...rest,
    ...(zero_return !== undefined && !isBlank(zero_return) ? { zero_return } : {}),
    ...(bar_sag !== undefined && !isBlank(bar_sag) ? { bar_sag } : {}),
    ...(radius !== undefined && !isBlank(radius) ? { radius } : {}),
    ...(gaps.length > 0 ? { gaps } : {}),
    points: draft.strip.points.map((p) => ({ angle_deg: p.angle, reading: p.reading })),
  };
}

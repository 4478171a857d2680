// What the shop remembers of a pump.
import type { Amount, Text } from './types';

export interface PastBuild {
  number: string;
  opened: string;
  released: boolean;
  reason: string | null;
  complaint: string | null;
  hours_run: string | null;
  cause: { headline: Text; change: Text[] } | null;
  /** From records older than this program. */
  old: { found: string | null; changed: string | null; file: string; line: number } | null;
  deviations: { check: Text; reason: string; actor: string }[];
}

/** One check of the present plan that was read in an earlier build; oldest first, the job itself last. */
export interface PastReading {
  step: string;
  check: string;
  title: Text;
  values: { number: string; value: Amount }[];
  moves: 'grows' | 'shrinks' | null;
}

export interface PumpPast {
  builds: PastBuild[];
  readings: PastReading[];
}

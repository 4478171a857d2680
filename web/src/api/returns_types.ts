// What comes back, as the server worked it out over the shop's own builds.
import type { Text, Verdict } from './types';

/** Days out, part still out, ends of its band. */
export type CurvePoint = [number, number, number | null, number | null];

export interface ReturnsCurve {
  name: string;
  points: CurvePoint[];
  last_days: number;
}

export interface Counted {
  value: string;
  builds: number;
}

export interface ReturnsChoices {
  pump: Counted[];
  customer: Counted[];
  seal: Counted[];
  reading: { check: string; title: Text }[];
}

export interface ReturnsFigure {
  title: Text;
  value: Text;
  range: Text;
}

export interface ReturnsGroup {
  name: string;
  builds: number;
  returned: number;
  expected: string;
  every: Text;
}

export interface ReturnsReading {
  check: string;
  goes_with: Text;
  proven: boolean;
  times: { inch: string; metric: string };
  at_all_ages: Text;
}

export interface ReturnsFound {
  builds: number;
  choices: ReturnsChoices;
  returned: number;
  running: number;
  replaced: number;
  reason_not_said: number;
  sure: Text;
  rate: Text;
  shares: Text | null;
  curves: ReturnsCurve[];
  still_out: { after: Text; part: string; low: string | null; high: string | null; lasted: number }[];
  shape: Text | null;
  shape_figures: ReturnsFigure[];
  drawn_on: Text | null;
  groups: { list: ReturnsGroup[]; differ: Text; curves: Text | null } | null;
  change: { verdict: Verdict; said: Text; ratio: Text; settling: Text | null; besides: Text } | null;
  readings: {
    builds: number;
    left_out: number;
    list: ReturnsReading[];
    together: Text;
    few: Text | null;
    not_a_cause: Text;
  } | null;
  trend: Text | null;
  not_computed: { what: Text; why: Text }[];
}

/** Nothing else is worked out when no build is left. */
export type ReturnsAnswer = ReturnsFound | { builds: 0; choices: ReturnsChoices };

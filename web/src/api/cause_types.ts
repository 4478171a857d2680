// Why a pump came back: what is looked for when it is stripped, and what that says of the cause.
import type { Text } from './types';

export interface SoughtFinding {
  /** Its word in a record: "heat-checks". */
  finding: string;
  title: Text;
  look: Text;
}

export interface StripPart {
  part: string;
  title: Text;
  findings: SoughtFinding[];
}

export interface CauseEvidence {
  finding: string;
  title: Text;
  seen: Text;
  there: boolean;
  /** In powers of ten of the cause's odds; under 0 against it. */
  weight: number;
  source: string | null;
}

export interface RankedCause {
  cause: string;
  title: Text;
  chance: Text;
  probability: number;
  named: boolean;
  change: Text;
  evidence: CauseEvidence[];
}

export interface CauseTold {
  /** False: the evidence does not tell. */
  told: boolean;
  headline: Text;
  track: Text | null;
  causes: RankedCause[];
  next: (SoughtFinding & { part: Text })[];
  unknown: string[];
}

export interface CauseAnswer {
  parts: StripPart[];
  cause: CauseTold | null;
}

// The seal in its service: one sheet, the faces, the map.
import type { Amount, Finding, Text, Verdict } from './types';

/** A verdict over several checks. */
export type SealVerdict = Exclude<Verdict, 'not-taken'>;

export interface SealConditions {
  temperature: Amount | null;
  suction: Amount | null;
  head: Amount | null;
  speed: Amount | null;
  altitude: Amount | null;
  length: Amount | null;
  length_measured: boolean;
}

export interface SealNumbers {
  chamber: Amount | null;
  chamber_low: Amount | null;
  chamber_high: Amount | null;
  vapour: Amount | null;
  boiling: Amount | null;
  judged_at: Amount | null;
  judged_at_face: boolean;
  balance_ratio: number | null;
  face_pressure: Amount | null;
  spring_force: Amount | null;
  friction_torque: Amount | null;
  heat: Amount | null;
  film: Amount | null;
  leakage: Amount | null;
  contact_share: number | null;
  /** Net face pressure times sliding speed. */
  pv: Amount | null;
  circulation: Amount | null;
  growth_low: Amount | null;
  growth_high: Amount | null;
  bellows_stroke: Amount | null;
  track_width: Amount | null;
}

export interface FaceCurve {
  name: 'film' | 'pressure' | 'temperature';
  /** SI, one for each radius. */
  values: number[];
  lowest: Amount;
  highest: Amount;
}

/** Along the face, from inside to outside. */
export interface SealFace {
  radius_m: number[];
  inside: Amount;
  outside: Amount;
  pressed_outside: boolean;
  boils: boolean[];
  curves: FaceCurve[];
}

export interface SealSheet {
  /** Other conditions than the job's own. */
  tried: boolean;
  in_service: SealVerdict;
  as_set: SealVerdict;
  decides: string[];
  checks: { check: string; finding: Finding }[];
  suction_that_does: Amount | null;
  conditions: SealConditions;
  numbers: SealNumbers;
  face: SealFace | null;
  assumed: Text[];
  missing: Text[];
}

export interface SealMapRange {
  lowest: Amount;
  here: Amount;
  highest: Amount;
}

export interface SealMap {
  /** One column for each temperature, one letter for each suction pressure, coldest and lowest first. */
  map: { temperature: SealMapRange; suction: SealMapRange; columns: string[] } | null;
  missing: Text[];
}

// What the server says and takes, as types: the page's only knowledge of the wire. Amounts arrive formatted; the
// page shows them and never computes them again.
import type { OldColumns } from './old_types';
import type { SheetFieldView, SheetPicture } from './sheet_types';

export interface Text {
  en: string;
  es: string;
}

export interface Amount {
  si: number;
  kind: string;
  inch: string;
  metric: string;
}

export type Verdict = 'pass' | 'fail' | 'unproven' | 'not-taken';
export type Turning = 'rotating' | 'standing';
export type Role = 'technician' | 'lead-hand' | 'office' | 'read-only';
export type CheckKind =
  | 'confirmation'
  | 'value'
  | 'size'
  | 'sweep'
  | 'chain'
  | 'elapsed'
  | 'preload'
  | 'pairing'
  | 'service'
  | 'sheet';

export interface Person {
  id: string;
  initials: string;
  name: string;
  role: Role;
}

export interface Session {
  person: Person | null;
  token: string;
  device: { id: string; name: string } | null;
  shop: { name: string; invented: boolean };
  first_start: boolean;
  secure: boolean;
  version: string;
  /** On an enrolled device: who may sign in here with a PIN. */
  people?: Pick<Person, 'id' | 'initials' | 'name'>[];
}

export interface Counts {
  pass: number;
  fail: number;
  unproven: number;
  not_taken: number;
}

export interface JobFound {
  number: string;
  /** From records older than this program: there is no job to open. */
  old: boolean;
  customer: string;
  pump: string;
  serial: string;
  bench: string | null;
  waiting: string | null;
  state: 'open' | 'released';
  opened: string;
  last_at: string;
  last_actor: string;
  head: string;
  seq: number;
}

export interface JobCard extends JobFound {
  counts: Counts;
  next_step: { id: string; title: Text } | null;
  failing: { check: string; step: string; title: Text }[];
}

export interface LimitView {
  id: string;
  decides: boolean;
  lower: Amount | null;
  upper: Amount | null;
  text: { inch: Text; metric: Text };
  as_written: string;
  rank: Text;
  obtained: Text;
  source: Text | string;
  rule: Text;
}

export interface SweepView {
  /** `index` counts in the readings as given; readings in a gap are left out. */
  points: { angle_deg: number; value_m: number; index?: number }[];
  mean_m: number;
  a1_m: number;
  b1_m: number;
  eccentricity: Amount;
  eccentricity_u: Amount | null;
  high_spot_deg: number | null;
  tir: Amount;
  tir_fitted: Amount;
  missed_tir: Amount;
  ront: Amount;
  suspects: { index: number; angle_deg: number }[];
  second_turn: boolean;
}

export interface JudgedReading {
  reading: string | null;
  as_written: string;
  verdict: Verdict;
  reason: string;
  reason_title: Text;
  value: Amount | null;
  /** Half the width within which the value lies with about 95 %. */
  u: Amount | null;
  margin: Amount | null;
  probability: number | null;
  settle: Text | null;
  remarks: Text[];
  sweep: SweepView | null;
  /** What a bench test's sheet came to. */
  lines: { name: Text; value: Text }[];
  picture: SheetPicture | null;
}

export interface ChainShare {
  name: Text;
  value: Amount;
  u: Amount;
  fraction: number;
}

export interface Finding {
  verdict: Verdict;
  verdict_title: Text;
  reason: string;
  reason_title: Text;
  deviation: { reason: string; actor: string; time: string } | null;
  readings: JudgedReading[];
  chain: ChainShare[];
}

export interface CheckView {
  id: string;
  step: string;
  kind: CheckKind;
  judged: string;
  from: string;
  quantity: string;
  place: string;
  turning: Turning;
  instrument: string;
  title: Text;
  if_it_fails: Text | null;
  takes_reading: boolean;
  /** Whose bench test's sheet it is a figure of, and what is asked for it. */
  sheet: string | null;
  form: SheetFieldView[];
  face: boolean;
  radius: Amount | null;
  limits: LimitView[];
  missed_tir_note?: Text;
  finding: Finding;
}

export interface Attachment {
  hash: string;
  media_type: string;
  name: string;
  actor: string;
  time: string;
  check: string | null;
}

export interface StepView {
  id: string;
  stage: string;
  title: Text;
  what: Text;
  caution: Text | null;
  source: Text;
  hold: boolean;
  own_text: boolean;
  done: { actor: string; time: string } | null;
  released: { actor: string; time: string } | null;
  state: 'open' | 'done' | 'waits';
  checks: string[];
  notes: { actor: string; time: string; text: string }[];
  attachments: Attachment[];
}

/** What was moved since the last sweep. */
export interface SweepRemedy {
  impeller_keyway?: number;
  sleeve_turned_deg?: number;
  moved?: string;
  toward_deg?: number;
  holes?: number;
}

export interface SweepSetup {
  mount?: 'shaft' | 'housing';
  base?: 'motor-face' | 'rigid-frame' | 'shaft' | 'bench' | 'resilient-foot' | 'non-magnetic';
  plunger_in?: 'plus' | 'minus';
  surface?: 'outside' | 'inside';
  turned?: {
    moved: 'shaft' | 'indicator';
    in_rotation: boolean;
    marks_rise_with_rotation?: boolean;
    first_place_deg?: number;
  };
  stylus_deg?: number;
  radius?: string;
  held_toward?: 'driver' | 'impeller';
  zero_return?: string;
  bar_sag?: string;
  remedy?: SweepRemedy;
  gaps?: { from_deg: number; to_deg: number }[];
}

export interface SweepPayload extends SweepSetup {
  points: { angle_deg: number; reading: string; opposite?: string }[];
}

export interface SizePayload {
  points: { section?: string; clock_deg?: number; diameter: string }[];
  part_temperature?: string;
  material?: string;
}

export interface ReadingPayload {
  event: 'reading';
  id: string;
  check: string;
  time: string;
  actor: string;
  instrument?: string;
  replaces?: string;
  done?: boolean;
  note?: string;
  value?: string;
  values?: string[];
  size?: SizePayload;
  sweep?: SweepPayload;
  sheet?: Record<string, unknown>;
}

export interface ReadingView {
  seq: number;
  id: string;
  check: string;
  time: string;
  actor: string;
  instrument: string | null;
  replaces: string | null;
  replaced_by: string | null;
  payload: ReadingPayload;
}

export interface InstrumentView {
  id: string;
  kind: string;
  quantity: string;
  unit: string;
  graduation: string;
  due: string;
  in_date: boolean;
  /** False once the shop retired it; such a one is known to the job and not offered for new readings. */
  in_use?: boolean;
}

export interface SectionShape {
  part: string;
  turning: Turning;
  assumed: boolean;
  points: [number, number][];
}

/** x0, x1, r0, r1 in metres. */
export type Window4 = [number, number, number, number];

export interface SectionView {
  whole: Window4;
  seal: Window4;
  shapes: SectionShape[];
  places: { place: string; x_m: number; r_m: number; title: Text }[];
}

export interface OpenPoint {
  step: string;
  check: string | null;
  what: Text;
}

export interface Signature {
  seq: number;
  person: string;
  initials: string;
  at: string;
  statement: string;
  head: string;
}

export interface LogLine {
  seq: number;
  at: string;
  actor: string;
  device?: string;
  type: string;
  text: Text;
}

/** What a data logger handed in for a bench test; no reading until somebody sends it as one. */
export interface LoggedRow {
  seq: number;
  check: string;
  row: Record<string, string | number>;
}

export interface JobView {
  number: string;
  header: {
    number: string;
    customer: string;
    pump: string;
    serial: string;
    reason: string;
    opened: string;
    invented: boolean;
  };
  state: 'open' | 'released';
  bench: string | null;
  waiting: string | null;
  seq: number;
  head: string;
  make_up: MakeUp;
  stages: { word: string; title: Text }[];
  steps: StepView[];
  checks: CheckView[];
  readings: ReadingView[];
  logged_rows: LoggedRow[];
  instruments: InstrumentView[];
  section: SectionView;
  open: OpenPoint[];
  counts: Counts;
  next_step: { id: string; title: Text } | string | null;
  signatures: Signature[];
  log: LogLine[];
}

export type DimensionEntry =
  | string
  | { nominal: string; lower?: string; upper?: string }
  | { lower: string; upper: string };

/** What the seal's own sheet says, as written. */
export interface SealSheetEntry {
  outer_diameter?: string;
  inner_diameter?: string;
  balance_diameter?: string;
  liquid?: string;
  spring_force?: string;
  spring_rate?: string;
  force_lower?: string;
  force_upper?: string;
  ring_length?: string;
  seat_length?: string;
  pv_limit?: string;
  seat_face_outer?: string;
  seat_face_inner?: string;
  head?: string;
  ring_mass?: string;
}

export interface MakeUp {
  driver: {
    standard: 'nema' | 'iec';
    frame: string;
    flange?: string;
    stands?: 'horizontal' | 'shaft-up';
    rotation?: string;
  };
  sleeve: 'fitted' | 'none';
  seal: {
    kind: string;
    elastomer: string;
    lubricant: string;
    ring?: string;
    seat?: string;
    coil?: string;
    sheet?: SealSheetEntry;
  };
  impeller: {
    keyways: number;
    fastener?: {
      thread: string;
      grade: string;
      condition: string;
      torque?: { lower: string; upper: string };
      hand?: string;
    };
    back?: string;
  };
  service: {
    fluid: string;
    temperature?: string;
    suction_pressure?: string;
    head_pressure?: string;
    altitude?: string;
    glycol?: string;
    concentration?: string;
  };
  speed: string;
  dimensions?: Record<string, DimensionEntry>;
  sheets?: Record<string, Record<string, unknown>>;
}

export interface Titled {
  word: string;
  title: Text;
}

export interface MakeUpForm {
  driver: {
    standards: Titled[];
    frames: { nema: string[]; iec: string[] };
    flanges: string[];
    rotations: Titled[];
  };
  seal: { kinds: Titled[]; elastomers: string[]; lubricants: Titled[]; faces: Titled[] };
  service: { fluids: Titled[]; glycols: Titled[] };
  impeller: { backs: Titled[] };
  hands: Titled[];
  fastener: { threads: string[]; grades: string[]; conditions: string[] };
  dimensions: { name: string; title: Text; asked_when: string[] }[];
  sheets: { sheet: string; title: Text; fields: SheetFieldView[] }[];
}

export interface PlanPreview {
  steps: StepView[];
  checks: CheckView[];
  section: SectionView;
  needed: string[];
  error?: ServerError;
}

export interface EarlierJob {
  number: string;
  make_up: MakeUp;
  opened: string;
}

export interface ShopInstrument extends InstrumentView {
  measures?: string;
  mpe?: string;
  repeatability?: string;
  calibrated: string;
}

export interface ShopView {
  name: string;
  people: (Person & { active: boolean })[];
  instruments: ShopInstrument[];
  limits: {
    id: string;
    check: string;
    lower?: string;
    upper?: string;
    rank: 'family' | 'customer';
    for: string;
    source: string;
  }[];
  adopted: { limit: string; by: string; time: string }[];
  adoptable: { limit: string; title: Text; text: Text; source: Text | string }[];
  sheets: { pump: string; make_up: Partial<MakeUp> }[];
  step_texts: { step: string; what_to_do: Text }[];
  old_columns: { name: string; columns: OldColumns }[];
  devices: { id: string; name: string }[];
  log: LogLine[];
}

export interface ServerError {
  code: string;
  text: Text;
  field: string;
  value: string;
  valid: string;
}

export interface EventOut {
  key: string;
  device_seq: number;
  type: string;
  payload: string;
}

export interface Receipt {
  accepted: { key: string; seq: number; hash: string }[];
  refused: { key: string; error: ServerError }[];
  head: string;
  seq: number;
}

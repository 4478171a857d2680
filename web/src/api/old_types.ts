// Records older than this program, as they are read from a CSV file.

export interface OldReading {
  check: string;
  column: string;
  unit: string;
}

export interface OldColumns {
  serial: string;
  came_in: string;
  number?: string;
  pump?: string;
  customer?: string;
  seal?: string;
  went_out?: string;
  reason?: string;
  came_for?: string;
  found?: string;
  changed?: string;
  fault_words?: string[];
  other_words?: string[];
  dates: 'year-month-day' | 'day-month-year' | 'month-day-year';
  readings?: OldReading[];
}

/** A row as it was understood. */
export interface OldJob {
  line: number;
  number: string;
  serial: string;
  pump?: string;
  customer?: string;
  seal?: string;
  came_in: string;
  went_out?: string;
  came_for?: 'fault' | 'other';
  reason?: string;
  found?: string;
  changed?: string;
  readings?: Record<string, string>;
}

export interface OldTable {
  fit: number;
  wrong_count: number;
  wrong: { place: string; field: string; value: string; valid: string }[];
  first: OldJob[];
  left_alone: string[];
  words_unknown: Record<string, number>;
}

export interface OldLook {
  header: string[];
  table: OldTable | null;
}

export interface OldTaken {
  taken: number;
  known: number;
  wrong_count: number;
}

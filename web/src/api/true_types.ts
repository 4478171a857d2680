// Which part is out, which way, and what to do about it.
import type { Amount, SweepRemedy, Text } from './types';

/** One sweep of a chain and what each part adds to it. */
export interface TrueStation {
  check: string;
  title: Text;
  tir: Amount;
  high_spot: Text | null;
  limit: Amount | null;
  beyond: boolean;
  shares: { part: Text; tir: Amount }[];
}

export interface TrueRemedy {
  doing: Text;
  recommended: boolean;
  /** As a sweep names what was done before it. */
  done: SweepRemedy;
  /** Brings every sweep to its limit. */
  reaches: boolean;
  predicted: { title: Text; tir: Amount; doubt: Amount; limit: Amount }[];
}

export interface TruePicture {
  parts: {
    part: string;
    name: Text;
    from_m: number;
    to_m: number;
    radius_m: number;
    /** Of its centre off the turning axis, true size. */
    off_from_m: number;
    off_to_m: number;
  }[];
  up: Text;
  magnification: number;
}

export interface TrueChain {
  verdict: 'pass' | 'fail';
  found: Text;
  advice: Text[];
  look_alikes: Text | null;
  next: Text | null;
  stations: TrueStation[];
  /** Least work first; empty while every sweep keeps to its limit. */
  remedies: TrueRemedy[];
  /** How the last remedy came out. */
  after: { title: Text; said: Text; surprise: boolean }[];
  picture: TruePicture | null;
}

/** Which part is out: what turns and what stands, apart. */
export interface TrueRunning {
  rotating: TrueChain | null;
  standing: TrueChain | null;
  left_out: { what: Text; why: Text }[];
  assumed: Text[];
}

// The next number of this device's count, for requests that are not events of the outbox (a signature, a new job).
import { writeCounted } from './database';

export async function nextDeviceSeq(device: string): Promise<number> {
  return writeCounted<number>(`device/${device}`, 'counters', (count) => ({
    key: `last/${device}`,
    value: count,
  }));
}

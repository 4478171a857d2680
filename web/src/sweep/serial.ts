// A serial indicator through Web Serial, where the browser has it and the page is in a secure context.
import { type Lines, takeChunk } from '../calc/serial_line';

interface Port {
  open(options: { baudRate: number }): Promise<void>;
  close(): Promise<void>;
  readable: ReadableStream<Uint8Array> | null;
}

interface WithSerial {
  serial?: { requestPort(): Promise<Port> };
}

export type SerialState = 'offered' | 'insecure' | 'absent';

export function serialState(): SerialState {
  if (!window.isSecureContext) return 'insecure';
  return (navigator as WithSerial).serial ? 'offered' : 'absent';
}

export const baudRates = ['2400', '4800', '9600', '19200', '38400', '115200'] as const;

/** Asks the person for the port and listens until the returned function is called. Null when they declined. */
export async function listenToSerial(
  baudRate: number,
  onReading: (text: string) => void,
  onEnd: () => void,
): Promise<(() => void) | null> {
  const port = await (navigator as WithSerial).serial?.requestPort().catch(() => null);
  if (!port) return null;
  await port.open({ baudRate });
  const reader = port.readable?.getReader();
  if (!reader) return null;
  let stopped = false;
  void (async () => {
    const decoder = new TextDecoder();
    let lines: Lines = { rest: '' };
    try {
      for (let part = await reader.read(); !part.done; part = await reader.read()) {
        const taken = takeChunk(lines, decoder.decode(part.value, { stream: true }));
        lines = taken.lines;
        for (const reading of taken.readings) onReading(reading);
      }
    } catch {
      // Unplugged; the person is told that it ended.
    } finally {
      reader.releaseLock();
      await port.close().catch(() => {});
      if (!stopped) onEnd();
    }
  })();
  return () => {
    stopped = true;
    void reader.cancel().catch(() => {});
  };
}

// Connects a serial indicator, or says why that is off here.
import { useEffect, useRef, useState } from 'preact/hooks';
import { recall, remember } from '../session/remembered';
import { t } from '../text/text';
import { WorkButton } from '../widgets/busy';
import { Select } from '../widgets/form';
import { baudRates, listenToSerial, serialState } from './serial';

export function SerialButton({ onReading }: { onReading: (text: string) => void }) {
  const [rate, setRate] = useState(recall('baud') ?? '9600');
  const [listening, setListening] = useState(false);
  const stop = useRef<(() => void) | null>(null);
  const latest = useRef(onReading);
  latest.current = onReading;
  useEffect(() => () => stop.current?.(), []);
  const state = serialState();
  if (state !== 'offered')
    return <p class="hint">{state === 'insecure' ? t('serialInsecure') : t('serialAbsent')}</p>;
  const connect = async () => {
    remember('baud', rate);
    stop.current = await listenToSerial(
      Number(rate),
      (text) => latest.current(text),
      () => setListening(false),
    );
    setListening(stop.current !== null);
  };
  const disconnect = () => {
    stop.current?.();
    stop.current = null;
    setListening(false);
  };
  return (
    <details>
      <summary>{listening ? t('serialOn') : t('serialTitle')}</summary>
      <Select
        label={t('baudRate')}
        value={rate}
        options={baudRates.map((r) => ({ value: r, label: r }))}
        onValue={setRate}
      />
      <WorkButton onPress={listening ? disconnect : connect}>
        {listening ? t('serialStop') : t('serialConnect')}
      </WorkButton>
    </details>
  );
}

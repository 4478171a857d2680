// Big keys for gloves. Sends characters; what they mean as a number the server says.
import { t } from '../text/text';

export interface PadProps {
  onKey: (key: string) => void;
  onSign: () => void;
  onErase: () => void;
  onEnter: () => void;
  onGap: () => void;
  gapMarked: boolean;
  mayGap: boolean;
}

export function NumberPad(props: PadProps) {
  const digit = (d: string) => (
    <button type="button" class="pad-key" key={d} onClick={() => props.onKey(d)}>
      {d}
    </button>
  );
  return (
    <div class="pad" role="group" aria-label={t('numberPad')}>
      {['7', '8', '9'].map(digit)}
      <button type="button" class="pad-key pad-word" onClick={props.onErase}>
        {t('eraseOrUndo')}
      </button>
      {['4', '5', '6'].map(digit)}
      <button
        type="button"
        class="pad-key pad-word"
        disabled={!props.mayGap}
        aria-pressed={props.gapMarked}
        onClick={props.onGap}
      >
        {t('gapHere')}
      </button>
      {['1', '2', '3'].map(digit)}
      <button type="button" class="pad-key pad-enter pad-tall pad-word" onClick={props.onEnter}>
        {t('enter')}
      </button>
      <button type="button" class="pad-key" aria-label={t('changeSign')} onClick={props.onSign}>
        ±
      </button>
      {digit('0')}
      {digit('.')}
    </div>
  );
}

// What a bench test's sheet came to: its figures, its picture, and what is to be known or done.
import type { JudgedReading } from '../api/types';
import { say } from '../session/preferences';
import { SheetPictureFigure } from './sheet_picture';

export function SheetFigures({ judged }: { judged: Pick<JudgedReading, 'lines' | 'picture'> }) {
  return (
    <>
      {judged.picture && <SheetPictureFigure picture={judged.picture} />}
      {judged.lines.length > 0 && (
        <dl class="figures">
          {judged.lines.map((line) => (
            <div key={line.name.en}>
              <dt>{say(line.name)}</dt>
              <dd>{say(line.value)}</dd>
            </div>
          ))}
        </dl>
      )}
    </>
  );
}

export function Remarks({ judged }: { judged: JudgedReading }) {
  if (judged.remarks.length === 0) return null;
  return (
    <ul class="remarks">
      {judged.remarks.map((r) => (
        <li key={r.en}>{say(r)}</li>
      ))}
    </ul>
  );
}

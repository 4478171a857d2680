// What was found, part by part: each finding is there, is not there, or was not looked at.
import { useRef, useState } from 'preact/hooks';
import type { CauseAnswer, SoughtFinding, StripPart } from '../api/cause_types';
import { jobPath } from '../api/client';
import type { JobView } from '../api/types';
import { useAsked } from '../api/use_asked';
import type { InputProps } from '../job/inputs';
import { say } from '../session/preferences';
import { SheetFields } from '../sheets/sheet_fields';
import { type SheetValues, sheetOf, valuesOf } from '../sheets/sheet_values';
import '../style/cause.css';
import { t } from '../text/text';
import { Busy, WorkButton } from '../widgets/busy';
import { errorText, Field, isAbout, Notice } from '../widgets/form';
import { CauseWords } from './cause_told';
import { FindingDrawing } from './finding_drawing';
import { countsIn, type Mark, type Marks, marked, marksOf, sheetOfMarks, withWhere } from './marks';
import { PartsOnSection, partAnchor } from './parts_on_section';
import { causeTyped, useTriedCause } from './tried_cause';

interface RowProps {
  sought: SoughtFinding;
  mark: Mark | undefined;
  onMark: (seen: Mark['seen']) => void;
  onWhere: (where: string) => void;
}

function Row({ sought, mark, onMark, onWhere }: RowProps) {
  const id = `finding-${sought.finding}`;
  const press = (seen: Mark['seen']) => (
    <button
      type="button"
      class={`button button-plain finding-press${mark?.seen === seen ? ' pressed' : ''}`}
      aria-pressed={mark?.seen === seen}
      aria-describedby={id}
      onClick={() => onMark(seen)}
    >
      {t(seen === 'there' ? 'stripThere' : 'stripNotThere')}
    </button>
  );
  return (
    <li class="finding">
      <FindingDrawing finding={sought.finding} />
      <div class="finding-words">
        <span id={id}>{say(sought.title)}</span>
        <span class="hint">{say(sought.look)}</span>
      </div>
      <div class="finding-presses">
        {press('there')}
        {press('not')}
      </div>
      {mark?.seen === 'there' && (
        <div class="finding-where">
          <Field label={`${t('stripWhere')} ${t('mayBeEmpty')}`} value={mark.where} onValue={onWhere} />
        </div>
      )}
    </li>
  );
}

function Part({ part, marks, onMarks }: { part: StripPart; marks: Marks; onMarks: (marks: Marks) => void }) {
  const counts = countsIn(part, marks);
  return (
    <details class="strip-part" id={partAnchor(part.part)}>
      <summary>
        <strong>{say(part.title)}</strong>
        {counts.there + counts.not > 0 && <span class="quiet"> {t('stripCounts', counts)}</span>}
      </summary>
      <ul class="plain-list">
        {part.findings.map((sought) => (
          <Row
            key={sought.finding}
            sought={sought}
            mark={marks[sought.finding]}
            onMark={(seen) => onMarks(marked(marks, sought.finding, seen))}
            onWhere={(where) => onMarks(withWhere(marks, sought.finding, where))}
          />
        ))}
      </ul>
    </details>
  );
}

export default function StripDownInput({
  view,
  check,
  replaces,
  error,
  onSend,
}: InputProps & { view: JobView }) {
  const asked = useAsked<CauseAnswer>(`${jobPath(view.number)}/cause`, 0);
  const before = useRef(replaces?.payload.sheet ?? {});
  const [marks, setMarks] = useState<Marks>(marksOf(before.current));
  const [values, setValues] = useState<SheetValues>(valuesOf(check.form, before.current));
  const [empty, setEmpty] = useState(false);
  const titles = new Map(
    asked.answer?.parts.flatMap((p) => p.findings).map((f) => [f.finding, say(f.title)]) ?? [],
  );
  const sheet = { ...sheetOf(check.form, values, ''), ...sheetOfMarks(marks, (f) => titles.get(f) ?? '') };
  const anything = Object.keys(sheet).length > 0;
  useTriedCause(view.number, check.id, anything ? JSON.stringify(sheet) : null);
  const typed = causeTyped.value?.check === check.id ? causeTyped.value : null;
  const send = async () => {
    setEmpty(!anything);
    if (anything) await onSend({ sheet });
  };
  if (!asked.answer) return asked.cutOff ? <Notice kind="plain">{t('noAnswer')}</Notice> : <Busy />;
  const shownAtField = error !== null && Object.keys(values).some((at) => isAbout(error, at.slice(1)));
  return (
    <form
      class="stack"
      onSubmit={(e) => {
        e.preventDefault();
        void send();
      }}
    >
      <p>{t('stripOnSectionHint')}</p>
      <PartsOnSection section={view.section} parts={asked.answer.parts} marks={marks} />
      {asked.answer.parts.map((part) => (
        <Part key={part.part} part={part} marks={marks} onMarks={setMarks} />
      ))}
      <details class="strip-part">
        <summary>
          <strong>{t('stripMeasured')}</strong>
        </summary>
        <SheetFields fields={check.form} values={values} empty={[]} error={error} onValues={setValues} />
      </details>
      {typed?.error && <p class="quiet">{errorText(typed.error)}</p>}
      <div class="live-inline" aria-live="polite">
        {typed?.told && <CauseWords told={typed.told} />}
      </div>
      {error && !shownAtField && <Notice kind="error">{errorText(error)}</Notice>}
      {empty && <Notice kind="error">{t('stripNothing')}</Notice>}
      <div class="row row-wide">
        <WorkButton kind="main" submit onPress={send}>
          {t('takeReading')}
        </WorkButton>
      </div>
    </form>
  );
}

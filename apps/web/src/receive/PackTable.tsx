import type { ReactNode } from "react";
import type { LabelDate, PackFieldName, PackLine, PackReading, PackStanding } from "#labels";
import type { Verdict } from "#domain";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { VerdictShape } from "../ui/Verdict.tsx";

const verdicts: Readonly<Record<PackStanding, Verdict>> = {
  agreed: "clear",
  single: "clear",
  levels: "clear",
  items: "caution",
  conflict: "stop",
};

/** Field by field what each label of a pack says; how that fits is told by a shape and a word. */
export function PackTable({ reading }: { reading: PackReading }): ReactNode {
  const { pack: t } = useTexts();
  const show = useShownValue();
  return (
    <div className="table-frame">
      <table className="table pack-table">
        <caption className="unseen">{t.table}</caption>
        <thead>
          <tr>
            <th scope="col">{t.field}</th>
            {reading.labels.map((_, index) => (
              <th key={index} scope="col">
                {t.label(index + 1)}
              </th>
            ))}
            <th scope="col">{t.standing}</th>
          </tr>
        </thead>
        <tbody>
          {reading.lines.map((line) => (
            <tr key={line.field} className={line.standing}>
              <th scope="row">{t.fields[line.field]}</th>
              {line.values.map((value, index) => (
                <td key={index} data-label={t.label(index + 1)}>
                  {value === null ? <span className="soft">{t.notSaid}</span> : null}
                  {value === null ? null : show(reading, line, index)}
                </td>
              ))}
              <td data-label={t.standing}>
                <span className={`pack-standing ${verdicts[line.standing]}`}>
                  <VerdictShape verdict={verdicts[line.standing]} />
                  {t.standings[line.standing]}
                </span>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

const isDate = (field: PackFieldName): field is "expiry" | "production" =>
  field === "expiry" || field === "production";

function useShownValue() {
  const showDate = useShownDate();
  return ({ labels }: PackReading, { field, values }: PackLine, index: number): ReactNode => {
    const label = labels[index];
    const date = label?.ok === true && isDate(field) ? label.fields[field] : undefined;
    if (date !== undefined) return showDate(date);
    return <span className="code">{values[index]}</span>;
  };
}

/** A date of a label in words; where it gave no day, that is said. */
export function useShownDate(): (date: LabelDate) => string {
  const { story } = useTexts().shelf;
  const { shortDate } = useFormats();
  return ({ date, precision, time }) => {
    if (precision === "month") return story.monthOnly(shortDate(date));
    return time === undefined ? shortDate(date) : `${shortDate(date)}, ${time}`;
  };
}

import { useState, type ReactNode } from "react";
import type { AppointmentRow } from "#domain";
import type { AnswerOf } from "#contracts/operations";
import { useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { Select, TextArea, TextField } from "../ui/Field.tsx";
import { Page } from "../ui/Page.tsx";
import { ProblemNote } from "../ui/States.tsx";
import { ImportRows } from "./ImportRows.tsx";
import { decodeList } from "./read-list-file.ts";
import { WithVisitChoices, type VisitChoices } from "./VisitForm.tsx";
import "./trays.css";

type Read = AnswerOf<"readAppointments">;
export interface Usual {
  techniqueId: string;
  locationId: string;
  day: string;
}

/** Plans the visits of an appointment list: read, looked at line by line, planned. */
export default function ImportPage(): ReactNode {
  const { import: t } = useTexts();
  return (
    <Page title={t.title} lead={t.lead}>
      <WithVisitChoices>{(choices) => <Import choices={choices} />}</WithVisitChoices>
    </Page>
  );
}

function Import({ choices }: { choices: VisitChoices }): ReactNode {
  const { import: t } = useTexts();
  const { today } = useFormats();
  const [usual, setUsual] = useState<Usual>({
    techniqueId: choices.techniques[0]?.id ?? "",
    locationId: choices.rooms[0]?.id ?? "",
    day: today(),
  });
  // Which reading it is: another list is judged anew.
  const [found, setFound] = useState<{ list: Read; reading: number } | null>(null);
  const [rows, setRows] = useState<readonly AppointmentRow[]>([]);
  const read = useWrite("readAppointments", (answer) => {
    setFound((before) => ({ list: answer, reading: (before?.reading ?? 0) + 1 }));
    setRows(answer.rows);
  });
  return (
    <>
      <section className="panel">
        <UsualFields {...{ choices, usual }} onChange={setUsual} />
        <ListForm busy={read.isPending} onRead={(text) => read.mutate({ body: { text } })} />
        <ProblemNote error={read.error} />
      </section>
      {found === null ? null : (
        <section className="panel" aria-label={t.lines(rows.length)}>
          <h2>{rows.length === 0 ? t.none : t.lines(rows.length)}</h2>
          {found.list.skipped.length === 0 ? null : (
            <>
              <h3>{t.skippedTitle}</h3>
              <ul>
                {found.list.skipped.map(({ text, why }, index) => (
                  // Two events can say the same.
                  <li key={`${index} ${text}`}>{t.skipped(text, t.whys[why])}</li>
                ))}
              </ul>
            </>
          )}
          <ImportRows key={found.reading} {...{ rows, choices, usual }} onChange={setRows} />
        </section>
      )}
    </>
  );
}

interface UsualFieldsProps {
  choices: VisitChoices;
  usual: Usual;
  onChange: (usual: Usual) => void;
}

function UsualFields({ choices, usual, onChange }: UsualFieldsProps): ReactNode {
  const { import: t } = useTexts();
  return (
    <div className="usual">
      <TextField
        label={t.day}
        type="date"
        value={usual.day}
        required
        onChange={({ target }) => onChange({ ...usual, day: target.value })}
      />
      <Select
        label={t.technique}
        value={usual.techniqueId}
        onChange={({ target }) => onChange({ ...usual, techniqueId: target.value })}
      >
        {choices.techniques.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </Select>
      <Select
        label={t.room}
        value={usual.locationId}
        onChange={({ target }) => onChange({ ...usual, locationId: target.value })}
      >
        {choices.rooms.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </Select>
    </div>
  );
}

interface ListFormProps {
  busy: boolean;
  onRead: (text: string) => void;
}

function ListForm({ busy, onRead }: ListFormProps): ReactNode {
  const { import: t } = useTexts();
  const [text, setText] = useState("");
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        onRead(text);
      }}
    >
      <TextArea
        label={t.text}
        hint={t.textHint}
        rows={6}
        value={text}
        onChange={({ target }) => setText(target.value)}
      />
      <TextField
        label={t.file}
        type="file"
        accept=".csv,.txt,.ics,text/csv,text/calendar,text/plain"
        onChange={({ target }) => {
          void target.files?.[0]?.arrayBuffer().then((bytes) => {
            const content = decodeList(new Uint8Array(bytes));
            setText(content);
            onRead(content);
          });
        }}
      />
      <Button kind="main" type="submit" busy={busy} disabled={text.trim() === ""}>
        {t.read}
      </Button>
    </form>
  );
}

import { useState, type FormEvent, type ReactNode } from "react";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { getToothNotation, readTooth, showTooth } from "../texts/tooth-notation.ts";
import { Button, LinkButton } from "../ui/Button.tsx";
import { TextField } from "../ui/Field.tsx";
import { readText } from "../ui/form-text.ts";
import type { Filter } from "../ui/useFilter.ts";

const names = ["chart", "tooth", "on", "lot"] as const;

/** What is searched for; it goes into the address when it is sent, not with every key. */
export function RecordSearch({ filter }: { filter: Filter }): ReactNode {
  const t = useTexts();
  const { search } = t.records;
  const system = t.notations[getToothNotation()];
  const [wrongTooth, setWrongTooth] = useState(false);
  function submit(event: FormEvent<HTMLFormElement>): void {
    event.preventDefault();
    const form = event.currentTarget;
    const told = Object.fromEntries(names.map((name) => [name, readText(form, name)]));
    const typed = told["tooth"] ?? "";
    const tooth = typed === "" ? "" : readTooth(typed);
    setWrongTooth(tooth === null);
    if (tooth !== null) filter.set({ ...told, tooth });
  }
  const isSet = names.some((name) => filter.get(name) !== "");
  return (
    <search>
      <form className="sieve record-search" onSubmit={submit}>
        <TextField
          label={search.chart}
          name="chart"
          maxLength={40}
          defaultValue={filter.get("chart")}
          autoComplete="off"
        />
        <TextField
          label={search.tooth}
          name="tooth"
          maxLength={4}
          placeholder={search.toothHint(system)}
          defaultValue={showTooth(filter.get("tooth"))}
          error={wrongTooth ? search.noSuchTooth(system) : undefined}
          autoComplete="off"
        />
        <TextField label={search.on} name="on" type="date" defaultValue={filter.get("on")} />
        <TextField
          label={search.lot}
          name="lot"
          className="code"
          maxLength={40}
          defaultValue={filter.get("lot")}
          autoComplete="off"
          spellCheck={false}
        />
        <Button kind="main" type="submit">
          {search.button}
        </Button>
        {isSet ? (
          <LinkButton kind="quiet" to={paths.records()}>
            {search.all}
          </LinkButton>
        ) : null}
      </form>
    </search>
  );
}

import { useState, type FormEvent, type ReactNode } from "react";
import { solvents } from "#domain";
import type { AnswerOf } from "#contracts/operations";
import { getMessages } from "#texts";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { useHasRole } from "../session/session.ts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { CheckField, TextField } from "../ui/Field.tsx";
import { readText } from "../ui/form-text.ts";
import { ProblemNote, QueryView } from "../ui/States.tsx";

type Settings = AnswerOf<"getCheckSettings">;
type Code = Settings["checks"][number]["code"];

/** How strict the check before priming is: thresholds, and cautions made stops. */
export function ChecksPart(): ReactNode {
  const { checks: t } = useTexts().practice;
  const query = useRead("getCheckSettings");
  return (
    <section className="panel">
      <p>{t.lead}</p>
      <QueryView query={query}>{(settings) => <ChecksForm settings={settings} />}</QueryView>
    </section>
  );
}

function ChecksForm({ settings }: { settings: Settings }): ReactNode {
  const { checks: t } = useTexts().practice;
  const { findings } = getMessages(useLanguage().language);
  const mayChange = useHasRole("dentist", "owner");
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [raised, setRaised] = useState<readonly Code[]>(settings.raised);
  const save = useWrite("changeCheckSettings", () => {
    refresh("getCheckSettings", "getTray", "listTrays", "getToday");
    announce({ text: t.saved });
  });
  const codesOf = (wanted: (check: Settings["checks"][number]) => boolean) =>
    settings.checks.filter(wanted).map(({ code }) => code);
  function submit(event: FormEvent<HTMLFormElement>): void {
    event.preventDefault();
    const form = event.currentTarget;
    const secondsOf = (name: string): number => Number(readText(form, name));
    const airDrySeconds = {
      acetone: secondsOf("acetone"),
      ethanol: secondsOf("ethanol"),
      "tert-butanol": secondsOf("tert-butanol"),
      water: secondsOf("water"),
    };
    const shortDatedDays = secondsOf("shortDatedDays");
    save.mutate({ body: { shortDatedDays, airDrySeconds, raised: [...raised] } });
  }
  const number = { type: "number", inputMode: "numeric", min: 0, step: 1, required: true } as const;
  return (
    <form className="form" onSubmit={submit}>
      {mayChange ? null : <p className="hint">{t.dentistDecides}</p>}
      <fieldset className="checks-settings" disabled={!mayChange}>
        <TextField
          {...number}
          label={t.shortDated}
          name="shortDatedDays"
          max={730}
          defaultValue={settings.shortDatedDays}
        />
        <DryingFields airDrySeconds={settings.airDrySeconds} />
        <fieldset>
          <legend>{t.raise}</legend>
          <p className="hint">{t.raiseHint}</p>
          {codesOf(({ level }) => level === "caution").map((code) => (
            <CheckField
              key={code}
              label={findings[code].title}
              checked={raised.includes(code)}
              onChange={({ target }) =>
                setRaised(target.checked ? [...raised, code] : raised.filter((one) => one !== code))
              }
            />
          ))}
        </fieldset>
        <h3>{t.fixed}</h3>
        <ul>
          {codesOf(({ fixed }) => fixed).map((code) => (
            <li key={code}>{findings[code].title}</li>
          ))}
        </ul>
      </fieldset>
      <ProblemNote error={save.error} />
      {mayChange ? (
        <Button kind="main" type="submit" busy={save.isPending}>
          {t.button}
        </Button>
      ) : null}
    </form>
  );
}

function DryingFields({ airDrySeconds }: Pick<Settings, "airDrySeconds">): ReactNode {
  const { checks: t } = useTexts().practice;
  const { solvents: names } = getMessages(useLanguage().language);
  return (
    <fieldset>
      <legend>{t.drying}</legend>
      <p className="hint">{t.dryingHint}</p>
      <div className="checks-drying">
        {solvents.map((solvent) => (
          <TextField
            key={solvent}
            label={names[solvent]}
            name={solvent}
            type="number"
            inputMode="numeric"
            min={0}
            max={120}
            step={1}
            required
            defaultValue={airDrySeconds[solvent]}
          />
        ))}
      </div>
    </fieldset>
  );
}

import { useState, type FormEvent, type ReactNode } from "react";
import { solvents } from "#domain";
import type { AnswerOf, BodyOf } from "#contracts/operations";
import { getMessages } from "#texts";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { useHasRole } from "../session/session.ts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { CheckField, TextField } from "../ui/Field.tsx";
import { readText } from "../ui/form-text.ts";
import { ProblemNote, QueryView } from "../ui/States.tsx";
import { CheckStatistics } from "./CheckStatistics.tsx";

type Settings = AnswerOf<"getCheckSettings">;
type Code = Settings["checks"][number]["code"];

/** How strict the check before priming is: thresholds, and cautions made stops. */
export function ChecksPart(): ReactNode {
  const { checks: t } = useTexts().practice;
  const query = useRead("getCheckSettings");
  return (
    <>
      <section className="panel">
        <p>{t.lead}</p>
        <QueryView query={query}>{(settings) => <ChecksForm settings={settings} />}</QueryView>
      </section>
      <CheckStatistics />
    </>
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
  function submit(event: FormEvent<HTMLFormElement>): void {
    event.preventDefault();
    save.mutate({ body: { ...readThresholds(event.currentTarget), raised: [...raised] } });
  }
  return (
    <form className="form" onSubmit={submit}>
      {mayChange ? null : <p className="hint">{t.dentistDecides}</p>}
      <fieldset className="checks-settings" disabled={!mayChange}>
        <NumberField
          label={t.shortDated}
          name="shortDatedDays"
          range={[0, 730]}
          value={settings.shortDatedDays}
        />
        <NumberField
          label={t.waitingLimit}
          name="waitingLimitDays"
          range={[1, 365]}
          value={settings.waitingLimitDays}
        />
        <DryingFields airDrySeconds={settings.airDrySeconds} />
        <LightFields settings={settings} />
        <fieldset>
          <legend>{t.raise}</legend>
          <p className="hint">{t.raiseHint}</p>
          {listCodes(settings, ({ level }) => level === "caution").map((code) => (
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
          {listCodes(settings, ({ fixed }) => fixed).map((code) => (
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

function listCodes(
  { checks }: Settings,
  wanted: (check: Settings["checks"][number]) => boolean,
): readonly Code[] {
  return checks.filter(wanted).map(({ code }) => code);
}

function readThresholds(form: HTMLFormElement): Omit<BodyOf<"changeCheckSettings">, "raised"> {
  const numberOf = (name: string): number => Number(readText(form, name));
  return {
    shortDatedDays: numberOf("shortDatedDays"),
    airDrySeconds: {
      acetone: numberOf("acetone"),
      ethanol: numberOf("ethanol"),
      "tert-butanol": numberOf("tert-butanol"),
      water: numberOf("water"),
    },
    lightCeilingMwCm2: numberOf("lightCeilingMwCm2"),
    lightFloorMwCm2: numberOf("lightFloorMwCm2"),
    lightCheckDays: numberOf("lightCheckDays"),
    waitingLimitDays: numberOf("waitingLimitDays"),
  };
}

interface NumberFieldProps {
  label: string;
  name: string;
  range: readonly [number, number];
  value: number;
}

function NumberField({ label, name, range: [min, max], value }: NumberFieldProps): ReactNode {
  return (
    <TextField
      {...{ label, name, min, max }}
      type="number"
      inputMode="numeric"
      step={1}
      required
      defaultValue={value}
    />
  );
}

function DryingFields({ airDrySeconds }: Pick<Settings, "airDrySeconds">): ReactNode {
  const { checks: t } = useTexts().practice;
  const { solvents: names } = getMessages(useLanguage().language);
  return (
    <fieldset>
      <legend>{t.drying}</legend>
      <p className="hint">{t.dryingHint}</p>
      <div className="checks-row">
        {solvents.map((solvent) => (
          <NumberField
            key={solvent}
            label={names[solvent]}
            name={solvent}
            range={[0, 120]}
            value={airDrySeconds[solvent]}
          />
        ))}
      </div>
    </fieldset>
  );
}

function LightFields({ settings }: { settings: Settings }): ReactNode {
  const { checks: t } = useTexts().practice;
  return (
    <fieldset>
      <legend>{t.light}</legend>
      <div className="checks-row">
        <NumberField
          label={t.lightFloor}
          name="lightFloorMwCm2"
          range={[100, 5000]}
          value={settings.lightFloorMwCm2}
        />
        <NumberField
          label={t.lightCeiling}
          name="lightCeilingMwCm2"
          range={[500, 10_000]}
          value={settings.lightCeilingMwCm2}
        />
        <NumberField
          label={t.lightDays}
          name="lightCheckDays"
          range={[1, 730]}
          value={settings.lightCheckDays}
        />
      </div>
    </fieldset>
  );
}

import { useState, type ReactNode } from "react";
import { formatNumber } from "#texts";
import { useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { Choice, Select, TextField } from "../ui/Field.tsx";
import { ProblemNote } from "../ui/States.tsx";
import { readTenthMm } from "./light-form.ts";
import type { Light } from "./LightsPart.tsx";

const readAs = ["irradiance", "power"] as const;

/** What a radiometer reads of a light; a wrong reading is replaced, never changed. */
export function ReadingDialog({
  light,
  onClose,
}: {
  light: Light;
  onClose: () => void;
}): ReactNode {
  const { keeping, common } = useTexts();
  const { lights: t } = keeping;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const last = light.readings.at(-1);
  const [told, setTold] = useState<Told>({
    mode: light.modes[0]?.name ?? "",
    as: "irradiance",
    value: "",
    distance: "0",
    radiometer: last?.radiometer ?? "",
    note: "",
    replacesId: "",
  });
  const change = (part: Partial<Told>) => setTold({ ...told, ...part });
  const save = useWrite("addLightReading", () => {
    refresh("listLights", "getTray", "getToday");
    announce({ text: t.readSaved });
    onClose();
  });
  const distanceTenthMm = readTenthMm(told.distance);
  function submit(): void {
    if (distanceTenthMm === null) return;
    const { mode, radiometer, note, replacesId } = told;
    const value = Number(told.value);
    const what = told.as === "power" ? { powerMw: value } : { irradianceMwCm2: value };
    const replaces = replacesId === "" ? {} : { replacesId };
    const body = { mode, distanceTenthMm, radiometer, note, ...what, ...replaces };
    save.mutate({ params: { lightId: light.id }, body });
  }
  return (
    <Dialog title={t.readTitle(light.name)} onClose={onClose} closeLabel={common.cancel}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          submit();
        }}
      >
        <ReadingFields {...{ light, told }} onChange={change} />
        <ReplacesSelect
          light={light}
          value={told.replacesId}
          onChange={(replacesId) => change({ replacesId })}
        />
        <ProblemNote error={save.error} />
        <Button kind="main" type="submit" busy={save.isPending}>
          {common.save}
        </Button>
      </form>
    </Dialog>
  );
}

interface Told {
  mode: string;
  as: (typeof readAs)[number];
  value: string;
  distance: string;
  radiometer: string;
  note: string;
  replacesId: string;
}

interface ReadingFieldsProps {
  light: Light;
  told: Told;
  onChange: (part: Partial<Told>) => void;
}

function ReadingFields({ light, told, onChange }: ReadingFieldsProps): ReactNode {
  const { lights: t } = useTexts().keeping;
  return (
    <>
      <Choice
        label={t.mode}
        options={light.modes.map(({ name }) => ({ value: name, label: name }))}
        value={told.mode}
        onChoose={(mode) => onChange({ mode })}
      />
      <Choice
        label={t.what}
        options={readAs.map((value) => ({ value, label: t.whats[value] }))}
        value={told.as}
        onChoose={(as) => onChange({ as })}
      />
      <div className="pair">
        <TextField
          label={t.value}
          type="number"
          min={0}
          max={20_000}
          value={told.value}
          required
          onChange={({ target }) => onChange({ value: target.value })}
        />
        <TextField
          label={t.distanceMm}
          inputMode="decimal"
          pattern="\d{1,2}([.,]\d)?"
          value={told.distance}
          required
          onChange={({ target }) => onChange({ distance: target.value })}
        />
      </div>
      <TextField
        label={t.radiometer}
        value={told.radiometer}
        maxLength={100}
        onChange={({ target }) => onChange({ radiometer: target.value })}
      />
      <TextField
        label={t.note}
        value={told.note}
        maxLength={2000}
        onChange={({ target }) => onChange({ note: target.value })}
      />
    </>
  );
}

interface ReplacesSelectProps {
  light: Light;
  value: string;
  onChange: (readingId: string) => void;
}

function ReplacesSelect({ light, value, onChange }: ReplacesSelectProps): ReactNode {
  const { lights: t } = useTexts().keeping;
  const { language, dateTime } = useFormats();
  const standing = light.readings.filter(({ replaced }) => !replaced).toReversed();
  if (standing.length === 0) return null;
  return (
    <Select label={t.replaces} value={value} onChange={({ target }) => onChange(target.value)}>
      <option value="">{t.replacesNone}</option>
      {standing.map(({ id, readAt, irradianceMwCm2, distanceTenthMm }) => (
        <option key={id} value={id}>
          {[
            dateTime(readAt),
            t.output(formatNumber(language, irradianceMwCm2)),
            t.millimetres(formatNumber(language, distanceTenthMm / 10)),
          ].join(" · ")}
        </option>
      ))}
    </Select>
  );
}

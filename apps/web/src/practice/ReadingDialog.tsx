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
import { draftLike, readAs, readLocal, readReading, type ReadingDraft } from "./light-form.ts";
import type { Light } from "./LightMark.tsx";

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
  const { timeZone } = useFormats();
  const last = light.readings.at(-1);
  const [told, setTold] = useState<ReadingDraft>({
    mode: light.modes[0]?.name ?? "",
    as: "irradiance",
    value: "",
    distance: "0",
    radiometer: last?.radiometer ?? "",
    note: "",
    at: "",
    replacesId: "",
  });
  const [tried, setTried] = useState(false);
  const change = (part: Partial<ReadingDraft>) => setTold({ ...told, ...part });
  const save = useWrite("addLightReading", () => {
    refresh("listLights", "getLight", "getTray", "getToday");
    announce({ text: t.readSaved });
    onClose();
  });
  const wrong = light.readings.find(({ id }) => id === told.replacesId);
  const body = readReading(told, wrong, timeZone);
  return (
    <Dialog title={t.readTitle(light.name)} onClose={onClose} closeLabel={common.cancel}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          setTried(true);
          if (body !== null) save.mutate({ params: { lightId: light.id }, body });
        }}
      >
        <ReplacesSelect light={light} value={told.replacesId} onChange={change} />
        <ReadingFields {...{ light, told, tried }} onChange={change} />
        <ProblemNote error={save.error} />
        <Button kind="main" type="submit" busy={save.isPending}>
          {common.save}
        </Button>
      </form>
    </Dialog>
  );
}

interface ReadingFieldsProps {
  light: Light;
  told: ReadingDraft;
  /** Whether what is wrong is told already. */
  tried: boolean;
  onChange: (part: Partial<ReadingDraft>) => void;
}

function ReadingFields({ light, told, tried, onChange }: ReadingFieldsProps): ReactNode {
  const { lights: t } = useTexts().keeping;
  const { timeZone } = useFormats();
  const noTime = told.at !== "" && readLocal(told.at, timeZone) === null;
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
      <div className="pair">
        <TextField
          label={t.radiometer}
          value={told.radiometer}
          maxLength={100}
          onChange={({ target }) => onChange({ radiometer: target.value })}
        />
        <TextField
          label={t.when}
          type="datetime-local"
          value={told.at}
          error={tried && noTime ? t.noSuchTime : undefined}
          onChange={({ target }) => onChange({ at: target.value })}
        />
      </div>
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
  onChange: (part: Partial<ReadingDraft>) => void;
}

/** A wrong reading to replace; what is most likely right of it is filled in. */
function ReplacesSelect({ light, value, onChange }: ReplacesSelectProps): ReactNode {
  const { lights: t } = useTexts().keeping;
  const { language, dateTime, timeZone } = useFormats();
  const standing = light.readings.filter(({ replaced }) => !replaced).toReversed();
  if (standing.length === 0) return null;
  return (
    <Select
      label={t.replaces}
      value={value}
      onChange={({ target }) => {
        const wrong = standing.find(({ id }) => id === target.value);
        onChange(wrong === undefined ? { at: "", replacesId: "" } : draftLike(wrong, timeZone));
      }}
    >
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

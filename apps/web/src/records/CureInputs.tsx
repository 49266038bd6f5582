import type { ReactNode } from "react";
import { formatNumber } from "#texts";
import { useRead } from "../api/queries.ts";
import { listDistances } from "../chairside/cure.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Select, TextField } from "../ui/Field.tsx";
import { otherLight, type EntryFields } from "./additions.ts";

interface CureInputsProps {
  fields: EntryFields;
  set: (change: Partial<EntryFields>) => void;
}

/** How long was cured, with which light, how far from the tooth. */
export function CureInputs({ fields, set }: CureInputsProps): ReactNode {
  const { amend: t, chairside, common } = useTexts();
  const { language } = useFormats();
  // Also a light that is out of use by now may have been the one.
  const lights = useRead("listLights", {}, { staleMs: 60_000 }).data?.lights ?? [];
  const modes = lights.find(({ id }) => id === fields.lightId)?.modes ?? [];
  return (
    <>
      <TextField
        label={t.seconds}
        inputMode="numeric"
        value={fields.seconds}
        onChange={({ target }) => set({ seconds: target.value })}
      />
      <Select
        label={chairside.light}
        value={fields.lightId}
        onChange={({ target }) => set({ lightId: target.value, mode: "" })}
      >
        <option value="">{common.choose}</option>
        {lights.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
        <option value={otherLight}>{chairside.otherLight}</option>
      </Select>
      {modes.length < 2 ? null : (
        <Select
          label={chairside.mode}
          value={fields.mode || modes[0]?.name}
          onChange={({ target }) => set({ mode: target.value })}
        >
          {modes.map(({ name }) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </Select>
      )}
      <Select
        label={chairside.distance}
        value={fields.distanceTenthMm}
        onChange={({ target }) => set({ distanceTenthMm: Number(target.value) })}
      >
        {listDistances(fields.distanceTenthMm).map((tenthMm) => (
          <option key={tenthMm} value={tenthMm}>
            {chairside.millimetres(formatNumber(language, tenthMm / 10))}
          </option>
        ))}
      </Select>
    </>
  );
}

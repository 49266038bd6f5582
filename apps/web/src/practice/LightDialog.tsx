import { useState, type ReactNode } from "react";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { CheckField, Select, TextField } from "../ui/Field.tsx";
import { ProblemNote } from "../ui/States.tsx";
import {
  courses,
  readModes,
  readTenthMm,
  usualMode,
  type Course,
  type ModeRow,
} from "./light-form.ts";
import type { Light } from "./LightMark.tsx";

interface LightDialogProps {
  /** `null` adds one. */
  light: Light | null;
  onClose: () => void;
}

/** What a light is and where it belongs; its modes are said once, when it is entered. */
export function LightDialog({ light, onClose }: LightDialogProps): ReactNode {
  const { keeping, common } = useTexts();
  const { lights: t } = keeping;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [facts, setFacts] = useState({
    name: light?.name ?? "",
    serial: light?.serial ?? "",
    tip: light?.tipTenthMm == null ? "" : String(light.tipTenthMm / 10),
    locationId: light?.location?.id ?? "",
    retired: light?.retired ?? false,
  });
  const [rows, setRows] = useState<readonly ModeRow[]>([usualMode]);
  const change = (part: Partial<typeof facts>) => setFacts({ ...facts, ...part });
  const done = ({ name }: Light): void => {
    refresh("listLights", "getLight", "getTray", "getToday");
    announce({ text: t.saved(name) });
    onClose();
  };
  const add = useWrite("addLight", done);
  const keep = useWrite("changeLight", done);
  function save(): void {
    const { name, serial, tip, locationId, retired } = facts;
    const place = locationId === "" ? null : locationId;
    const told = { name, serial, tipTenthMm: readTenthMm(tip), locationId: place };
    if (light === null) add.mutate({ body: { ...told, modes: readModes(rows) } });
    else keep.mutate({ params: { lightId: light.id }, body: { ...told, retired } });
  }
  return (
    <Dialog
      title={light === null ? t.add : light.name}
      onClose={onClose}
      closeLabel={common.cancel}
    >
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        <LightFields facts={facts} onChange={change} />
        <RoomSelect value={facts.locationId} onChange={(locationId) => change({ locationId })} />
        {light === null ? (
          <ModeRows rows={rows} onChange={setRows} />
        ) : (
          <>
            <p className="hint">{t.modesStay}</p>
            <CheckField
              label={t.retired}
              checked={facts.retired}
              onChange={({ target }) => change({ retired: target.checked })}
            />
          </>
        )}
        <ProblemNote error={add.error ?? keep.error} />
        <Button kind="main" type="submit" busy={add.isPending || keep.isPending}>
          {common.save}
        </Button>
      </form>
    </Dialog>
  );
}

interface LightFieldsProps {
  facts: { name: string; serial: string; tip: string };
  onChange: (part: { name?: string; serial?: string; tip?: string }) => void;
}

function LightFields({ facts, onChange }: LightFieldsProps): ReactNode {
  const { lights: t } = useTexts().keeping;
  return (
    <>
      <TextField
        label={t.name}
        value={facts.name}
        maxLength={100}
        required
        onChange={({ target }) => onChange({ name: target.value })}
      />
      <div className="pair">
        <TextField
          label={t.serial}
          value={facts.serial}
          maxLength={100}
          onChange={({ target }) => onChange({ serial: target.value })}
        />
        <TextField
          label={t.tip}
          hint={t.tipHint}
          value={facts.tip}
          inputMode="decimal"
          pattern="\d{1,2}([.,]\d)?"
          onChange={({ target }) => onChange({ tip: target.value })}
        />
      </div>
    </>
  );
}

interface RoomSelectProps {
  value: string;
  onChange: (locationId: string) => void;
}

function RoomSelect({ value, onChange }: RoomSelectProps): ReactNode {
  const { lights: t } = useTexts().keeping;
  const { data } = useRead("listLocations", {}, { staleMs: 300_000 });
  const rooms = (data?.locations ?? []).filter(({ kind }) => kind === "operatory");
  return (
    <Select label={t.room} value={value} onChange={({ target }) => onChange(target.value)}>
      <option value="">{t.noRoom}</option>
      {rooms.map(({ id, name }) => (
        <option key={id} value={id}>
          {name}
        </option>
      ))}
    </Select>
  );
}

interface ModeRowsProps {
  rows: readonly ModeRow[];
  onChange: (rows: readonly ModeRow[]) => void;
}

function ModeRows({ rows, onChange }: ModeRowsProps): ReactNode {
  const { lights: t } = useTexts().keeping;
  const change = (at: number, part: Partial<ModeRow>) =>
    onChange(rows.map((row, index) => (index === at ? { ...row, ...part } : row)));
  return (
    <fieldset className="form">
      <legend>{t.modes}</legend>
      {rows.map((row, index) => (
        // Rows are only ever added at the end.
        <div key={`mode ${index}`} className="pair">
          <TextField
            label={t.modeName}
            value={row.name}
            maxLength={60}
            required={index === 0}
            onChange={({ target }) => change(index, { name: target.value })}
          />
          <Select
            label={t.course}
            value={row.course}
            onChange={({ target }) => change(index, { course: target.value as Course })}
          >
            {courses.map((course) => (
              <option key={course} value={course}>
                {t.courses[course]}
              </option>
            ))}
          </Select>
          {row.course === "constant" ? null : (
            <>
              <TextField
                label={t.courseSeconds}
                type="number"
                min={0.1}
                max={120}
                step="any"
                value={row.seconds}
                required
                onChange={({ target }) => change(index, { seconds: target.value })}
              />
              <TextField
                label={t.courseFrom}
                type="number"
                min={0}
                max={100}
                value={row.fromPercent}
                required
                onChange={({ target }) => change(index, { fromPercent: target.value })}
              />
            </>
          )}
        </div>
      ))}
      <Button onClick={() => onChange([...rows, { ...usualMode, name: "" }])}>{t.addMode}</Button>
    </fieldset>
  );
}

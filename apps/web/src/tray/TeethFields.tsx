import type { ReactNode } from "react";
import { provisionalKinds, restorationKinds, type RestorationKind, type ToothMode } from "#domain";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { CheckField, Choice, Select, TextField } from "../ui/Field.tsx";
import {
  asksFor,
  listTeeth,
  modesOf,
  planLikewise,
  type Technique,
  type ToothPlan,
  type VisitPlan,
} from "./visit-plan.ts";
import { showTooth } from "../texts/tooth-notation.ts";

interface TeethFieldsProps {
  plan: VisitPlan;
  technique: Technique | undefined;
  wrongSurfaces: Readonly<Record<string, boolean>>;
  onChange: (details: VisitPlan["details"]) => void;
}

/** What is planned of each tooth: what its technique asks for, and what may be told besides. */
export function TeethFields(props: TeethFieldsProps): ReactNode {
  const { plan, technique, wrongSurfaces, onChange } = props;
  const teeth = listTeeth(plan, technique);
  return teeth.map(({ tooth, ...told }, index) => (
    <ToothFields
      key={tooth}
      {...{ tooth, told, technique }}
      onLikewise={
        index === 0 && teeth.length > 1 ? () => onChange(planLikewise(plan, teeth)) : null
      }
      isWrong={wrongSurfaces[tooth] === true}
      onChange={(change) => {
        const before = plan.details[tooth] ?? plan.usual;
        onChange({ ...plan.details, [tooth]: { ...before, ...change } });
      }}
    />
  ));
}

interface ToothFieldsProps {
  tooth: string;
  told: ToothPlan;
  technique: Technique | undefined;
  isWrong: boolean;
  onChange: (change: Partial<ToothPlan>) => void;
  /** Plans the other teeth as this one; `null` where there is none to follow it. */
  onLikewise: (() => void) | null;
}

function ToothFields(props: ToothFieldsProps): ReactNode {
  const { tooth, told, technique, isWrong, onChange, onLikewise } = props;
  const t = useTexts();
  const words = t.tray.plan;
  const modes = modesOf(technique);
  const isSealing = technique?.visit !== "bonding";
  const mayDiffer = asksFor(technique, "provisional") || asksFor(technique, "undercut");
  return (
    <fieldset className="tooth-fields">
      <legend>{t.common.tooth(showTooth(tooth))}</legend>
      <div className="tooth-choices">
        <ToothChoices modes={modes} isSealing={isSealing} told={told} onChange={onChange} />
      </div>
      <details open={mayDiffer}>
        <summary className="link">{words.more}</summary>
        <MoreFields {...{ tooth, told, isSealing, isWrong, onChange }} />
      </details>
      {onLikewise === null ? null : (
        <div>
          <Button onClick={onLikewise}>{words.likewise}</Button>
        </div>
      )}
    </fieldset>
  );
}

interface ToothChoicesProps {
  modes: readonly ToothMode[];
  isSealing: boolean;
  told: Pick<ToothPlan, "mode" | "provisional">;
  onChange: (change: Partial<Pick<ToothPlan, "mode" | "provisional">>) => void;
}

/** The mode, where the technique has several, and the provisional that a seal gets. */
export function ToothChoices({ modes, isSealing, told, onChange }: ToothChoicesProps): ReactNode {
  const t = useTexts();
  const words = t.tray.plan;
  return (
    <>
      {modes.length === 0 ? null : (
        <Choice<ToothMode>
          label={words.mode}
          options={modes.map((mode) => ({ value: mode, label: t.chairside.modes[mode] }))}
          value={told.mode}
          onChoose={(mode) => onChange({ mode })}
        />
      )}
      {isSealing ? (
        <Choice
          label={words.provisional}
          options={provisionalKinds.map((kind) => ({
            value: kind,
            label: words.provisionals[kind],
          }))}
          value={told.provisional}
          onChoose={(provisional) => onChange({ provisional })}
        />
      ) : null}
    </>
  );
}

interface MoreFieldsProps extends Pick<
  ToothFieldsProps,
  "tooth" | "told" | "isWrong" | "onChange"
> {
  isSealing: boolean;
}

function MoreFields(props: MoreFieldsProps): ReactNode {
  const { tooth, told, isSealing, isWrong, onChange } = props;
  const words = useTexts().tray.plan;
  return (
    <div className="tooth-more">
      {isSealing ? (
        <CheckField
          label={words.undercut}
          checked={told.undercut}
          onChange={({ target }) => onChange({ undercut: target.checked })}
        />
      ) : null}
      <TextField
        label={words.surfaces}
        hint={words.surfacesHint}
        error={isWrong ? words.noSuchSurfaces(showTooth(tooth)) : undefined}
        value={told.surfaces}
        maxLength={5}
        autoComplete="off"
        onChange={({ target }) => onChange({ surfaces: target.value.toUpperCase().trim() })}
      />
      <Select
        label={words.restoration}
        value={told.restoration ?? ""}
        onChange={({ target }) =>
          onChange({
            restoration: target.value === "" ? null : (target.value as RestorationKind),
          })
        }
      >
        <option value="">{words.noRestoration}</option>
        {restorationKinds.map((kind) => (
          <option key={kind} value={kind}>
            {words.restorations[kind]}
          </option>
        ))}
      </Select>
    </div>
  );
}

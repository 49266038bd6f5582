import type { ReactNode } from "react";
import { formatNumber } from "#texts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Dialog } from "../ui/Dialog.tsx";
import { Choice } from "../ui/Field.tsx";
import { listDistances } from "./cure.ts";
import type { Cure } from "./useCure.ts";

const noLight = "";

/** Which light, in which mode, how far from the tooth: each by one tap. */
export function CureDialog({ cure, onClose }: { cure: Cure; onClose: () => void }): ReactNode {
  const { chairside: t } = useTexts();
  const { language } = useFormats();
  const { lights, light, choice, choose } = cure;
  return (
    <Dialog title={t.lightAndDistance} onClose={onClose} closeLabel={t.goOnWith}>
      <div className="form cure-choices">
        <Choice
          label={t.light}
          options={[
            ...lights.map(({ id, name }) => ({ value: id, label: name })),
            { value: noLight, label: t.otherLight },
          ]}
          value={choice.lightId ?? noLight}
          onChoose={(id) => choose({ ...choice, lightId: id === noLight ? null : id, mode: null })}
        />
        {light === undefined || light.modes.length < 2 ? null : (
          <Choice
            label={t.mode}
            options={light.modes.map(({ name }) => ({ value: name, label: name }))}
            value={choice.mode ?? light.modes[0]?.name ?? null}
            onChoose={(mode) => choose({ ...choice, mode })}
          />
        )}
        <Choice
          label={t.distance}
          options={listDistances(choice.distanceTenthMm).map((tenthMm) => ({
            value: String(tenthMm),
            label: t.millimetres(formatNumber(language, tenthMm / 10)),
          }))}
          value={String(choice.distanceTenthMm)}
          onChoose={(value) => choose({ ...choice, distanceTenthMm: Number(value) })}
        />
      </div>
    </Dialog>
  );
}

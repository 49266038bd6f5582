import { useState, type ReactNode } from "react";
import { contents, type Content } from "#domain";
import { getMessages } from "#texts";
import { useRefresh, useWrite } from "../api/queries.ts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { CheckField } from "../ui/Field.tsx";
import { ProblemNote } from "../ui/States.tsx";
import type { Tray } from "./columns.ts";

/** What the patient of a tray reacts to; a tap changes it. */
export function Allergies({ patient }: Pick<Tray, "patient">): ReactNode {
  const { allergies: t } = useTexts().tray;
  const names = getMessages(useLanguage().language).contents;
  const [isOpen, open] = useState(false);
  return (
    <>
      <Button onClick={() => open(true)}>
        {t.button(patient.allergies.map((one) => names[one]))}
      </Button>
      {isOpen ? <AllergyDialog patient={patient} onClose={() => open(false)} /> : null}
    </>
  );
}

function AllergyDialog({
  patient,
  onClose,
}: Pick<Tray, "patient"> & { onClose: () => void }): ReactNode {
  const t = useTexts();
  const names = getMessages(useLanguage().language).contents;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [chosen, choose] = useState<readonly Content[]>(patient.allergies);
  const save = useWrite("changeAllergies", () => {
    refresh("getTray", "listTrays", "getToday");
    announce({ text: t.tray.allergies.saved });
    onClose();
  });
  return (
    <Dialog
      title={t.tray.allergies.title}
      onClose={onClose}
      closeLabel={t.common.cancel}
      actions={
        <Button
          kind="main"
          busy={save.isPending}
          onClick={() =>
            save.mutate({ params: { patientId: patient.id }, body: { allergies: [...chosen] } })
          }
        >
          {t.common.save}
        </Button>
      }
    >
      <p>{t.tray.allergies.lead}</p>
      {contents.map((one) => (
        <CheckField
          key={one}
          label={names[one]}
          checked={chosen.includes(one)}
          onChange={({ target }) =>
            choose(target.checked ? [...chosen, one] : chosen.filter((each) => each !== one))
          }
        />
      ))}
      <ProblemNote error={save.error} />
    </Dialog>
  );
}

import { useState, type ReactNode } from "react";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Button, type ButtonKind } from "../ui/Button.tsx";
import { EnterDialog, type Covered } from "./EnterDialog.tsx";

interface EnterButtonProps {
  /** What a trace has found; a notice can also be entered of what is not here. */
  offered?: readonly Covered[];
  lot: string;
  kind?: ButtonKind;
}

/** Leads to entering a withdrawal, for those who may; the others read who may. */
export function EnterButton({ offered = [], lot, kind = "plain" }: EnterButtonProps): ReactNode {
  const { answer: t } = useTexts().withdrawal;
  const mayEnter = useHasRole("office", "owner");
  const [entering, enter] = useState(false);
  if (!mayEnter) return <p className="hint">{t.officeEnters}</p>;
  return (
    <>
      <Button kind={kind} onClick={() => enter(true)}>
        {t.enter}
      </Button>
      {entering ? <EnterDialog {...{ offered, lot }} onClose={() => enter(false)} /> : null}
    </>
  );
}

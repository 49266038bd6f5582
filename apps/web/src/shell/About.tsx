import type { ReactNode } from "react";
import { getMessages } from "#texts";
import { useRead } from "../api/queries.ts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";
import { Dialog } from "../ui/Dialog.tsx";

/** The cautions that go with Tubule, in full. */
export function Cautions(): ReactNode {
  const { language } = useLanguage();
  const { aid, figures, duties } = getMessages(language).cautions;
  return (
    <div className="cautions">
      <p>{aid}</p>
      <p>{figures}</p>
      <p>{duties}</p>
    </div>
  );
}

export function About({ onClose }: { onClose: () => void }): ReactNode {
  const t = useTexts();
  const health = useRead("getHealth");
  return (
    <Dialog title={t.about.title} onClose={onClose}>
      <Cautions />
      <p className="hint">{window.isSecureContext ? t.about.secure : t.about.plain}</p>
      {health.data ? <p className="hint">{t.about.version(health.data.version)}</p> : null}
    </Dialog>
  );
}

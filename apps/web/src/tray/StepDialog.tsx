import type { ReactNode } from "react";
import { showContainerCode } from "#domain";
import { getMessages } from "#texts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Dialog } from "../ui/Dialog.tsx";
import { FindingNote, type FindingView } from "../ui/FindingNote.tsx";
import { Vessel } from "../ui/Vessel.tsx";
import type { Column, TrayItem } from "./columns.ts";
import { ContainerCard } from "./ContainerCard.tsx";
import { listTimes } from "./StepColumn.tsx";

interface StepDialogProps {
  column: Column;
  onRemove: ((item: TrayItem) => void) | null;
  onPass: (finding: FindingView) => void;
  onClose: () => void;
}

/** Everything about one step: its containers, all its findings, what could be fetched. */
export function StepDialog({ column, onRemove, onPass, onClose }: StepDialogProps): ReactNode {
  const t = useTexts();
  const { language } = useFormats();
  const { step, items, findings, suggestions } = column;
  const { productKinds } = getMessages(language);
  const kinds = step.accepts.map((kind) => productKinds[kind]).join(", ");
  const lead = [kinds || t.tray.noMaterial, ...listTimes(step, t.tray)].join(" · ");
  return (
    <Dialog title={step.name} onClose={onClose} wide>
      <p className="hint">{lead}</p>
      {items.map((item) => (
        <ContainerCard key={item.id} {...{ item, onRemove }} />
      ))}
      {findings.map((finding) => (
        <FindingNote key={`${finding.code} ${finding.subject.itemId}`} {...{ finding, onPass }} />
      ))}
      {step.accepts.length === 0 ? null : (
        <section className="fetch-list">
          <h3>{t.tray.fetch}</h3>
          {suggestions.length === 0 ? <p className="hint">{t.tray.noneToFetch}</p> : null}
          <ul className="rows">
            {suggestions.map((suggestion) => (
              <SuggestionRow key={suggestion.containerId} column={column} suggestion={suggestion} />
            ))}
          </ul>
        </section>
      )}
    </Dialog>
  );
}

interface SuggestionRowProps {
  column: Column;
  suggestion: Column["suggestions"][number];
}

function SuggestionRow({ column, suggestion }: SuggestionRowProps): ReactNode {
  const t = useTexts();
  const { shortDate } = useFormats();
  const [kind] = column.step.accepts;
  const { code, place, productName, lot, endsOn, open } = suggestion;
  return (
    <li className="row">
      {kind === undefined ? null : <Vessel kind={kind} filled={false} />}
      <div className="row-main">
        <p className="row-title">{t.tray.take(showContainerCode(code), place)}</p>
        <p className="hint">
          {productName} · {t.common.lot} {lot} ·{" "}
          {endsOn === null ? t.common.noEnd : t.common.ends(shortDate(endsOn))} ·{" "}
          {open ? t.common.open : t.common.sealed}
        </p>
      </div>
    </li>
  );
}

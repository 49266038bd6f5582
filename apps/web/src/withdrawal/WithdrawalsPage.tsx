import type { ReactNode } from "react";
import { identifierOf } from "#labels";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Page } from "../ui/Page.tsx";
import { useFilter, type Filter } from "../ui/useFilter.ts";
import type { Asked } from "./asked.ts";
import { CaseList } from "./CaseList.tsx";
import { EnterButton } from "./EnterButton.tsx";
import { TraceAnswer } from "./TraceAnswer.tsx";
import { TraceForm } from "./TraceForm.tsx";
import "./withdrawal.css";
import "./withdrawal-print.css";

const parts = ["lot", "identifier", "container"] as const;

function askedOf(filter: Filter): Asked {
  const set = parts.filter((part) => filter.get(part) !== "");
  return Object.fromEntries(set.map((part) => [part, filter.get(part)]));
}

/** The trace, with its question in the address, and the cases of withdrawals. */
export default function WithdrawalsPage(): ReactNode {
  const t = useTexts();
  const filter = useFilter();
  const asked = askedOf(filter);
  const isAsked = Object.keys(asked).length > 0;
  useTraceScan(filter);
  return (
    <Page
      title={t.withdrawal.title}
      lead={t.withdrawal.lead}
      actions={isAsked ? null : <EnterButton lot="" />}
    >
      <TraceForm key={JSON.stringify(asked)} asked={asked} onAsk={filter.set} />
      {isAsked ? <TraceAnswer asked={asked} /> : <CaseList />}
    </Page>
  );
}

/** A scan asks the trace: a label by its product and lot, a container by its code. */
function useTraceScan(filter: Filter): void {
  const t = useTexts();
  useScanTarget(({ reading }) => {
    if (reading.kind === "unreadable") return;
    playSound("taken");
    if (reading.kind !== "label") {
      filter.set({ lot: "", identifier: "", container: reading.code });
      return;
    }
    const { fields } = reading.label;
    const identifier = identifierOf(fields)?.value ?? "";
    filter.set({ lot: fields.lot ?? "", identifier, container: "" });
  }, t.withdrawal.scanTarget);
}

import type { ReactNode } from "react";
import { sayProblem } from "#texts";
import { paths } from "../paths.ts";
import { oddOf, readScanned } from "../scanner/scan.ts";
import { ScannerNote } from "../scanner/ScannerNote.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button, LinkButton } from "../ui/Button.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import type { Attempt, Refusal } from "./attempts.ts";
import { useNameOf } from "./useNameOf.ts";
import { labelsOf } from "./usePackReading.ts";
import type { Receiving } from "./useReceiving.ts";

interface NotPutAwayProps {
  receiving: Receiving;
  onOpen: (attempt: Attempt) => void;
}

/** The packs that stand apart: each with what the server said of it, and what to do next. */
export function NotPutAway({ receiving, onOpen }: NotPutAwayProps): ReactNode {
  const { refused: t } = useTexts().receive;
  const waiting = receiving.attempts.filter(({ state }) => state !== "sending");
  if (waiting.length === 0) return null;
  return (
    <section className="receive-refused" aria-label={t.title(waiting.length)}>
      <div className="receive-refused-head">
        <VerdictShape verdict="stop" />
        <h2>{t.title(waiting.length)}</h2>
        <p>{t.lead}</p>
      </div>
      <ul>
        {[...waiting].reverse().map((attempt) => (
          <RefusedPack key={attempt.key} {...{ attempt, receiving, onOpen }} />
        ))}
      </ul>
    </section>
  );
}

function RefusedPack({
  attempt,
  receiving,
  onOpen,
}: NotPutAwayProps & { attempt: Attempt }): ReactNode {
  const t = useTexts();
  const { refused: texts, delivery } = t.receive;
  const { language, shortDate, today } = useFormats();
  const told = useNameOf()(attempt.body);
  const { refusal } = attempt;
  const lot = told.lot ?? attempt.body.lot ?? null;
  const facts = [
    lot === null ? "" : `${t.common.lot} ${lot}`,
    told.useBy === null ? "" : `${delivery.useBy} ${shortDate(told.useBy)}`,
  ];
  return (
    <li className="receive-refusal">
      <div>
        <p className="receive-name">{told.name}</p>
        <p className="soft">{facts.filter((fact) => fact !== "").join(" · ")}</p>
      </div>
      <div>
        <p className="receive-why">
          {refusal === null
            ? texts.unreachable
            : sayProblem(language, refusal.code, refusal.values)}
        </p>
        {refusal?.errors.map(({ path, message }) => (
          <p key={path}>{message}</p>
        ))}
        {refusal === null ? null : <p>{sayNext(texts.next, refusal)}</p>}
        <ScannerNote
          found={labelsOf(attempt.body).flatMap((label) => oddOf(readScanned(label, today())))}
        />
      </div>
      <div className="actions">
        <NextStep
          {...{ attempt, onOpen, lot }}
          retry={receiving.retry}
          productId={told.productId}
        />
        {refusal === null ? null : (
          <Button title={texts.settledHint} onClick={() => receiving.settle(attempt.key)}>
            {texts.settled}
          </Button>
        )}
      </div>
    </li>
  );
}

type NextTexts = Readonly<Record<string, string>> & { other: string };

const sayNext = (next: NextTexts, { code }: Refusal): string =>
  Object.hasOwn(next, code) ? (next[code] ?? next.other) : next.other;

interface NextStepProps {
  attempt: Attempt;
  onOpen: (attempt: Attempt) => void;
  retry: Receiving["retry"];
  lot: string | null;
  productId: string | null;
}

/** The one step that leads on from a refusal. */
function NextStep({ attempt, onOpen, retry, lot, productId }: NextStepProps): ReactNode {
  const { receive, pack } = useTexts();
  const { refused: t } = receive;
  const { refusal } = attempt;
  const again = (
    <Button kind="main" onClick={() => retry(attempt.key)}>
      {refusal === null ? t.sendAgain : t.again}
    </Button>
  );
  const sameLot = paths.shelf({
    product: productId ?? undefined,
    lot: lot ?? undefined,
    state: "all",
  });
  switch (refusal?.code) {
    case "unknown-identifier":
      return (
        <Button kind="main" onClick={() => onOpen(attempt)}>
          {t.register}
        </Button>
      );
    case "label-incomplete":
      return (
        <Button kind="main" onClick={() => onOpen(attempt)}>
          {t.complete}
        </Button>
      );
    case "withdrawn-delivery": {
      const caseId = refusal.values["withdrawalId"];
      if (caseId === undefined) return null;
      return <LinkButton to={paths.withdrawal(String(caseId))}>{t.goToCase}</LinkButton>;
    }
    case "use-by-conflict":
      return <LinkButton to={sameLot}>{t.compare}</LinkButton>;
    case "serial-taken":
      return <LinkButton to={sameLot}>{t.findSerial}</LinkButton>;
    case "pack-conflict":
      return (
        <Button kind="main" onClick={() => onOpen(attempt)}>
          {pack.compare}
        </Button>
      );
    case "expired-delivery":
      return null;
    default:
      return again;
  }
}

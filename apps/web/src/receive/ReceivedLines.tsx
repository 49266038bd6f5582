import type { ReactNode } from "react";
import { Link } from "wouter";
import { showContainerCode } from "#domain";
import type { AnswerOf } from "#contracts/operations";
import { mostLabels, sizeFor } from "../labels/label-size.ts";
import { PrintButton } from "../labels/PrintButton.tsx";
import { paths } from "../paths.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { CodeLabel } from "../ui/CodeLabel.tsx";
import { saveCsv } from "../ui/csv.ts";
import { EmptyState } from "../ui/States.tsx";
import type { Column } from "../ui/Table.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import { Vessel } from "../ui/Vessel.tsx";
import { useNameOf } from "./useNameOf.ts";
import type { Receiving } from "./useReceiving.ts";

export type Delivery = AnswerOf<"getDelivery">;
type Line = Delivery["lines"][number];

interface ReceivedLinesProps {
  delivery: Delivery;
  receiving: Receiving;
}

/** What is received, newest first; what is on its way stands above it. */
export function ReceivedLines({ delivery, receiving }: ReceivedLinesProps): ReactNode {
  const t = useTexts();
  const nameOf = useNameOf();
  const columns = useLineColumns();
  const texts = t.receive.delivery;
  const underWay = receiving.attempts.filter(({ state }) => state === "sending");
  const lines = [...delivery.lines].sort((a, b) => (a.receivedAt < b.receivedAt ? 1 : -1));
  return (
    <section className="panel">
      <div className="panel-head">
        <div>
          <h2>{texts.came}</h2>
          <p className="hint">{useSums(lines)}</p>
        </div>
        {lines.length === 0 ? null : (
          <div className="actions">
            <PrintLabels lines={lines} />
            <Button onClick={() => saveCsv("delivery", columns, lines)}>{t.common.export}</Button>
            <Button onClick={() => window.print()}>{t.common.print}</Button>
          </div>
        )}
      </div>
      {lines.length === 0 && underWay.length === 0 ? <EmptyState text={texts.empty} /> : null}
      <ol className="receive-lines">
        {[...underWay].reverse().map(({ key, body }) => (
          <li key={key} className="receive-line under-way">
            <span className="receive-name">{t.receive.sending(nameOf(body).name)}</span>
          </li>
        ))}
        {lines.map((line) => (
          <LineView key={line.id} line={line} isNewest={line.id === receiving.newestId} />
        ))}
      </ol>
    </section>
  );
}

/** The last step of receiving: a label for every container that came. */
function PrintLabels({ lines }: { lines: readonly Line[] }): ReactNode {
  const { print: t } = useTexts().labels;
  const made = lines.flatMap(({ product, containers }) =>
    containers.map(({ id }) => ({ id, kind: product.kind })),
  );
  // A run has room for so many; those received first come first.
  const next = made.toReversed().slice(0, mostLabels);
  if (next.length === 0) return null;
  return (
    <PrintButton
      kind="main"
      subjects={next.map(({ id }) => ({ kind: "container", id }))}
      size={sizeFor(next.map(({ kind }) => kind))}
    >
      {t.send(next.length)}
    </PrintButton>
  );
}

function useSums(lines: readonly Line[]): string {
  const { sums } = useTexts().receive.delivery;
  const containers = lines.reduce((sum, line) => sum + line.containers.length, 0);
  const products = new Set(lines.map(({ product }) => product.id)).size;
  const shortDated = lines.filter((line) => line.shortDated).length;
  const parts = [sums.containers(containers), sums.products(products)];
  if (shortDated > 0) parts.push(sums.shortDated(shortDated));
  return parts.join(" · ");
}

function LineView({ line, isNewest }: { line: Line; isNewest: boolean }): ReactNode {
  const t = useTexts();
  const texts = t.receive.delivery;
  const { shortDate } = useFormats();
  const { product, lot, useBy, serial, shortDated, containers } = line;
  return (
    <li className={isNewest ? "receive-line newest" : "receive-line"}>
      <Vessel kind={product.kind} filled={false} />
      <div>
        <p className="receive-name">
          <Link to={paths.product(product.id)} className="name-link">
            {product.name}
          </Link>
          {isNewest ? <span className="receive-newest">{texts.newest}</span> : null}
        </p>
        <p>
          {t.common.lot} <strong>{lot}</strong> ·{" "}
          {useBy === null ? texts.noUseBy : `${texts.useBy} ${shortDate(useBy.date)}`}
          {serial === null ? null : ` · ${texts.serial(serial)}`}
        </p>
        {shortDated ? (
          <p className="receive-short">
            <VerdictShape verdict="caution" />
            {texts.shortDated}
          </p>
        ) : null}
      </div>
      <div className="code-labels">
        {containers.map(({ id, code }) => (
          <CodeLabel key={id} id={id} code={code} />
        ))}
      </div>
    </li>
  );
}

function useLineColumns(): readonly Column<Line>[] {
  const { columns } = useTexts().receive.delivery;
  const of = (
    key: keyof typeof columns,
    value: (line: Line) => string | number | null,
  ): Column<Line> => ({ key, label: columns[key], value, show: value });
  return [
    of("product", ({ product }) => product.name),
    of("lot", ({ lot }) => lot),
    of("useBy", ({ useBy }) => useBy?.date ?? null),
    of("serial", ({ serial }) => serial),
    of("containers", ({ containers }) => containers.length),
    of("codes", ({ containers }) =>
      containers.map(({ code }) => showContainerCode(code)).join(" "),
    ),
    of("at", ({ receivedAt }) => receivedAt),
  ];
}

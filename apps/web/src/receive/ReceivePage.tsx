import { useId, useState, type FormEvent, type ReactNode } from "react";
import { Link, useLocation } from "wouter";
import type { AnswerOf } from "#contracts/operations";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { ScanEntry } from "../scanner/ScanEntry.tsx";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { textsOf, type Scan } from "../scanner/scan.ts";
import { playSound } from "../scanner/sounds.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { TextField } from "../ui/Field.tsx";
import { Page } from "../ui/Page.tsx";
import { EmptyState, fieldError, ProblemNote, QueryView } from "../ui/States.tsx";
import { Table } from "../ui/Table.tsx";
import { keepAttempts, makeAttempt, makeConflict, type Attempt } from "./attempts.ts";
import { PackButton } from "./PackDialog.tsx";
import { PackFields } from "./PackFields.tsx";
import { useOwnCode } from "./useOwnCode.ts";
import type { PackBody } from "./usePackReading.ts";
import { usePlace } from "./usePlace.ts";
import "./receive.css";

type Delivery = AnswerOf<"listDeliveries">["deliveries"][number];

/** Where receiving begins: with a scan, or with the supplier's name; and what came before. */
export default function ReceivePage(): ReactNode {
  const t = useTexts();
  const deliveries = useRead("listDeliveries");
  return (
    <Page title={t.receive.title} lead={t.receive.lead}>
      <BeginDelivery known={deliveries.data?.deliveries ?? []} />
      <section className="panel">
        <h2>{t.receive.past.title}</h2>
        <QueryView query={deliveries}>
          {({ deliveries: found }) =>
            found.length === 0 ? (
              <EmptyState text={t.receive.past.empty} />
            ) : (
              <PastDeliveries deliveries={found} />
            )
          }
        </QueryView>
      </section>
    </Page>
  );
}

function BeginDelivery({ known }: { known: readonly Delivery[] }): ReactNode {
  const t = useTexts();
  const { begin } = t.receive;
  const listId = useId();
  const { place, places, withPlace, choose } = usePlace();
  const [supplier, setSupplier] = useState("");
  const [note, setNote] = useState("");
  const [quantity, setQuantity] = useState(1);
  const open = useOpenDelivery();
  const takeOwnCode = useOwnCode();
  const told = { supplier: supplier.trim(), note: note.trim() };
  useScanTarget((scan: Scan) => {
    if (takeOwnCode(scan)) return;
    playSound("taken");
    beginWith(makeAttempt, textsOf(scan));
  }, t.receive.scanTargetStart);
  function beginWith(make: typeof makeAttempt, pack: PackBody): void {
    withPlace(({ id: locationId }) => open.begin(told, make({ ...pack, locationId, quantity })));
  }
  function submit(event: FormEvent): void {
    event.preventDefault();
    open.begin(told, null);
  }
  const suppliers = [...new Set(known.map((delivery) => delivery.supplier))].filter(Boolean);
  return (
    <section className="panel receive-begin">
      <form className="form" onSubmit={submit}>
        <h2>{begin.title}</h2>
        <TextField
          label={begin.supplier}
          value={supplier}
          list={listId}
          maxLength={200}
          autoComplete="off"
          error={fieldError(open.error, "supplier")}
          onChange={(event) => setSupplier(event.target.value)}
        />
        <datalist id={listId}>
          {suppliers.map((name) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </datalist>
        <TextField
          label={begin.note}
          hint={begin.noteHint}
          value={note}
          maxLength={500}
          autoComplete="off"
          onChange={(event) => setNote(event.target.value)}
        />
        <ProblemNote error={open.error} />
        <Button type="submit" kind="main" busy={open.isPending}>
          {begin.button}
        </Button>
      </form>
      <div className="form">
        <PackFields {...{ place, places, quantity }} onPlace={choose} onQuantity={setQuantity} />
        <ScanEntry />
        <PackButton
          onReceive={(pack) => beginWith(makeAttempt, pack)}
          onSetAside={(pack) => beginWith(makeConflict, pack)}
        />
      </div>
    </section>
  );
}

/** Opens a delivery; the pack whose scan began it is received on the delivery's own page. */
function useOpenDelivery() {
  const [, navigate] = useLocation();
  const refresh = useRefresh();
  const open = useWrite("openDelivery");
  return {
    error: open.error,
    isPending: open.isPending,
    begin: (told: { supplier: string; note: string }, first: Attempt | null) => {
      if (open.isPending) return;
      open.mutate(
        { body: told },
        {
          onSuccess: ({ id }) => {
            if (first !== null) keepAttempts(id, [first]);
            refresh("listDeliveries");
            navigate(paths.delivery(id));
          },
        },
      );
    },
  };
}

function PastDeliveries({ deliveries }: { deliveries: readonly Delivery[] }): ReactNode {
  const { past } = useTexts().receive;
  const { dateTime } = useFormats();
  return (
    <Table
      caption={past.title}
      rows={deliveries}
      rowKey={({ id }) => id}
      exportName="deliveries"
      columns={[
        {
          key: "date",
          label: past.columns.date,
          value: ({ receivedAt }) => receivedAt,
          show: ({ id, receivedAt }) => (
            <Link to={paths.delivery(id)} className="name-link">
              {dateTime(receivedAt)}
            </Link>
          ),
        },
        {
          key: "supplier",
          label: past.columns.supplier,
          value: ({ supplier }) => supplier,
          show: ({ supplier }) =>
            supplier === "" ? <span className="soft">{past.noSupplier}</span> : supplier,
        },
        {
          key: "note",
          label: past.columns.note,
          value: ({ note }) => note,
          show: ({ note }) => note,
        },
        {
          key: "by",
          label: past.columns.by,
          value: ({ receivedBy }) => receivedBy,
          show: ({ receivedBy }) => receivedBy,
        },
        {
          key: "lines",
          label: past.columns.lines,
          value: ({ lines }) => lines,
          show: ({ lines }) => lines,
          numeric: true,
        },
      ]}
    />
  );
}

import { useState, type ReactNode } from "react";
import { useRead } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { ScanEntry } from "../scanner/ScanEntry.tsx";
import { useScanTarget } from "../scanner/ScanProvider.tsx";
import { textsOf } from "../scanner/scan.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { LinkButton } from "../ui/Button.tsx";
import { Page } from "../ui/Page.tsx";
import { QueryView } from "../ui/States.tsx";
import type { Attempt } from "./attempts.ts";
import { CompleteDialog } from "./CompleteDialog.tsx";
import { NotPutAway } from "./NotPutAway.tsx";
import { PackButton, PackDialog } from "./PackDialog.tsx";
import { PackFields } from "./PackFields.tsx";
import { ReceivedLines, type Delivery } from "./ReceivedLines.tsx";
import { RegisterDialog } from "./RegisterDialog.tsx";
import { useOwnCode } from "./useOwnCode.ts";
import { labelsOf } from "./usePackReading.ts";
import { usePlace } from "./usePlace.ts";
import { useReceiving, type Receiving } from "./useReceiving.ts";
import "./receive.css";

/** A delivery: what is read comes in at the left, what may not come in stands on top. */
export default function DeliveryPage({ deliveryId }: { deliveryId: string }): ReactNode {
  const query = useRead("getDelivery", { params: { deliveryId } });
  return <QueryView query={query}>{(delivery) => <DeliveryView delivery={delivery} />}</QueryView>;
}

function DeliveryView({ delivery }: { delivery: Delivery }): ReactNode {
  const t = useTexts();
  const { dateTime } = useFormats();
  const { place, places, withPlace, choose } = usePlace();
  const [quantity, setQuantity] = useState(1);
  const [shown, show] = useState<Attempt | null>(null);
  const takeOwnCode = useOwnCode();
  const receiving = useReceiving(delivery.id, (attempt) => {
    const opens = ["label-incomplete", "unknown-identifier"];
    if (opens.includes(attempt.refusal?.code ?? "")) show((before) => before ?? attempt);
  });
  useScanTarget((scan) => {
    if (takeOwnCode(scan)) return;
    withPlace(({ id: locationId }) =>
      receiving.receive({ ...textsOf(scan), locationId, quantity }),
    );
    setQuantity(1);
  }, t.receive.scanTarget);
  const { supplier, note, receivedBy, receivedAt } = delivery;
  const lead = t.receive.delivery.lead(receivedBy, dateTime(receivedAt));
  return (
    <Page
      title={supplier === "" ? t.receive.delivery.titlePlain : t.receive.delivery.title(supplier)}
      lead={note === "" ? lead : `${lead} · ${note}`}
      actions={<LinkButton to={paths.receive()}>{t.receive.delivery.another}</LinkButton>}
    >
      <NotPutAway receiving={receiving} onOpen={show} />
      <div className="receive-sides">
        <ReceivedLines delivery={delivery} receiving={receiving} />
        <section className="panel receive-next">
          <div className="form">
            <PackFields
              {...{ place, places, quantity }}
              onPlace={choose}
              onQuantity={setQuantity}
            />
            <ScanEntry />
            <PackButton
              onReceive={(pack) => {
                withPlace(({ id: locationId }) =>
                  receiving.receive({ ...pack, locationId, quantity }),
                );
                setQuantity(1);
              }}
              onSetAside={(pack) =>
                withPlace(({ id: locationId }) =>
                  receiving.setAside({ ...pack, locationId, quantity }),
                )
              }
            />
          </div>
        </section>
      </div>
      <SettleDialog attempt={shown} onClose={() => show(null)} receiving={receiving} />
    </Page>
  );
}

interface SettleDialogProps {
  attempt: Attempt | null;
  onClose: () => void;
  receiving: Receiving;
}

/** What settles a refused pack in one go: the rest of its label, or its registration. */
function SettleDialog({ attempt, onClose, receiving }: SettleDialogProps): ReactNode {
  if (attempt === null) return null;
  const again = (change: Partial<Attempt["body"]> = {}) => {
    receiving.retry(attempt.key, change);
    onClose();
  };
  if (attempt.refusal?.code === "pack-conflict") {
    return (
      <PackDialog
        labels={labelsOf(attempt.body)}
        onClose={onClose}
        onReceive={again}
        onSetAside={onClose}
      />
    );
  }
  if (attempt.refusal?.code === "unknown-identifier") {
    return <RegisterDialog attempt={attempt} onClose={onClose} onRegistered={() => again()} />;
  }
  return <CompleteDialog attempt={attempt} onClose={onClose} onComplete={again} />;
}

import type { ReactNode } from "react";
import { showContainerCode } from "#domain";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Vessel } from "../ui/Vessel.tsx";
import type { PendingScan, TrayItem } from "./columns.ts";

interface ContainerCardProps {
  item: TrayItem;
  onRemove: ((item: TrayItem) => void) | null;
}

/** A scanned container in its place, with the last day of its use. */
export function ContainerCard({ item, onRemove }: ContainerCardProps): ReactNode {
  const t = useTexts();
  const { shortDate } = useFormats();
  const { container, productName, reading } = item;
  const name = productName ?? reading.identifier?.value ?? reading.lot ?? item.barcode;
  const end = container?.endsOn?.date ?? reading.useBy?.date;
  const lot = container?.lot ?? reading.lot;
  return (
    <div className="card">
      {container === null ? null : <Vessel kind={container.product.kind} filled />}
      <p className="card-name">{name}</p>
      <p className="card-end">
        {end === undefined ? t.common.noEnd : t.common.ends(shortDate(end))}
      </p>
      <p className="card-more">
        {container === null ? null : (
          <span className="code">{showContainerCode(container.code)}</span>
        )}{" "}
        {lot === null ? null : (
          <span>
            {t.common.lot} {lot}
          </span>
        )}
      </p>
      {onRemove === null ? null : (
        <button
          type="button"
          className="card-remove"
          aria-label={`${t.common.remove}: ${name}`}
          onClick={() => onRemove(item)}
        >
          <svg viewBox="0 0 16 16" aria-hidden="true">
            <path d="M3 3 L13 13 M13 3 L3 13" stroke="currentColor" strokeWidth="2" />
          </svg>
        </button>
      )}
    </div>
  );
}

/** A scan that the server has not yet answered. */
export function PendingCard({ scan }: { scan: PendingScan }): ReactNode {
  const t = useTexts();
  return (
    <div className="card pending">
      <p className="card-name">{scan.name}</p>
      <p className="card-more">{scan.detail}</p>
      <p className="card-wait">{scan.late ? t.tray.notChecked : t.tray.checking}</p>
    </div>
  );
}

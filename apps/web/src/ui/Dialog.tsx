import { useEffect, useId, useRef, type ReactNode, type RefObject } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "./Button.tsx";

interface DialogProps {
  title: string;
  onClose: () => void;
  children?: ReactNode;
  /** Buttons below; the way out is always there. */
  actions?: ReactNode;
  wide?: boolean;
  /** What the way out is called; "Close" unless something would be lost. */
  closeLabel?: string;
}

/** A native modal dialog, open as long as it is rendered. Escape and a tap beside it close it. */
export function Dialog({
  title,
  onClose,
  children,
  actions,
  wide = false,
  closeLabel,
}: DialogProps) {
  const t = useTexts();
  const titleId = useId();
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const element = dialog.current;
    if (element !== null && !element.open) element.showModal();
    return () => element?.close();
  }, []);
  useCloseBeside(dialog, onClose);
  return (
    <dialog
      ref={dialog}
      className={wide ? "dialog wide" : "dialog"}
      aria-labelledby={titleId}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
    >
      <div className="dialog-body">
        <h2 id={titleId} tabIndex={-1} autoFocus>
          {title}
        </h2>
        {children}
        <div className="actions dialog-actions">
          {actions}
          <Button kind="quiet" onClick={onClose}>
            {closeLabel ?? t.common.close}
          </Button>
        </div>
      </div>
    </dialog>
  );
}

/** A tap on the dimmed page beside the dialog closes it; the keyboard has Escape for that. */
function useCloseBeside(dialog: RefObject<HTMLDialogElement | null>, onClose: () => void): void {
  useEffect(() => {
    const element = dialog.current;
    const close = (event: MouseEvent) => {
      if (event.target === element) onClose();
    };
    element?.addEventListener("click", close);
    return () => element?.removeEventListener("click", close);
  }, [dialog, onClose]);
}

interface AskProps {
  title: string;
  text: string;
  yes: string;
  onYes: () => void;
  onNo: () => void;
  busy?: boolean;
}

/** Asks once before something that cannot be undone, naming what. */
export function Ask({ title, text, yes, onYes, onNo, busy = false }: AskProps): ReactNode {
  const t = useTexts();
  return (
    <Dialog
      title={title}
      onClose={onNo}
      closeLabel={t.common.cancel}
      actions={
        <Button kind="danger" busy={busy} onClick={onYes}>
          {yes}
        </Button>
      }
    >
      <p>{text}</p>
    </Dialog>
  );
}

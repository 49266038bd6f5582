import { useState, type ReactNode } from "react";
import { CameraButton } from "../camera/CameraButton.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { useScanEntry } from "./ScanProvider.tsx";

interface ScanEntryProps {
  /** A dialog needs the camera's button as well: the one in the header is out of reach. */
  withCamera?: boolean;
}

/** Where a scan goes, and a field for a code typed or pasted: for days without a scanner. */
export function ScanEntry({ withCamera = false }: ScanEntryProps): ReactNode {
  const t = useTexts();
  const { targetLabel, enter } = useScanEntry();
  const [text, setText] = useState("");
  return (
    <form
      className={withCamera ? "scan-entry with-camera" : "scan-entry"}
      onSubmit={(event) => {
        event.preventDefault();
        const raw = text.trim();
        if (raw === "") return;
        setText("");
        enter(raw);
      }}
    >
      <p className="scan-target">{targetLabel === null ? null : t.scan.goesTo(targetLabel)}</p>
      <input
        className="input code"
        aria-label={t.scan.field}
        placeholder={t.scan.noScanner}
        value={text}
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        enterKeyHint="send"
        onChange={(event) => setText(event.target.value)}
      />
      <Button type="submit">{t.scan.send}</Button>
      {withCamera ? <CameraButton /> : null}
    </form>
  );
}

import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";

interface DeskActsProps {
  of: "printers" | "sheets";
  name: string;
  onChange: () => void;
  onRemove: () => void;
}

/** What the desk does with a printer or a sheet of its own. */
export function DeskActs({ of, name, onChange, onRemove }: DeskActsProps): ReactNode {
  const t = useTexts().labels[of];
  return (
    <>
      <Button aria-label={t.changeOf(name)} onClick={onChange}>
        {t.change}
      </Button>
      <Button kind="quiet" className="small" aria-label={t.remove(name)} onClick={onRemove}>
        ✕
      </Button>
    </>
  );
}

import { useState, type ReactNode } from "react";
import { showOwnCode } from "#domain";
import type { ScannedPlace } from "../scanner/OwnCodes.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import type { Container } from "../ui/ContainerWords.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { ProblemNote } from "../ui/States.tsx";
import { isShelf } from "./put-away.ts";
import { useMoveAll } from "./usePutAway.ts";

interface MoveHereProps {
  container: Container;
  place: ScannedPlace;
  onClose: () => void;
}

/** A place scanned on a container's page: asks whether the container goes there. */
export function MoveHere({ container, place, onClose }: MoveHereProps): ReactNode {
  const { common, labels } = useTexts();
  const t = labels.putAway;
  const moveAll = useMoveAll();
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<unknown>(null);
  const code = showOwnCode(container.code);
  if (!isShelf(place)) return <Dialog title={t.notThere(place.name)} onClose={onClose} />;
  if (place.id === container.location.id) {
    return <Dialog title={t.isThere(code, place.name)} onClose={onClose} />;
  }
  async function move(): Promise<void> {
    setBusy(true);
    const failed = await moveAll([container], place);
    setBusy(false);
    setError(failed.get(container.id) ?? null);
    if (failed.size === 0) onClose();
  }
  return (
    <Dialog
      title={t.moveHere(code, place.name)}
      onClose={onClose}
      closeLabel={common.cancel}
      actions={
        <Button kind="main" busy={busy} onClick={() => void move()}>
          {t.moveButton}
        </Button>
      }
    >
      <ProblemNote error={error} />
    </Dialog>
  );
}

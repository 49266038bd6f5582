import { useState, type ReactNode } from "react";
import type { ContainerState } from "#domain";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import type { Container } from "../ui/ContainerWords.tsx";
import { MoveDialog, type MoveReason } from "./MoveDialog.tsx";
import { OpenDialog } from "./OpenDialog.tsx";

type Act = "open" | MoveReason;

// What can be done follows from the state; what has left the practice can only be brought back by
// undoing the movement that took it away.
const actsOf: Readonly<Record<ContainerState, readonly Act[]>> = {
  sealed: ["open", "moved", "used-up", "discarded", "quarantined", "returned", "lost"],
  open: ["used-up", "moved", "discarded", "quarantined", "returned", "lost"],
  quarantined: ["released", "discarded", "returned", "lost"],
  empty: [],
  discarded: [],
  returned: [],
  lost: [],
};

/** The act that is due comes first: what is withdrawn is set apart, what is past is discarded. */
function orderActs({ state, withdrawn, endsOn }: Container, today: string): readonly Act[] {
  const acts = actsOf[state];
  const isPast = endsOn !== null && endsOn.date < today;
  const due: Act | null = withdrawn ? "quarantined" : isPast ? "discarded" : null;
  if (due === null || !acts.includes(due)) return acts;
  return [due, ...acts.filter((one) => one !== due)];
}

/** What somebody standing before the shelf may do with a container now. */
export function ContainerActs({ container }: { container: Container }): ReactNode {
  const { acts: names } = useTexts().shelf;
  const [acting, act] = useState<Act | null>(null);
  const labels: Readonly<Record<Act, string>> = {
    open: names.open,
    moved: names.move,
    quarantined: names.quarantine,
    released: names.release,
    "used-up": names.usedUp,
    discarded: names.discard,
    returned: names.returned,
    lost: names.lost,
  };
  const { today } = useFormats();
  const acts = orderActs(container, today());
  const close = () => act(null);
  return (
    <>
      <div className="actions">
        {acts.map((one, place) => (
          <Button key={one} kind={place === 0 ? "main" : "plain"} onClick={() => act(one)}>
            {labels[one]}
          </Button>
        ))}
      </div>
      {acting === "open" ? <OpenDialog container={container} onClose={close} /> : null}
      {acting === null || acting === "open" ? null : (
        <MoveDialog container={container} reason={acting} onClose={close} />
      )}
    </>
  );
}

import { useState, type FormEvent, type ReactNode } from "react";
import { showContainerCode, type LocationKind } from "#domain";
import type { AnswerOf } from "#contracts/operations";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import type { Container } from "../ui/ContainerWords.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { Choice, TextField } from "../ui/Field.tsx";
import { ProblemNote, QueryView } from "../ui/States.tsx";

export type MoveReason =
  | "moved"
  | "quarantined"
  | "released"
  | "used-up"
  | "discarded"
  | "returned"
  | "lost";
type Place = AnswerOf<"listLocations">["locations"][number];

const shelves: readonly LocationKind[] = ["operatory", "refrigerator", "store"];
const kindsOf: Readonly<Record<MoveReason, readonly LocationKind[]>> = {
  moved: shelves,
  released: shelves,
  quarantined: ["quarantine"],
  "used-up": ["used"],
  discarded: ["discarded"],
  returned: ["returned"],
  lost: ["lost"],
};
// Where a reason must be said; elsewhere a note may be.
const whysOf = {
  discarded: ["past", "damaged", "contaminated", "stored", "withdrawn", "other"],
  returned: ["withdrawn", "damaged", "past", "surplus", "other"],
  quarantined: ["withdrawn", "stored", "damaged", "inquiry", "other"],
  released: ["settled", "other"],
  moved: [],
  "used-up": [],
  lost: [],
} as const;
type Why = (typeof whysOf)[MoveReason][number];

interface MoveDialogProps {
  container: Container;
  reason: MoveReason;
  onClose: () => void;
}

/** A movement of one container: where to, and why. */
export function MoveDialog({ container, reason, onClose }: MoveDialogProps): ReactNode {
  const t = useTexts();
  const locations = useRead("listLocations", {}, { staleMs: 300_000 });
  const code = showContainerCode(container.code);
  return (
    <Dialog
      title={t.shelf.moving.titles[reason](code)}
      onClose={onClose}
      closeLabel={t.common.cancel}
    >
      <QueryView query={locations}>
        {({ locations: all }) => {
          const places = all.filter(
            ({ id, kind }) => kindsOf[reason].includes(kind) && id !== container.location.id,
          );
          if (places.length === 0) return <p>{t.shelf.moving.noPlace}</p>;
          return <MoveForm {...{ container, reason, onClose, places }} />;
        }}
      </QueryView>
    </Dialog>
  );
}

interface MoveFormProps extends MoveDialogProps {
  places: readonly Place[];
}

function MoveForm({ container, reason, onClose, places }: MoveFormProps): ReactNode {
  const { moving } = useTexts().shelf;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [placeId, setPlaceId] = useState(places.length === 1 ? (places[0]?.id ?? null) : null);
  const [why, setWhy] = useState<Why | null>(null);
  const [words, setWords] = useState("");
  const [tried, setTried] = useState(false);
  const move = useWrite("move", ({ movement }) => {
    refresh("getContainer", "listContainers", "getToday", "traceStock", "getTray");
    announce({ text: moving.done(showContainerCode(container.code), movement.to) });
    onClose();
  });
  const whys = whysOf[reason];
  const isSaid =
    whys.length === 0 || (why !== null && (why !== "other" || words.trim().length >= 3));
  function submit(event: FormEvent): void {
    event.preventDefault();
    setTried(true);
    if (placeId === null || !isSaid) return;
    const said = why === null || why === "other" ? "" : moving.whys[why];
    const note = [said, words.trim()].filter((part) => part !== "").join(": ");
    const where = { fromLocationId: container.location.id, toLocationId: placeId };
    move.mutate({ body: { containerId: container.id, ...where, reason, note } });
  }
  return (
    <form className="form" onSubmit={submit}>
      {places.length === 1 ? null : (
        <Choice
          label={moving.to}
          value={placeId}
          options={places.map(({ id, name }) => ({ value: id, label: name }))}
          onChoose={setPlaceId}
        />
      )}
      {whys.length === 0 ? null : (
        <Choice<Why>
          label={moving.reason}
          value={why}
          options={whys.map((value) => ({ value, label: moving.whys[value] }))}
          onChoose={setWhy}
        />
      )}
      <TextField
        label={whys.length === 0 ? moving.note : moving.reasonInWords}
        value={words}
        required={why === "other"}
        maxLength={500}
        autoComplete="off"
        error={tried && !isSaid ? moving.reasonMissing : undefined}
        onChange={(event) => setWords(event.target.value)}
      />
      <ProblemNote error={move.error} />
      <Button
        kind={reason === "discarded" || reason === "lost" ? "danger" : "main"}
        type="submit"
        busy={move.isPending}
        disabled={placeId === null}
      >
        {moving.buttons[reason]}
      </Button>
    </form>
  );
}

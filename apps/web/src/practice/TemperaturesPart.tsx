import { useState, type ReactNode } from "react";
import { formatNumber } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { useHasRole } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { TextArea } from "../ui/Field.tsx";
import { EmptyState, ProblemNote, QueryView } from "../ui/States.tsx";
import { VerdictShape } from "../ui/Verdict.tsx";
import { ExcursionDialog } from "./ExcursionDialog.tsx";
import "./lights.css";

type Excursion = AnswerOf<"listExcursions">["excursions"][number];

/** Where it was too cold or too warm, what stood there, and what was decided. */
export function TemperaturesPart(): ReactNode {
  const { temperatures: t } = useTexts().keeping;
  const query = useRead("listExcursions");
  const [isOpen, open] = useState(false);
  const [settled, settle] = useState<Excursion | null>(null);
  return (
    <>
      <p className="lead">{t.lead}</p>
      <div className="actions">
        <Button kind="main" onClick={() => open(true)}>
          {t.open}
        </Button>
      </div>
      <QueryView query={query}>
        {({ excursions }) =>
          excursions.length === 0 ? (
            <EmptyState text={t.none} />
          ) : (
            <ul className="excursion-list">
              {excursions.map((one) => (
                <ExcursionLine key={one.id} excursion={one} onSettle={() => settle(one)} />
              ))}
            </ul>
          )
        }
      </QueryView>
      {isOpen ? <ExcursionDialog onClose={() => open(false)} /> : null}
      {settled === null ? null : <SettleDialog excursion={settled} onClose={() => settle(null)} />}
    </>
  );
}

interface ExcursionLineProps {
  excursion: Excursion;
  onSettle: () => void;
}

function ExcursionLine({ excursion, onSettle }: ExcursionLineProps): ReactNode {
  const { temperatures: t } = useTexts().keeping;
  const { language, dateTime } = useFormats();
  const decides = useHasRole("dentist", "owner");
  const { location, from, to, lowestC, highestC, note, containers, resolved } = excursion;
  const degrees = [lowestC, highestC].flatMap((value) =>
    value === null ? [] : t.degrees(formatNumber(language, value)),
  );
  const words = [t.span(dateTime(from), dateTime(to)), degrees.join(" – "), t.touched(containers)];
  return (
    <li className="panel" aria-label={location.name}>
      <div className="panel-head">
        <div>
          <h2>{location.name}</h2>
          <p className={resolved === null ? "light-state due" : "light-state good"}>
            <VerdictShape verdict={resolved === null ? "caution" : "clear"} />
            <strong>
              {resolved === null ? t.openState : t.settled(resolved.by, dateTime(resolved.at))}
            </strong>
          </p>
        </div>
        {resolved === null && decides ? <Button onClick={onSettle}>{t.settle}</Button> : null}
      </div>
      <p>{words.join(" · ")}</p>
      {note === "" ? null : <p className="hint">{note}</p>}
      {resolved === null ? null : <p>{resolved.resolution}</p>}
      {resolved === null && !decides ? <p className="hint">{t.dentistDecides}</p> : null}
    </li>
  );
}

interface SettleDialogProps {
  excursion: Excursion;
  onClose: () => void;
}

function SettleDialog({ excursion, onClose }: SettleDialogProps): ReactNode {
  const { keeping, common } = useTexts();
  const { temperatures: t } = keeping;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [resolution, setResolution] = useState("");
  const save = useWrite("resolveExcursion", () => {
    refresh("listExcursions", "getTray", "getToday");
    announce({ text: t.decided });
    onClose();
  });
  return (
    <Dialog
      title={t.settleTitle(excursion.location.name)}
      onClose={onClose}
      closeLabel={common.cancel}
    >
      <p>{t.settleText}</p>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          save.mutate({ params: { excursionId: excursion.id }, body: { resolution } });
        }}
      >
        <TextArea
          label={t.decision}
          value={resolution}
          minLength={5}
          maxLength={2000}
          required
          onChange={({ target }) => setResolution(target.value)}
        />
        <ProblemNote error={save.error} />
        <Button
          kind="main"
          type="submit"
          busy={save.isPending}
          disabled={resolution.trim().length < 5}
        >
          {t.settle}
        </Button>
      </form>
    </Dialog>
  );
}

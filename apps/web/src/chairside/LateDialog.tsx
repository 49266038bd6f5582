import { useState, type ReactNode } from "react";
import { clockAt, instantOfClock } from "#domain";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { TextField } from "../ui/Field.tsx";
import { ProblemNote } from "../ui/States.tsx";

interface LateDialogProps {
  appointmentAt: string;
  busy: boolean;
  error: unknown;
  onStart: (happenedAt: string) => void;
  onClose: () => void;
}

/** When priming began that was written on paper: kept beside the time of telling. */
export function LateDialog(props: LateDialogProps): ReactNode {
  const { appointmentAt, busy, error, onStart, onClose } = props;
  const { chairside: t, common } = useTexts();
  const { timeZone } = useFormats();
  const [told, setTold] = useState(() => clockAt(appointmentAt, timeZone));
  const happenedAt = instantOfClock(told.day, told.time, timeZone);
  return (
    <Dialog title={t.lateTitle} onClose={onClose} closeLabel={common.cancel}>
      <p>{t.lateLead}</p>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          if (happenedAt !== null) onStart(happenedAt);
        }}
      >
        <div className="pair">
          <TextField
            label={t.lateDay}
            type="date"
            value={told.day}
            required
            onChange={({ target }) => setTold({ ...told, day: target.value })}
          />
          <TextField
            label={t.lateTime}
            type="time"
            value={told.time}
            required
            onChange={({ target }) => setTold({ ...told, time: target.value })}
          />
        </div>
        <ProblemNote error={error} />
        <Button
          kind="main"
          type="submit"
          className="big"
          busy={busy}
          disabled={happenedAt === null}
        >
          {t.lateStart}
        </Button>
      </form>
    </Dialog>
  );
}

import { useState, type ReactNode } from "react";
import { sayProblem } from "#texts";
import { useSession } from "../session/session.ts";
import { useLanguage, useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { Ask, Dialog } from "../ui/Dialog.tsx";
import type { OutboxEntry } from "./entry.ts";
import { useOutboxActions, useOutboxEntries } from "./OutboxProvider.tsx";

/** How much is not yet confirmed; always seen while there is something. */
export function OutboxStatus(): ReactNode {
  const t = useTexts();
  const entries = useOutboxEntries();
  const [isOpen, open] = useState(false);
  const refused = entries.filter((entry) => entry.refused !== null).length;
  const waiting = entries.length - refused;
  return (
    <>
      <div role="status" className="outbox-status">
        {entries.length === 0 ? null : (
          <button
            type="button"
            className={refused > 0 ? "pill bad" : "pill look"}
            aria-haspopup="dialog"
            onClick={() => open(true)}
          >
            {waiting > 0 ? <span>{t.outbox.waiting(waiting)}</span> : null}
            {refused > 0 ? <span>{t.outbox.toSettle(refused)}</span> : null}
          </button>
        )}
      </div>
      {isOpen ? <OutboxDialog entries={entries} onClose={() => open(false)} /> : null}
    </>
  );
}

interface OutboxDialogProps {
  entries: readonly OutboxEntry[];
  onClose: () => void;
}

function OutboxDialog({ entries, onClose }: OutboxDialogProps): ReactNode {
  const t = useTexts();
  const { lasting, sendNow } = useOutboxActions();
  return (
    <Dialog
      title={t.outbox.title}
      onClose={onClose}
      wide
      actions={
        entries.length === 0 ? null : (
          <Button kind="main" onClick={() => void sendNow()}>
            {t.outbox.sendNow}
          </Button>
        )
      }
    >
      <p>{entries.length === 0 ? t.outbox.allSent : t.outbox.lead}</p>
      {lasting ? null : <p className="problem">{t.outbox.notLasting}</p>}
      <ul className="rows">
        {entries.map((entry) => (
          <EntryRow key={entry.key} entry={entry} />
        ))}
      </ul>
    </Dialog>
  );
}

function EntryRow({ entry }: { entry: OutboxEntry }): ReactNode {
  const t = useTexts();
  const { language } = useLanguage();
  const { dateTime } = useFormats();
  const session = useSession();
  const { sendAgain, letGo } = useOutboxActions();
  const [asks, ask] = useState(false);
  const kinds: Readonly<Record<string, string>> = t.outbox.kinds;
  const { refused } = entry;
  const isOwn = entry.personId === session?.person.id;
  return (
    <li className="row">
      <div>
        <p className="row-title">{entry.about}</p>
        <p className="hint">
          {kinds[entry.route] ?? entry.route} · {dateTime(entry.at)} · {entry.personName}
        </p>
        {refused ? (
          <p className="field-error">
            {t.outbox.refused}: {sayProblem(language, refused.code)} {refused.detail}
          </p>
        ) : null}
        {isOwn ? null : <p className="hint">{t.outbox.waitingFor(entry.personName)}</p>}
      </div>
      {refused ? (
        <div className="actions">
          {isOwn ? (
            <Button onClick={() => void sendAgain(entry.key)}>{t.outbox.sendAgain}</Button>
          ) : null}
          <Button kind="quiet" onClick={() => ask(true)}>
            {t.outbox.noted}
          </Button>
        </div>
      ) : null}
      {asks ? (
        <Ask
          title={t.outbox.letGoTitle}
          text={t.outbox.letGoText(entry.about)}
          yes={t.outbox.letGo}
          onYes={() => void letGo(entry.key)}
          onNo={() => ask(false)}
        />
      ) : null}
    </li>
  );
}

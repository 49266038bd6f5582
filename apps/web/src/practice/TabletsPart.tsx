import { useState, type FormEvent, type ReactNode } from "react";
import type { AnswerOf } from "#contracts/operations";
import { useRead, useRefresh, useWrite } from "../api/queries.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Ask } from "../ui/Dialog.tsx";
import { TextField } from "../ui/Field.tsx";
import { EmptyState, fieldError, ProblemNote, QueryView } from "../ui/States.tsx";
import { Table } from "../ui/Table.tsx";

type Device = AnswerOf<"listDevices">["devices"][number];

/** The registered tablets: this device can be made one, and any can lose its registration. */
export function TabletsPart(): ReactNode {
  const { tablets: t } = useTexts().practice;
  // Asked of the device itself: a session begun before the registration does not know of it.
  const here = useRead("listDevicePeople");
  const query = useRead("listDevices");
  return (
    <>
      <p className="lead">{t.lead}</p>
      <section className="panel">
        <QueryView query={here}>
          {({ device }) =>
            device === null ? (
              <>
                <p>{t.notThis}</p>
                <RegisterForm />
              </>
            ) : (
              <p>{t.thisOne(device.name)}</p>
            )
          }
        </QueryView>
      </section>
      <QueryView query={query}>
        {({ devices }) =>
          devices.length === 0 ? <EmptyState text={t.empty} /> : <DeviceTable devices={devices} />
        }
      </QueryView>
    </>
  );
}

function RegisterForm(): ReactNode {
  const { tablets: t } = useTexts().practice;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const [name, setName] = useState("");
  const register = useWrite("registerDevice", (device) => {
    refresh("listDevices", "listDevicePeople");
    announce({ text: t.registered(device.name) });
  });
  function submit(event: FormEvent): void {
    event.preventDefault();
    register.mutate({ body: { name: name.trim() } });
  }
  return (
    <form className="form" onSubmit={submit}>
      <h2>{t.register}</h2>
      <TextField
        label={t.name}
        hint={t.nameHint}
        value={name}
        required
        maxLength={200}
        autoComplete="off"
        error={fieldError(register.error, "name")}
        onChange={(event) => setName(event.target.value)}
      />
      <ProblemNote error={register.error} />
      <Button kind="main" type="submit" busy={register.isPending}>
        {t.button}
      </Button>
    </form>
  );
}

function DeviceTable({ devices }: { devices: readonly Device[] }): ReactNode {
  const { tablets: t } = useTexts().practice;
  const { dateTime } = useFormats();
  const [revoking, setRevoking] = useState<Device | null>(null);
  return (
    <>
      <Table
        caption={t.lead}
        rows={devices}
        rowKey={({ id }) => id}
        columns={[
          { key: "name", label: t.columns.name, show: ({ name }) => <strong>{name}</strong> },
          {
            key: "registered",
            label: t.columns.registered,
            show: ({ registeredAt }) => dateTime(registeredAt),
          },
          {
            key: "scanner",
            label: t.columns.scanner,
            show: ({ scannerSetUpAt }) =>
              scannerSetUpAt === null ? (
                <span className="soft">{t.scannerUntouched}</span>
              ) : (
                t.scannerSetUp(dateTime(scannerSetUpAt))
              ),
          },
          {
            key: "state",
            label: t.columns.state,
            show: ({ revoked }) => (revoked ? <span className="soft">{t.revoked}</span> : t.active),
          },
          {
            key: "act",
            label: t.columns.act,
            show: (device) =>
              device.revoked ? null : (
                <Button onClick={() => setRevoking(device)}>{t.revoke}</Button>
              ),
          },
        ]}
      />
      {revoking === null ? null : (
        <RevokeDialog device={revoking} onClose={() => setRevoking(null)} />
      )}
    </>
  );
}

function RevokeDialog({ device, onClose }: { device: Device; onClose: () => void }): ReactNode {
  const { tablets: t } = useTexts().practice;
  const announce = useAnnounce();
  const refresh = useRefresh();
  const revoke = useWrite("revokeDevice", () => {
    refresh("listDevices", "listDevicePeople");
    announce({ text: t.revokedDone(device.name) });
    onClose();
  });
  return (
    <Ask
      title={t.revokeTitle(device.name)}
      text={t.revokeText}
      yes={t.revoke}
      busy={revoke.isPending}
      onNo={onClose}
      onYes={() => revoke.mutate({ params: { deviceId: device.id } })}
    />
  );
}

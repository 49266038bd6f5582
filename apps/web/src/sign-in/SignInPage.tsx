import { useState, type FormEvent, type ReactNode } from "react";
import { Redirect, useLocation, useSearch } from "wouter";
import type { AnswerOf } from "#contracts/operations";
import { useRead, useWrite } from "../api/queries.ts";
import { paths, readNext } from "../paths.ts";
import { useTakeSession, type Session } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { TextField } from "../ui/Field.tsx";
import { readText } from "../ui/form-text.ts";
import { Page } from "../ui/Page.tsx";
import { Loading, ProblemNote } from "../ui/States.tsx";
import { DemoAccounts } from "./DemoAccounts.tsx";
import { Door } from "./Door.tsx";
import { PinPad } from "./PinPad.tsx";

type DevicePerson = AnswerOf<"listDevicePeople">["people"][number];

/** Signing in: by PIN on a tablet of the practice, by name and password anywhere. */
export default function SignInPage(): ReactNode {
  const setUp = useRead("getSetUp");
  const device = useRead("listDevicePeople");
  if (setUp.data?.needed) return <Redirect to={paths.setUp()} replace />;
  if (setUp.error) {
    return (
      <Door>
        <ProblemNote error={setUp.error} onRetry={() => void setUp.refetch()} />
      </Door>
    );
  }
  if (setUp.data === undefined || (device.data === undefined && device.error === null)) {
    return (
      <Door>
        <Loading />
      </Door>
    );
  }
  return (
    <SignIn
      device={device.data?.device ?? null}
      people={device.data?.people ?? []}
      isDemonstration={setUp.data.demonstration}
    />
  );
}

interface SignInProps {
  isDemonstration: boolean;
  device: AnswerOf<"listDevicePeople">["device"];
  people: readonly DevicePerson[];
}

function SignIn({ device, people, isDemonstration }: SignInProps): ReactNode {
  const t = useTexts();
  const search = useSearch();
  const [, navigate] = useLocation();
  const takeSession = useTakeSession();
  const [wantsPassword, wantPassword] = useState(people.length === 0);
  const [person, choosePerson] = useState<DevicePerson | null>(null);
  const enter = (session: Session) => {
    takeSession(session);
    navigate(readNext(search), { replace: true });
  };
  const wasElsewhere = new URLSearchParams(search).has("next");
  const title = wantsPassword ? t.signIn.title : t.signIn.whoAreYou;
  return (
    <Door>
      <Page title={title} lead={device === null ? null : t.signIn.onDevice(device.name)}>
        {wasElsewhere && people.length === 0 ? <p className="hint">{t.signIn.ended}</p> : null}
        {wantsPassword && isDemonstration ? <DemoAccounts onEnter={enter} /> : null}
        {wantsPassword ? <PasswordForm onEnter={enter} /> : null}
        {!wantsPassword && person === null ? (
          <PeopleTiles people={people} onChoose={choosePerson} />
        ) : null}
        {!wantsPassword && person !== null ? (
          <PinForm person={person} onEnter={enter} onBack={() => choosePerson(null)} />
        ) : null}
        {people.length === 0 ? null : (
          <Button kind="quiet" onClick={() => wantPassword(!wantsPassword)}>
            {wantsPassword ? t.signIn.withPin : t.signIn.withPassword}
          </Button>
        )}
      </Page>
    </Door>
  );
}

function PasswordForm({ onEnter }: { onEnter: (session: Session) => void }): ReactNode {
  const t = useTexts();
  const signIn = useWrite("signIn", onEnter);
  function submit(event: FormEvent<HTMLFormElement>): void {
    event.preventDefault();
    const form = event.currentTarget;
    const signInName = readText(form, "name");
    signIn.mutate({ body: { signInName, password: readText(form, "password") } });
  }
  return (
    <form className="form" onSubmit={submit}>
      <TextField
        label={t.signIn.name}
        name="name"
        autoComplete="username"
        autoCapitalize="off"
        spellCheck={false}
        required
      />
      <TextField
        label={t.signIn.password}
        name="password"
        type="password"
        autoComplete="current-password"
        required
      />
      <ProblemNote error={signIn.error} />
      <Button kind="main" type="submit" busy={signIn.isPending}>
        {t.signIn.button}
      </Button>
    </form>
  );
}

interface PeopleTilesProps {
  people: readonly DevicePerson[];
  onChoose: (person: DevicePerson) => void;
}

function PeopleTiles({ people, onChoose }: PeopleTilesProps): ReactNode {
  return (
    <div className="people-tiles">
      {people.map((person) => (
        <Button key={person.id} onClick={() => onChoose(person)}>
          {person.displayName}
        </Button>
      ))}
    </div>
  );
}

interface PinFormProps {
  person: DevicePerson;
  onEnter: (session: Session) => void;
  onBack: () => void;
}

function PinForm({ person, onEnter, onBack }: PinFormProps): ReactNode {
  const t = useTexts();
  const takeOver = useWrite("switchPerson", onEnter);
  return (
    <>
      <PinPad
        label={t.signIn.pinFor(person.displayName)}
        button={t.signIn.enter}
        busy={takeOver.isPending}
        onEnter={(pin) => takeOver.mutate({ body: { personId: person.id, pin } })}
      />
      <ProblemNote error={takeOver.error} />
      <Button kind="quiet" onClick={onBack}>
        {t.signIn.otherPerson}
      </Button>
    </>
  );
}

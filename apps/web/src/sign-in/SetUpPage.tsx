import type { FormEvent, ReactNode } from "react";
import { Redirect, useLocation } from "wouter";
import { useRead, useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { useTakeSession } from "../session/session.ts";
import { languages, nameOfLanguage, useLanguage, useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { CheckField, Select, TextField } from "../ui/Field.tsx";
import { readText } from "../ui/form-text.ts";
import { Page } from "../ui/Page.tsx";
import { fieldError, ProblemNote } from "../ui/States.tsx";
import { Door } from "./Door.tsx";

/** The first owner makes the practice, with the code that only who started the server can see. */
export default function SetUpPage(): ReactNode {
  const t = useTexts();
  const state = useRead("getSetUp");
  if (state.data?.needed === false) return <Redirect to={paths.signIn()} replace />;
  return (
    <Door>
      <Page title={t.setUp.title} lead={t.setUp.lead}>
        <SetUpForm />
      </Page>
    </Door>
  );
}

function listTimeZones(): readonly string[] {
  const own = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return [own, ...Intl.supportedValuesOf("timeZone").filter((zone) => zone !== own)];
}

function SetUpForm(): ReactNode {
  const t = useTexts();
  const [, navigate] = useLocation();
  const takeSession = useTakeSession();
  const setUp = useWrite("setUp", (session) => {
    takeSession(session);
    navigate(paths.today(), { replace: true });
  });
  function submit(event: FormEvent<HTMLFormElement>): void {
    event.preventDefault();
    const form = event.currentTarget;
    const text = (name: string) => readText(form, name);
    setUp.mutate({
      body: {
        code: text("code").trim(),
        practiceName: text("practiceName"),
        timeZone: text("timeZone"),
        language: text("language") === "de" ? "de" : "en",
        displayName: text("displayName"),
        signInName: text("signInName"),
        password: text("password"),
        alsoDentist: text("alsoDentist") === "yes",
      },
    });
  }
  return (
    <form className="form" onSubmit={submit}>
      <PracticeFields error={setUp.error} />
      <OwnerFields error={setUp.error} />
      <ProblemNote error={setUp.error} />
      <Button kind="main" type="submit" busy={setUp.isPending}>
        {t.setUp.button}
      </Button>
    </form>
  );
}

function PracticeFields({ error }: { error: unknown }): ReactNode {
  const t = useTexts();
  const { language } = useLanguage();
  return (
    <>
      <TextField
        label={t.setUp.code}
        name="code"
        className="code"
        error={fieldError(error, "code")}
        required
      />
      <TextField
        label={t.setUp.practice}
        name="practiceName"
        error={fieldError(error, "practiceName")}
        required
      />
      <Select label={t.setUp.timeZone} name="timeZone" error={fieldError(error, "timeZone")}>
        {listTimeZones().map((zone) => (
          <option key={zone}>{zone}</option>
        ))}
      </Select>
      <Select label={t.setUp.language} name="language" defaultValue={language}>
        {languages.map((value) => (
          <option key={value} value={value}>
            {nameOfLanguage(value)}
          </option>
        ))}
      </Select>
    </>
  );
}

function OwnerFields({ error }: { error: unknown }): ReactNode {
  const t = useTexts();
  return (
    <>
      <TextField label={t.setUp.yourName} name="displayName" autoComplete="name" required />
      <TextField
        label={t.setUp.signInName}
        hint={t.setUp.signInHint}
        error={fieldError(error, "signInName")}
        name="signInName"
        autoComplete="username"
        autoCapitalize="off"
        required
      />
      <TextField
        label={t.setUp.password}
        hint={t.setUp.passwordHint}
        error={fieldError(error, "password")}
        name="password"
        type="password"
        autoComplete="new-password"
        minLength={8}
        required
      />
      <CheckField label={t.setUp.alsoDentist} name="alsoDentist" value="yes" />
    </>
  );
}

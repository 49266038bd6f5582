import { useState, type FormEvent, type ReactNode } from "react";
import { useLocation } from "wouter";
import { getMessages } from "#texts";
import { useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { playSound, soundsAreOn, switchSounds } from "../scanner/sounds.ts";
import { readMaxGapMs } from "../scanner/useScanner.ts";
import { useSignedIn, useTakeSession } from "../session/session.ts";
import { languages, nameOfLanguage, useLanguage, useTexts } from "../texts/Texts.tsx";
import { useAnnounce } from "../ui/Announcer.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { Choice, TextField } from "../ui/Field.tsx";
import { readText } from "../ui/form-text.ts";
import { remember } from "../ui/remembered.ts";
import { fieldError, ProblemNote } from "../ui/States.tsx";
import { chooseAppearance, readAppearance, type Appearance } from "./appearance.ts";

/** The person signed in and the choices of this device. */
export function Menu({ onClose }: { onClose: () => void }): ReactNode {
  const t = useTexts();
  const { person, practice } = useSignedIn();
  const { language, choose } = useLanguage();
  const [part, show] = useState<"choices" | "pin">("choices");
  const { roles } = getMessages(language);
  if (part === "pin") return <SetPin onClose={onClose} />;
  return (
    <Dialog title={person.displayName} onClose={onClose} actions={<LeaveButtons />}>
      <p className="hint">
        {practice.name} · {t.menu.roles}: {person.roles.map((role) => roles[role]).join(", ")}
      </p>
      <Choice
        label={t.menu.language}
        value={language}
        options={languages.map((value) => ({ value, label: nameOfLanguage(value) }))}
        onChoose={choose}
      />
      <AppearanceChoice />
      <SoundChoice />
      <ScannerChoice />
      <Button onClick={() => show("pin")}>
        {person.hasPin ? t.menu.changePin : t.menu.setPin}
      </Button>
    </Dialog>
  );
}

function LeaveButtons(): ReactNode {
  const t = useTexts();
  const session = useSignedIn();
  const takeSession = useTakeSession();
  const [location, navigate] = useLocation();
  const leave = useWrite("signOut", () => takeSession(null));
  return (
    <>
      {session.device === null ? null : (
        <Button onClick={() => navigate(paths.signIn(location))}>{t.menu.switchPerson}</Button>
      )}
      <Button busy={leave.isPending} onClick={() => leave.mutate({})}>
        {t.menu.signOut}
      </Button>
    </>
  );
}

function AppearanceChoice(): ReactNode {
  const t = useTexts();
  const [appearance, setAppearance] = useState(readAppearance);
  const options: readonly { value: Appearance; label: string }[] = [
    { value: "automatic", label: t.menu.automatic },
    { value: "light", label: t.menu.light },
    { value: "dark", label: t.menu.dark },
  ];
  return (
    <Choice
      label={t.menu.appearance}
      value={appearance}
      options={options}
      onChoose={(next) => {
        chooseAppearance(next);
        setAppearance(next);
      }}
    />
  );
}

function SoundChoice(): ReactNode {
  const t = useTexts();
  const [on, setOn] = useState(soundsAreOn);
  return (
    <Choice
      label={t.menu.sounds}
      value={on ? "on" : "off"}
      options={[
        { value: "on", label: t.menu.soundsOn },
        { value: "off", label: t.menu.soundsOff },
      ]}
      onChoose={(next) => {
        switchSounds(next === "on");
        setOn(next === "on");
        playSound("taken");
      }}
    />
  );
}

const gaps = ["20", "35", "50"] as const;

/** Takes effect with the next loading of the page, when the scanner is listened to afresh. */
function ScannerChoice(): ReactNode {
  const t = useTexts();
  const [gap, setGap] = useState<string>(() => String(readMaxGapMs()));
  return (
    <Choice
      label={t.menu.scannerGap}
      value={gap}
      options={gaps.map((value) => ({ value, label: t.menu.milliseconds(Number(value)) }))}
      onChoose={(next) => {
        remember("scanner-gap-ms", next);
        setGap(next);
      }}
    />
  );
}

function SetPin({ onClose }: { onClose: () => void }): ReactNode {
  const t = useTexts();
  const announce = useAnnounce();
  const save = useWrite("setPin", () => {
    announce({ text: t.menu.pinSaved });
    onClose();
  });
  function submit(event: FormEvent<HTMLFormElement>): void {
    event.preventDefault();
    const form = event.currentTarget;
    save.mutate({ body: { password: readText(form, "password"), pin: readText(form, "pin") } });
  }
  return (
    <Dialog title={t.menu.setPin} onClose={onClose} closeLabel={t.common.cancel}>
      <form className="form" onSubmit={submit}>
        <TextField
          label={t.menu.password}
          name="password"
          type="password"
          autoComplete="current-password"
          required
        />
        <TextField
          label={t.menu.pin}
          hint={t.menu.pinHint}
          error={fieldError(save.error, "pin")}
          name="pin"
          type="password"
          inputMode="numeric"
          pattern="[0-9]{4,8}"
          autoComplete="off"
          required
        />
        <ProblemNote error={save.error} />
        <Button kind="main" type="submit" busy={save.isPending}>
          {t.common.save}
        </Button>
      </form>
    </Dialog>
  );
}

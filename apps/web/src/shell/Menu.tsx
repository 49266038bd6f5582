import { useState, type ReactNode } from "react";
import { useLocation } from "wouter";
import { getMessages } from "#texts";
import { useWrite } from "../api/queries.ts";
import { paths } from "../paths.ts";
import { playSound, soundsAreOn, switchSounds } from "../scanner/sounds.ts";
import { useSignedIn, useTakeSession } from "../session/session.ts";
import { languages, nameOfLanguage, useLanguage, useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { Dialog } from "../ui/Dialog.tsx";
import { Choice } from "../ui/Field.tsx";
import { chooseAppearance, readAppearance, type Appearance } from "./appearance.ts";
import { PinForm } from "./PinForm.tsx";

/** The person signed in and the choices of this device. */
export function Menu({ onClose }: { onClose: () => void }): ReactNode {
  const t = useTexts();
  const { person, practice } = useSignedIn();
  const { language, choose } = useLanguage();
  const [part, show] = useState<"choices" | "pin">("choices");
  const [, navigate] = useLocation();
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
      <Button
        onClick={() => {
          navigate(paths.scanner());
          onClose();
        }}
      >
        {t.menu.scanner}
      </Button>
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

function SetPin({ onClose }: { onClose: () => void }): ReactNode {
  const t = useTexts();
  return (
    <Dialog title={t.menu.setPin} onClose={onClose} closeLabel={t.common.cancel}>
      <PinForm onSaved={onClose} />
    </Dialog>
  );
}

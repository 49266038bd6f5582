import { useEffect, useState, type ReactNode } from "react";
import { serverNowMs } from "../api/server-clock.ts";
import { useSignedIn } from "../session/session.ts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Button } from "../ui/Button.tsx";
import { TextField } from "../ui/Field.tsx";
import { ProblemNote } from "../ui/States.tsx";
import { PinPad } from "./PinPad.tsx";
import "./door.css";

export type Proof = { pin: string } | { password: string };

interface ProofFormProps {
  /** What the button says. */
  sign: string;
  busy: boolean;
  error: unknown;
  onProve: (proof: Proof) => void;
}

/** A signature: whose it is, when, what it means, and the PIN or password that proves it. */
export function ProofForm({ sign, busy, error, onProve }: ProofFormProps): ReactNode {
  const t = useTexts();
  const { dateTime } = useFormats();
  const { person } = useSignedIn();
  const now = useNow();
  const [byPin, setByPin] = useState(person.hasPin);
  const [password, setPassword] = useState("");
  return (
    <>
      <div className="sign-meaning">
        <p>
          <strong>{person.displayName}</strong> · {dateTime(now)}
        </p>
        <p>{t.chairside.meaning}</p>
      </div>
      {byPin ? (
        <PinPad
          label={t.chairside.signWithPin}
          button={t.chairside.signTitle}
          busy={busy}
          onEnter={(pin) => onProve({ pin })}
        />
      ) : (
        <form
          className="form"
          onSubmit={(event) => {
            event.preventDefault();
            onProve({ password });
          }}
        >
          <TextField
            label={t.chairside.signWithPassword}
            type="password"
            autoComplete="current-password"
            value={password}
            required
            onChange={(event) => setPassword(event.target.value)}
          />
          <Button kind="main" type="submit" className="big" busy={busy}>
            {sign}
          </Button>
        </form>
      )}
      <ProblemNote error={error} />
      {person.hasPin ? (
        <Button kind="quiet" onClick={() => setByPin(!byPin)}>
          {byPin ? t.chairside.usePassword : t.chairside.usePin}
        </Button>
      ) : null}
    </>
  );
}

function useNow(): string {
  const [nowMs, setNowMs] = useState(serverNowMs);
  useEffect(() => {
    const timer = window.setInterval(() => setNowMs(serverNowMs()), 15_000);
    return () => window.clearInterval(timer);
  }, []);
  return new Date(nowMs).toISOString();
}

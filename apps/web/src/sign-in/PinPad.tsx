import { useState, type ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import { Button } from "../ui/Button.tsx";
import { TextField } from "../ui/Field.tsx";

interface PinPadProps {
  label: string;
  button: string;
  busy: boolean;
  onEnter: (pin: string) => void;
}

const digits = ["1", "2", "3", "4", "5", "6", "7", "8", "9"] as const;

/** A PIN by large keys for gloved fingers, or by keyboard. */
export function PinPad({ label, button, busy, onEnter }: PinPadProps): ReactNode {
  const t = useTexts();
  const [pin, setPin] = useState("");
  const add = (digit: string) => setPin((before) => (before + digit).slice(0, 8));
  return (
    <form
      className="pin-pad"
      onSubmit={(event) => {
        event.preventDefault();
        if (pin.length < 4) return;
        onEnter(pin);
        setPin("");
      }}
    >
      <TextField
        label={label}
        type="password"
        inputMode="none"
        autoComplete="off"
        value={pin}
        onChange={(event) => setPin(event.target.value.replace(/\D/g, "").slice(0, 8))}
      />
      <div className="pin-keys">
        {digits.map((digit) => (
          <Button key={digit} onClick={() => add(digit)}>
            {digit}
          </Button>
        ))}
        <Button kind="quiet" onClick={() => setPin("")}>
          {t.signIn.clear}
        </Button>
        <Button onClick={() => add("0")}>0</Button>
        <Button kind="main" type="submit" busy={busy} disabled={pin.length < 4}>
          {button}
        </Button>
      </div>
    </form>
  );
}

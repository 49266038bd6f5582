import type { ReactNode } from "react";
import { describeTooth } from "#domain";
import { sayTooth } from "#texts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Choice } from "../ui/Field.tsx";

export type Dentition = "permanent" | "primary";

const range = (from: number, to: number): readonly number[] =>
  from > to
    ? Array.from({ length: from - to + 1 }, (_, index) => from - index)
    : Array.from({ length: to - from + 1 }, (_, index) => from + index);

// As one faces the patient (ISO 3950): upper right, upper left; below it lower right, lower left.
const arches: Readonly<Record<Dentition, Record<"upper" | "lower", readonly number[]>>> = {
  permanent: {
    upper: [...range(18, 11), ...range(21, 28)],
    lower: [...range(48, 41), ...range(31, 38)],
  },
  primary: {
    upper: [...range(55, 51), ...range(61, 65)],
    lower: [...range(85, 81), ...range(71, 75)],
  },
};

interface ToothPictureProps {
  dentition: Dentition;
  tooth: string;
  onDentition: (dentition: Dentition) => void;
  onTooth: (tooth: string) => void;
}

/** Both arches as seen from the front; a tap chooses a tooth. */
export function ToothPicture({
  dentition,
  tooth,
  onDentition,
  onTooth,
}: ToothPictureProps): ReactNode {
  const t = useTexts();
  const { language } = useFormats();
  const chosen = describeTooth(tooth);
  return (
    <section className="teeth" aria-label={t.tray.plan.toothPicture}>
      <Choice
        label={t.tray.plan.toothPicture}
        value={dentition}
        options={[
          { value: "permanent", label: t.tray.plan.permanent },
          { value: "primary", label: t.tray.plan.primary },
        ]}
        onChoose={onDentition}
      />
      {(["upper", "lower"] as const).map((arch) => (
        <div
          key={arch}
          role="group"
          aria-label={t.tray.plan[arch]}
          className={`teeth-arch ${arch} ${dentition}`}
        >
          {arches[dentition][arch].map((code) => (
            <ToothButton
              key={code}
              code={String(code)}
              isChosen={tooth === String(code)}
              onTooth={onTooth}
            />
          ))}
        </div>
      ))}
      <p role="status">{chosen === null ? null : `${chosen.fdi}: ${sayTooth(language, chosen)}`}</p>
    </section>
  );
}

interface ToothButtonProps {
  code: string;
  isChosen: boolean;
  onTooth: (tooth: string) => void;
}

function ToothButton({ code, isChosen, onTooth }: ToothButtonProps): ReactNode {
  const isMolar = describeTooth(code)?.class.endsWith("molar") === true && !isPremolar(code);
  return (
    <button
      type="button"
      className={isMolar ? "tooth molar" : "tooth"}
      aria-pressed={isChosen}
      onClick={() => onTooth(code)}
    >
      {code}
    </button>
  );
}

const isPremolar = (code: string): boolean =>
  describeTooth(code)?.class.endsWith("premolar") === true;

import { useState, type ReactNode } from "react";
import { describeTooth } from "#domain";
import { sayTooth } from "#texts";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { Choice } from "../ui/Field.tsx";
import { showTooth } from "../texts/tooth-notation.ts";

type Dentition = "permanent" | "primary";

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

interface ToothChartProps {
  chosen: readonly string[];
  onToggle: (tooth: string) => void;
}

/** Both arches as seen from the front; a tap puts a tooth in or takes it out. */
export function ToothChart({ chosen, onToggle }: ToothChartProps): ReactNode {
  const t = useTexts();
  const { language } = useFormats();
  const [dentition, setDentition] = useState<Dentition>("permanent");
  const named = chosen.flatMap((tooth) => describeTooth(tooth) ?? []);
  return (
    <section className="teeth" aria-label={t.tray.plan.toothPicture}>
      <Choice
        label={t.tray.plan.toothPicture}
        value={dentition}
        options={[
          { value: "permanent", label: t.tray.plan.permanent },
          { value: "primary", label: t.tray.plan.primary },
        ]}
        onChoose={setDentition}
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
              isChosen={chosen.includes(String(code))}
              onToggle={onToggle}
            />
          ))}
        </div>
      ))}
      <p role="status">
        {named.map((tooth) => `${showTooth(tooth.fdi)}: ${sayTooth(language, tooth)}`).join(" · ")}
      </p>
    </section>
  );
}

interface ToothButtonProps {
  code: string;
  isChosen: boolean;
  onToggle: (tooth: string) => void;
}

function ToothButton({ code, isChosen, onToggle }: ToothButtonProps): ReactNode {
  const isMolar = describeTooth(code)?.class.endsWith("molar") === true && !isPremolar(code);
  return (
    <button
      type="button"
      className={isMolar ? "tooth molar" : "tooth"}
      aria-pressed={isChosen}
      onClick={() => onToggle(code)}
    >
      {showTooth(code)}
    </button>
  );
}

const isPremolar = (code: string): boolean =>
  describeTooth(code)?.class.endsWith("premolar") === true;

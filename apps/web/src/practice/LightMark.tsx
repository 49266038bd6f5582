import type { ReactNode } from "react";
import { formatNumber } from "#texts";
import type { AnswerOf } from "#contracts/operations";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import { VerdictShape } from "../ui/Verdict.tsx";

export type Light = AnswerOf<"getLight">;

const shapes = { good: "clear", due: "caution", unread: "caution", weak: "stop" } as const;

/** How a light stands: by word, shape and colour; one out of use by its word alone. */
export function LightMark({ light }: { light: Light }): ReactNode {
  const { lights: t } = useTexts().keeping;
  const { state, retired } = light;
  if (retired) return <span className="light-state">{t.retiredMark}</span>;
  return (
    <span className={`light-state ${state}`}>
      <VerdictShape verdict={shapes[state]} />
      <strong>{t.states[state]}</strong>
    </span>
  );
}

/** What a light has lost or gained against its own first reading, in words; empty for nothing. */
export function useLossWords(): (light: Light) => string {
  const { lights: t } = useTexts().keeping;
  const { language } = useFormats();
  return ({ lossPercent: loss }) => {
    if (loss === null || loss === 0) return "";
    const percent = formatNumber(language, Math.abs(loss));
    return loss > 0 ? t.loss(percent) : t.gain(percent);
  };
}

import type { WaitingSeal } from "#contracts/waiting";
import { saySurfaceNeed } from "#texts/say-surface-need";
import { useTexts } from "../texts/Texts.tsx";
import { useFormats } from "../texts/useFormats.ts";
import type { Column } from "../ui/column.ts";

/** The list as it is written into a CSV. */
export function useWaitingColumns(): readonly Column<WaitingSeal>[] {
  const { waiting: t } = useTexts();
  const { language } = useFormats();
  const of = (
    key: keyof typeof t.columns,
    value: (seal: WaitingSeal) => string | number | null,
  ): Column<WaitingSeal> => ({ key, label: t.columns[key], value, show: value });
  return [
    of("chart", ({ chartNumber }) => chartNumber),
    of("tooth", ({ tooth }) => tooth),
    of("sealed", ({ sealedOn }) => sealedOn),
    of("days", ({ days }) => days),
    of("overdue", ({ overdue }) => (overdue ? t.overdue : null)),
    of("restoration", ({ restoration }) => restoration && t.restorations[restoration]),
    of("provisional", ({ provisional }) => t.provisionals[provisional]),
    of("cement", ({ cement }) => cement && cement.productName),
    of("lot", ({ cement }) => cement && cement.lot),
    of("planned", ({ plannedOn }) => plannedOn),
    of("visit", ({ visit }) => visit && visit.appointmentAt),
    of("needs", ({ needs }) =>
      needs.map((need) => saySurfaceNeed(language, need).title).join("; "),
    ),
    of("off", ({ off }) => off && [t.off.reasons[off.reason], off.note].filter(Boolean).join(": ")),
  ];
}

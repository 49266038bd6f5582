import type { ReactNode } from "react";
import { useTexts } from "../texts/Texts.tsx";
import type { Tray } from "./columns.ts";
import { showTooth } from "../texts/tooth-notation.ts";

/** What is planned of each tooth of a visit, in words; nothing where nothing is said. */
export function VisitTeeth({ teeth }: Pick<Tray, "teeth">): ReactNode {
  const t = useTexts();
  const { plan } = t.tray;
  const lines = teeth.map(({ tooth, mode, provisional, undercut, surfaces, restoration }) => {
    const words = [
      surfaces,
      restoration === null ? "" : plan.restorations[restoration],
      mode === null ? "" : t.chairside.modes[mode],
      provisional === "none" ? "" : `${plan.provisional}: ${plan.provisionals[provisional]}`,
      undercut ? plan.undercutShort : "",
    ].filter((word) => word !== "");
    return { tooth, words };
  });
  const told = lines.filter(({ words }) => words.length > 0);
  if (told.length === 0) return null;
  return (
    <ul className="visit-teeth">
      {told.map(({ tooth, words }) => (
        <li key={tooth}>
          <strong>{t.common.tooth(showTooth(tooth))}</strong> {words.join(" · ")}
        </li>
      ))}
    </ul>
  );
}

import type { ReactNode } from "react";
import { Link } from "wouter";
import { PrintersPart } from "../labels/PrintersPart.tsx";
import { RunsPart } from "../labels/RunsPart.tsx";
import { paths } from "../paths.ts";
import { useHasRole } from "../session/session.ts";
import { NotFoundPage } from "../shell/Broken.tsx";
import { useTexts } from "../texts/Texts.tsx";
import { Page } from "../ui/Page.tsx";
import { AuditPart } from "./AuditPart.tsx";
import { CautionsPart } from "./CautionsPart.tsx";
import { ChecksPart } from "./ChecksPart.tsx";
import { LightsPart } from "./LightsPart.tsx";
import { PeoplePart } from "./PeoplePart.tsx";
import { PinPart } from "./PinPart.tsx";
import { PlacesPart } from "./PlacesPart.tsx";
import { ScannerPart } from "./ScannerPart.tsx";
import { TabletsPart } from "./TabletsPart.tsx";
import { TeethPart } from "./TeethPart.tsx";
import { TemperaturesPart } from "./TemperaturesPart.tsx";
import "./practice.css";

const partKeys = [
  "people",
  "tablets",
  "places",
  "lights",
  "temperatures",
  "teeth",
  "checks",
  "labels",
  "printers",
  "scanner",
  "pin",
  "audit",
  "cautions",
] as const;
type PartKey = (typeof partKeys)[number];
const ofDesk: readonly PartKey[] = ["people", "tablets", "audit"];

const parts: Readonly<Record<PartKey, () => ReactNode>> = {
  people: PeoplePart,
  tablets: TabletsPart,
  places: PlacesPart,
  lights: LightsPart,
  temperatures: TemperaturesPart,
  teeth: TeethPart,
  checks: ChecksPart,
  labels: RunsPart,
  printers: PrintersPart,
  scanner: ScannerPart,
  pin: PinPart,
  audit: AuditPart,
  cautions: CautionsPart,
};

/** The practice's own pages, one part at a time; those of the desk for the desk only. */
export default function PracticePage({ part }: { part: string | undefined }): ReactNode {
  const { practice: t } = useTexts();
  const isDesk = useHasRole("office", "owner");
  const open = partKeys.filter((key) => isDesk || !ofDesk.includes(key));
  const here = part === undefined ? open[0] : partKeys.find((key) => key === part);
  if (here === undefined) return <NotFoundPage />;
  const Part = parts[here];
  return (
    <Page title={t.title} tabTitle={t.parts[here]}>
      <nav className="parts" aria-label={t.title}>
        {open.map((key) => (
          <Link
            key={key}
            to={paths.practicePart(key)}
            aria-current={key === here ? "page" : undefined}
          >
            {t.parts[key]}
          </Link>
        ))}
      </nav>
      {open.includes(here) ? <Part /> : <p>{t.notForYou}</p>}
    </Page>
  );
}

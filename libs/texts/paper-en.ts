import { paperRecordEn } from "./paper-record.ts";

/**
 * What stands on paper in English: on the practice's own labels, on the page that shows whether a
 * sheet fits, and on the page that sets up a scanner. `LOT` is the word of ISO 15223-1 5.1.5.
 */
export const paperEn = {
  lot: "LOT",
  useBy: "Use by",
  opened: "Opened",
  useUntil: "Use until",
  tooth: "tooth {tooth}",
  labels: "Labels",
  sheetTest: {
    title: "Alignment test",
    lines: [
      "Print at 100 %, without fitting to the page, on plain paper.",
      "Measure a ruler: 100 must be 100 mm from 0.",
      "Hold the page and a sheet of labels against the light: each outline must lie on a label.",
    ],
  },
  calibration: {
    title: "Test label",
    line: "The ruler must be true, and the frame whole.",
  },
  record: paperRecordEn,
  downtime: {
    title: "Downtime sheet, {day|date}",
    lead:
      "Write here while the system is away. Enter it afterwards with the time at which it " +
      "happened; scan the containers then, so keep them until it is entered.",
    printed: "printed {when}",
    chart: "Chart",
    teeth: "Teeth (FDI), mode",
    technique: "Technique",
    planned: "Planned",
    begun: "Priming begun at",
    set: "Set out:",
    step: "Step",
    code: "Container code",
    lot: "Lot",
    useBy: "Use by",
    from: "From",
    to: "To",
    light: "Light, mode",
    seconds: "Seconds of light",
    distance: "Distance, mm",
    thickness: "Thickness, mm",
    deviations: "Deviations, what was not scanned",
    dentist: "Dentist",
    signature: "Date, signature",
  },
  scannerSheet: {
    title: "Set up a scanner",
    lines: [
      "Sign in, open the page for scanners, and scan the first symbol with the scanner to be set up.",
      "Then scan the HIBC symbol of the kind that your packs carry.",
      "Print at 100 %. Cover the other symbols with your hand while scanning.",
    ],
  },
};
/** The same texts of whatever language. */
export type PaperTexts = typeof paperEn;

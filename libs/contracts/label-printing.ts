/** The practice's own labels: what they are for, how they look, and where they are printed. */
import { z } from "zod";
import type { ScannerSetUpKey } from "#labels";
import { CivilDate, Id, Instant, Name } from "./common.ts";

/** Lengths on paper are whole micrometres: inches and millimetres are both exact. */
const Um = z.int().min(0).max(1_000_000);
const PositiveUm = z.int().min(1_000).max(1_000_000);

export const labelSubjectKinds = ["container", "location", "tray"] as const;
export const LabelSubject = z
  .strictObject({ kind: z.enum(labelSubjectKinds), id: Id })
  .meta({ id: "LabelSubject" });
export type LabelSubject = z.infer<typeof LabelSubject>;

/** What one label says, drawn in whatever size. */
export const LabelContent = z
  .object({
    subject: LabelSubject,
    code: z.string().meta({ description: "The code in the symbol, such as CK7QW4X" }),
    title: z.string().meta({ description: "Product, place, or chart and tooth" }),
    lot: z.string().nullable(),
    useBy: z.object({ date: CivilDate, precision: z.enum(["day", "month"]) }).nullable(),
    openedOn: CivilDate.nullable(),
    useUntil: CivilDate.nullable().meta({ description: "The last day of use, once opened" }),
    line: z.string().meta({ description: "A further line, such as the appointment" }),
  })
  .meta({ id: "LabelContent" });
export type LabelContent = z.infer<typeof LabelContent>;

export const MakeLabels = z
  .strictObject({
    subjects: z.array(LabelSubject).min(1).max(500),
    copies: z.int().min(1).max(10).default(1),
    reprintOf: Id.optional().meta({ description: "The run whose labels were lost or spoiled" }),
  })
  .meta({ id: "MakeLabels" });
export type MakeLabels = z.infer<typeof MakeLabels>;
export const LabelRunView = z
  .object({
    id: Id,
    madeAt: Instant,
    madeBy: z.string(),
    copies: z.int(),
    reprintOf: Id.nullable(),
    labels: z.array(LabelContent).meta({ description: "One of each, as they would print now" }),
  })
  .meta({ id: "LabelRun" });
export type LabelRunView = z.infer<typeof LabelRunView>;
export const LabelRuns = z
  .object({
    runs: z.array(LabelRunView.omit({ labels: true }).extend({ labels: z.int() })),
  })
  .meta({ id: "LabelRuns" });
export type LabelRuns = z.infer<typeof LabelRuns>;

/** Sizes cut for one thing: a 5 ml bottle, a syringe barrel, a shelf's edge or a tray. */
export const labelSizes = ["bottle", "syringe", "place"] as const;
export const labelFormats = ["sheet", "roll", "zpl", "svg", "png"] as const;
export const LabelDocumentQuery = z.strictObject({
  format: z.enum(labelFormats),
  size: z.enum(labelSizes).default("bottle").meta({ description: "For all but a sheet" }),
  sheet: z.string().max(64).optional().meta({ description: "A sheet's id, for a sheet" }),
  startAt: z.coerce.number().int().min(1).max(500).default(1).meta({
    description: "The first free label of the first sheet, counted along the rows",
  }),
  from: z.coerce.number().int().min(1).max(5000).default(1).meta({
    description: "The first label of the run to print, counted with copies",
  }),
  dotsPerInch: z.enum(["203", "300", "600"]).default("300"),
});
export type LabelDocumentQuery = z.infer<typeof LabelDocumentQuery>;

const SideUm = z.coerce.number().pipe(PositiveUm).optional();
export const LabelPreviewQuery = z.strictObject({
  kind: z.enum(labelSubjectKinds),
  id: Id,
  size: z.enum(labelSizes).default("bottle"),
  labelWidthUm: SideUm.meta({ description: "With the height: instead of a size with a name" }),
  labelHeightUm: SideUm,
});
export type LabelPreviewQuery = z.infer<typeof LabelPreviewQuery>;

export const SheetTestQuery = z.strictObject({
  sheet: z.string().min(1).max(64).meta({ description: "A sheet's id" }),
});
export type SheetTestQuery = z.infer<typeof SheetTestQuery>;

const sheetShape = {
  name: Name.max(100),
  pageWidthUm: PositiveUm,
  pageHeightUm: PositiveUm,
  columns: z.int().min(1).max(50),
  rows: z.int().min(1).max(100),
  labelWidthUm: PositiveUm,
  labelHeightUm: PositiveUm,
  marginLeftUm: Um,
  marginTopUm: Um,
  pitchXUm: PositiveUm.meta({ description: "From the left edge of one label to the next" }),
  pitchYUm: PositiveUm,
};
export const SheetInput = z.strictObject(sheetShape).meta({ id: "SheetInput" });
export type SheetInput = z.infer<typeof SheetInput>;
export const SheetView = z
  .object({
    id: z.string().meta({ description: "A built-in name, or the id of one of the practice" }),
    builtIn: z.boolean(),
    ...sheetShape,
  })
  .meta({ id: "Sheet" });
export type SheetView = z.infer<typeof SheetView>;
export const Sheets = z.object({ sheets: z.array(SheetView) }).meta({ id: "Sheets" });
export type Sheets = z.infer<typeof Sheets>;

const printerShape = {
  name: Name.max(100),
  host: z
    .string()
    .trim()
    .regex(/^[A-Za-z0-9]([A-Za-z0-9.:-]{0,252}[A-Za-z0-9])?$/, "a host name or an address"),
  port: z.int().min(1).max(65535).default(9100),
  dotsPerInch: z.enum(["203", "300", "600"]),
  labelWidthUm: PositiveUm,
  labelHeightUm: PositiveUm,
};
export const PrinterInput = z.strictObject(printerShape).meta({ id: "PrinterInput" });
export type PrinterInput = z.infer<typeof PrinterInput>;
export const PrinterView = z.object({ id: Id, ...printerShape }).meta({ id: "Printer" });
export type PrinterView = z.infer<typeof PrinterView>;
export const Printers = z.object({ printers: z.array(PrinterView) }).meta({ id: "Printers" });
export type Printers = z.infer<typeof Printers>;

export const PrintRun = z
  .strictObject({
    runId: Id,
    from: z.int().min(1).max(5000).default(1),
  })
  .meta({ id: "PrintRun" });
export type PrintRun = z.infer<typeof PrintRun>;
export const Printed = z
  .object({ printer: z.string(), labels: z.int().meta({ description: "How many were sent" }) })
  .meta({ id: "Printed" });
export type Printed = z.infer<typeof Printed>;

const setUpKeys = [
  "gs1",
  "hibc",
  "hibc-linear",
  "hibc-code39",
] as const satisfies ScannerSetUpKey[];
export const ScannerSheetQuery = z.strictObject({
  symbol: z.enum(setUpKeys).optional().meta({ description: "This one alone, as SVG" }),
});
export type ScannerSheetQuery = z.infer<typeof ScannerSheetQuery>;

/** The practice's own labels: printed after receiving, on paper and on a printer, and scanned. */
import { afterAll, beforeAll, describe, expect } from "@jest/globals";
import type { Locator, Page } from "playwright-core";
import { ready } from "zpl-renderer-js";
import type { AnswerOf } from "#contracts/operations";
import { makeOwnCode } from "#domain";
import { openPrinter, type FakePrinter } from "../helpers/printer.ts";
import { pictureOfPng, readWithWasm, renderPdf } from "../helpers/read-back.ts";
import { journey } from "./browser.ts";
import { inspect } from "./every-page.ts";
import { gtins, makePack } from "./packs.ts";
import type { PersonRole, Screen } from "./screen.ts";
import { serve } from "./served.ts";

const served = serve();
let printer: FakePrinter;
beforeAll(async () => {
  printer = await openPrinter();
});
afterAll(() => printer.close());

async function openAs(who: PersonRole): Promise<Screen> {
  const screen = await served.open();
  await screen.signIn(who);
  // Asking who is signed in, before anybody is, counts as one.
  screen.faults.splice(0);
  return screen;
}

const dialogOf = ({ page }: Screen, name: string | RegExp): Locator =>
  page.getByRole("dialog", { name });

/** What the symbol of a code holds, as a scanner sends it. */
const symbolOf = (ai: number, code: string): string => `]d2${ai}${code.replace("-", "")}`;

async function readPdf(pdf: Buffer): Promise<string[]> {
  const pages = await renderPdf(pdf, 300);
  const found = await Promise.all(pages.map(({ picture }) => readWithWasm(picture)));
  return found.flat().sort();
}

/** Waits for the job behind the `before` ones, renders its labels and reads their symbols. */
async function readJob(page: Page, before: number): Promise<string[]> {
  const deadline = Date.now() + 15_000;
  while (!printer.received[before]?.trimEnd().endsWith("^XZ")) {
    if (Date.now() > deadline) throw new Error("the printer was sent nothing whole");
    await page.waitForTimeout(50);
  }
  const { api } = await ready;
  const images = await api.zplToBase64MultipleAsync(printer.received[before], 50.8, 25.4, 8);
  const pictures = images.map((each) => pictureOfPng(Buffer.from(each, "base64")));
  return (await Promise.all(pictures.map(readWithWasm))).flat();
}

/** Receives three syringes of serials that begin so; gives their codes in the order of receipt. */
async function receiveThree(screen: Screen, letter: string): Promise<string[]> {
  const { page } = screen;
  await screen.tap("Receive");
  await page.getByRole("heading", { name: "A new delivery" }).waitFor();
  for (const serial of [`${letter}1`, `${letter}2`, `${letter}3`]) {
    await screen.scan(makePack({ gtin: gtins.duneFlow, lot: "DF-2301", useByDays: 400, serial }));
    await page.locator(".receive-line", { hasText: `serial ${serial}` }).waitFor();
  }
  return (await page.locator(".code-label").allInnerTexts()).toReversed();
}

/** The first free label of the sheet that the dialog shows. */
const startOf = async (dialog: Locator): Promise<number> =>
  Number(await dialog.getByLabel("First free label of the sheet", { exact: true }).inputValue());

describe("labels after receiving", () => {
  journey("come on a sheet from its first free label, and go on there next time", async () => {
    const screen = await openAs("assistant");
    const { page } = screen;
    const codes = await receiveThree(screen, "A");
    await screen.tap("Print 3 labels");
    const dialog = dialogOf(screen, "Print 3 labels");
    await page.waitForResponse((response) => response.url().includes("/label-preview?"));
    expect(await startOf(dialog)).toBe(1);
    const sheet = dialog.getByRole("button", { name: /^The first free label is number 1 of / });
    await sheet.click({ position: { x: 60, y: 30 } });
    const start = await startOf(dialog);
    expect(start).toBeGreaterThan(1);
    expect(await inspect(screen, "day")).toEqual([]);

    const asked = page.waitForResponse((response) => response.url().includes("/document?"));
    const tab = page.waitForEvent("popup");
    await screen.tap("Open the PDF of 3 labels", dialog);
    const address = (await asked).url();
    expect(new URL(address).searchParams.get("startAt")).toBe(String(start));
    const pdf = await (await page.request.get(address)).body();
    expect(pdf.subarray(0, 5).toString("latin1")).toBe("%PDF-");
    expect(await readPdf(pdf)).toEqual(codes.map((code) => symbolOf(91, code)).sort());
    await (await tab).close();
    await screen.reads(dialog, new RegExp(`next labels begin at number ${start + 3} of this`));
    expect(await inspect(screen, "night")).toEqual([]);
    await screen.tap("Done", dialog);
    await screen.tap("Print 3 labels");
    expect(await startOf(dialog)).toBe(start + 3);
    await screen.close();
  });
});

describe("a label printer", () => {
  journey("is set up by the office and prints what the assistant sends with one tap", async () => {
    const office = await openAs("office");
    await office.page.goto("/practice/printers");
    await office.tap("Add a printer");
    const form = dialogOf(office, "Add a printer");
    await form.getByLabel("Name").fill("Reception");
    await form.getByLabel("Address in the network").fill("127.0.0.1");
    await form.getByLabel("Port").fill(String(printer.port));
    expect(await inspect(office, "day")).toEqual([]);
    await office.tap("Save", form);
    await office.tap("Print a test label");
    await office.reads(office.page.locator(".toast"), /Reception was sent a test label/);
    const tests = printer.received.length;
    await office.close();

    const screen = await openAs("assistant");
    const codes = await receiveThree(screen, "B");
    await screen.tap("Print 3 labels");
    const dialog = dialogOf(screen, /^Print \d labels?$/);
    await screen.tap("Print 3 labels", dialog);
    await screen.reads(dialog, /3 labels were sent to Reception/);
    expect(await readJob(screen.page, tests)).toEqual(codes.map((code) => symbolOf(91, code)));

    await screen.tap("Not all came out? Print the rest", dialog);
    await dialog.getByLabel("First label to print", { exact: true }).fill("3");
    await screen.tap("Print 1 label", dialog);
    await screen.reads(dialog, /1 label was sent to Reception/);
    expect(await readJob(screen.page, tests + 1)).toEqual([symbolOf(91, codes[2] ?? "")]);
    await screen.close();
  });

  journey("prints an earlier run again, from the label on that is missing", async () => {
    const screen = await openAs("assistant");
    const { page } = screen;
    await page.goto("/practice/labels");
    const rows = page.getByRole("row", { name: /Asa Linden 3 labels/ });
    await rows.first().waitFor();
    const runs = await rows.count();
    const before = printer.received.length;
    await rows.first().getByRole("button").click();
    const dialog = dialogOf(screen, /^Print \d labels?$/);
    await dialog.getByText("The labels ran out? Print only the rest").click();
    await dialog.getByLabel("First label to print", { exact: true }).fill("2");
    await screen.tap("Print 2 labels", dialog);
    await screen.reads(dialog, /2 labels were sent to Reception/);
    expect(await readJob(page, before)).toHaveLength(2);
    await screen.tap("Done", dialog);
    await screen.reads(page.getByRole("row").nth(1), /3 labels of an earlier run/);
    expect(await rows.count()).toBe(runs + 1);
    await screen.close();
  });

  journey("that does not answer is told plainly, with a way out that works", async () => {
    const office = await openAs("office");
    const gone = await openPrinter();
    await gone.close();
    const address = { host: "127.0.0.1", port: gone.port, dotsPerInch: "203" };
    const label = { labelWidthUm: 50_800, labelHeightUm: 25_400 };
    await office.ask("/printers", { name: "Operatory", ...address, ...label });
    await office.page.goto("/shelf");
    await office.tap("Print labels");
    await office.page
      .getByLabel(/^Label of Alder Primer/)
      .first()
      .check();
    await office.tap("Print 1 label");
    const dialog = dialogOf(office, "Print 1 label");
    await dialog.getByText("Operatory", { exact: true }).click();
    await office.tap("Print 1 label", dialog);
    await office.reads(dialog, /cannot be reached; nothing was printed.*In a hurry\?/);
    office.faults.splice(0);
    expect(await inspect(office, "night")).toEqual([]);
    await dialog.getByText("Reception", { exact: true }).click();
    await office.tap("Print 1 label", dialog);
    await office.reads(dialog, /1 label was sent to Reception/);
    await office.close();
  });
});

describe("a sheet of labels", () => {
  journey("that cannot be is refused with the measure that is missing", async () => {
    const screen = await openAs("office");
    const { page } = screen;
    await page.goto("/practice/printers");
    await screen.tap("A sheet like Letter, 3 × 10, 2.625 × 1 in");
    const dialog = dialogOf(screen, "Add a sheet");
    const across = dialog.getByLabel("Label to label, across (in)");
    expect(await across.inputValue()).toBe("2.75");
    await across.fill("2 1/2");
    const save = dialog.getByRole("button", { name: "Save" });
    await screen.reads(dialog, /Labels lie on each other: .* at least 0\.125 in more/);
    expect(await save.isDisabled()).toBe(true);
    expect(await inspect(screen, "day")).toEqual([]);
    await across.fill("2.75");
    await dialog.getByLabel("Labels down", { exact: true }).fill("12");
    await screen.reads(dialog, /The last row leaves the page at the bottom by 1\.5 in/);
    await dialog.getByLabel("Labels down", { exact: true }).fill("9");
    await dialog.getByLabel("Name").fill("Ours");
    await save.click();
    const row = page.getByRole("row", { name: /^Ours/ });
    await screen.reads(row, /Ours 3 × 9 2\.625 × 1 in/);
    const address = await row.getByRole("link", { name: "Test page of Ours" }).getAttribute("href");
    const test = await page.request.get(address ?? "");
    expect((await test.body()).subarray(0, 5).toString("latin1")).toBe("%PDF-");
    await screen.tap("Remove Ours", row);
    await screen.tap("Remove", page.getByRole("dialog"));
    await row.waitFor({ state: "detached" });
    await screen.close();
  });
});

/** Prints the label of a place or a tray and gives its code. */
async function codeOf(screen: Screen, kind: "location" | "tray", id: string): Promise<string> {
  const body = { subjects: [{ kind, id }] };
  const { labels } = await screen.ask<AnswerOf<"makeLabels">>("/label-runs", body);
  return labels[0]?.code ?? "";
}

async function findPlace(screen: Screen, kind: string) {
  const { locations } = await screen.ask<AnswerOf<"listLocations">>("/locations");
  return locations.find((each) => each.kind === kind)!;
}

describe("the code of a place", () => {
  journey("puts away what was scanned before it, and one tap takes it back", async () => {
    const screen = await openAs("assistant");
    const { page } = screen;
    const fridge = await findPlace(screen, "refrigerator");
    const place = symbolOf(92, await codeOf(screen, "location", fridge.id));
    const { containers } = await screen.ask<AnswerOf<"listContainers">>("/containers?limit=500");
    const two = containers.filter(
      ({ state, location }) => state === "sealed" && location.kind === "store",
    );
    const [first, second] = two;
    await screen.tap("Shelf");
    await screen.tap("Put away");
    const dialog = dialogOf(screen, "Put away by scanning");
    await screen.scan(place);
    await screen.reads(page.locator(".toast"), /Refrigerator: first scan what is put there/);
    await screen.scan(symbolOf(91, first?.code ?? ""));
    await screen.scan(symbolOf(91, second?.code ?? ""));
    await screen.scan(symbolOf(91, first?.code ?? ""));
    const list = dialog.getByRole("listitem");
    await screen.reads(page.locator(".toast"), /is on the list already/);
    expect(await list.count()).toBe(2);
    expect(await inspect(screen, "day")).toEqual([]);
    await screen.scan(place);
    await screen.reads(page.locator(".toast"), /2 containers: now Refrigerator/);
    const now = () => screen.ask<AnswerOf<"getContainer">>(`/containers/${second?.id}`);
    expect((await now()).container.location.kind).toBe("refrigerator");
    await screen.tap("Undo", page.locator(".toast"));
    await screen.reads(page.locator(".toast"), /2 movements are undone/);
    expect((await now()).container.location.kind).toBe("store");
    await screen.close();
  });

  journey(
    "opens the shelf there, moves a container to it, says where a delivery goes",
    async () => {
      const screen = await openAs("assistant");
      const { page } = screen;
      const fridge = await findPlace(screen, "refrigerator");
      const place = symbolOf(92, await codeOf(screen, "location", fridge.id));
      await screen.tap("Today");
      await screen.scan(place);
      await page.waitForURL(`/shelf?location=${fridge.id}`);
      const { containers } = await screen.ask<AnswerOf<"listContainers">>("/containers?limit=500");
      const stored = containers.find(
        ({ state, location }) => state === "sealed" && location.kind === "store",
      );
      await screen.scan(symbolOf(91, stored?.code ?? ""));
      await page.waitForURL(`/shelf/${stored?.id}`);
      await page.getByRole("heading", { name: "Life story" }).waitFor();
      await screen.scan(place);
      await screen.tap("Move it", dialogOf(screen, /^Move C\S+ to Refrigerator\?$/));
      await screen.reads(page.locator(".container-now"), /Place Refrigerator/);
      await screen.tap("Receive");
      await page.getByRole("heading", { name: "A new delivery" }).waitFor();
      await screen.scan(place);
      await screen.reads(page.locator(".toast"), /Put away from now on: Refrigerator/);
      expect(await page.getByLabel("Refrigerator").isChecked()).toBe(true);
      await screen.close();
    },
  );
});

describe("a scan before its page is there", () => {
  journey("waits for the page and is answered by it", async () => {
    const screen = await served.open();
    const { page } = screen;
    let letThrough = (): void => {};
    const isThere = new Promise<void>((resolve) => (letThrough = resolve));
    await page.route(/ShelfPage/, (route) => isThere.then(() => route.continue()));
    await screen.signIn("assistant");
    const { containers } = await screen.ask<AnswerOf<"listContainers">>("/containers?limit=1");
    await screen.tap("Shelf");
    await page.getByText("Fetching …").waitFor();
    await screen.scan(symbolOf(91, containers[0]?.code ?? ""));
    letThrough();
    await page.waitForURL(`/shelf/${containers[0]?.id}`);
    await screen.close();
  });
});

describe("the code of a tray", () => {
  journey("opens the tray from anywhere but the chair, where it asks", async () => {
    const screen = await openAs("dentist");
    const { page } = screen;
    const { trays } = await screen.ask<AnswerOf<"getToday">>("/today");
    const [tray, other] = trays;
    const code = symbolOf(93, await codeOf(screen, "tray", tray?.id ?? ""));
    await screen.tap("Records");
    await screen.scan(code);
    await page.waitForURL(`/trays/${tray?.id}`);
    await screen.scan(code);
    await screen.reads(page.locator(".toast"), /This is the label of this tray/);
    await page.goto(`/trays/${other?.id}/chairside`);
    await page.getByRole("heading", { level: 1 }).waitFor();
    await screen.scan(code);
    await screen.reads(page.locator(".toast"), /It is left closed while you work here/);
    expect(page.url()).toContain(`${other?.id}/chairside`);
    await screen.tap("Open this tray", page.locator(".toast"));
    await page.waitForURL(`/trays/${tray?.id}`);
    await screen.close();
  });

  journey("of another practice is shown as what it is, and leads nowhere", async () => {
    const screen = await openAs("assistant");
    await screen.tap("Shelf");
    await screen.scan(symbolOf(93, makeOwnCode("tray", 7_777_777)));
    const dialog = dialogOf(screen, "What is this?");
    await screen.reads(dialog, /Nothing here has this code/);
    expect(await inspect(screen, "day")).toEqual([]);
    await screen.close();
  });
});

/** A signed record lives on: added to, corrected, and its versions read side by side. */
import { describe, expect } from "@jest/globals";
import type { AnswerOf } from "#contracts/operations";
import { journey } from "./browser.ts";
import { readPdfText } from "../helpers/read-back.ts";
import { listAxeFindings, listSmallTargets } from "./look.ts";
import type { Screen } from "./screen.ts";
import { serve } from "./served.ts";

const served = serve();
const chart = "C-1003";

/** The dentist at the signed record of the chart. */
async function openRecord(): Promise<Screen> {
  const screen = await served.open();
  await screen.signIn("dentist");
  const { records } = await screen.ask<AnswerOf<"listRecords">>(`/records?chart=${chart}`);
  await screen.page.goto(`/records/${records[0]!.id}`);
  return screen;
}

async function signIt({ page }: Screen): Promise<void> {
  const usePassword = page.getByRole("button", { name: "Use the password" });
  if ((await usePassword.count()) > 0) await usePassword.click();
  await page.getByLabel("Password").fill("demo-dentist");
  await page.getByRole("button", { name: "Sign the amendment" }).click();
}

describe("a signed record", () => {
  journey("is added to, and says who signs what, when", async () => {
    const screen = await openRecord();
    const { page } = screen;
    const main = page.getByRole("main");
    await screen.tap("Amend");
    await screen.reads(main, /Say why, and what is added or was wrong/);
    await page.getByLabel("Why", { exact: true }).fill("The patient called the next day.");
    await page.getByLabel("Text").fill("No pain, no sensitivity.");
    await screen.tap("Add it");
    await screen.reads(main, /Note · No pain, no sensitivity/);
    await screen.reads(main, /Dr. Noor Falk · \d.*I did, or supervised, what this record says/);
    await signIt(screen);
    await screen.reads(main, /Version 2 · addition: The patient called the next day/);
    await screen.reads(main, /Note .*No pain, no sensitivity/);
    await screen.tap("Open: Version 1");
    await screen.reads(main, /newer version|has taken its place|later version/i);
    await screen.tap("To the newest version");
    await screen.reads(main, /Version 2/);
    await screen.close();
  });

  journey("is corrected by a scan, and both versions are read side by side", async () => {
    const screen = await openRecord();
    const { page } = screen;
    const main = page.getByRole("main");
    const { containers } = await screen.ask<AnswerOf<"listContainers">>("/containers");
    const right = containers.find(
      ({ lot, product, state }) =>
        product.kind === "flowable" && lot === "DF-118O" && state === "sealed",
    )!;
    await screen.tap("Amend");
    await main.getByText("Correction: something is wrong").click();
    await page.getByLabel("Why", { exact: true }).fill("Another syringe was used.");
    await page.getByLabel(/Resin coat: Dune Flow/).check();
    await screen.scan(right.code);
    await screen.reads(main, /Dune Flow .*lot DF-118O/);
    await page.getByLabel("Step").selectOption({ label: "Resin coat" });
    await screen.tap("Add it");
    await page.getByRole("combobox", { name: "Add" }).selectOption({ label: "a cure" });
    await page.getByLabel("Seconds cured").fill("20");
    await page.getByLabel("Light", { exact: true }).selectOption({ index: 1 });
    await page.getByLabel("Distance of the tip").selectOption({ label: "2 mm" });
    expect(await listAxeFindings(page)).toEqual([]);
    expect(await listSmallTargets(page)).toEqual([]);
    await screen.tap("Add it");
    await screen.reads(main, /Resin coat: light-cured for 20 s/);
    await signIt(screen);
    await screen.reads(main, /Version 3 · correction: Another syringe was used/);
    await screen.reads(main, /Light-cured for 20 s · .* J\/cm²/);
    await screen.tap("Side by side");
    await screen.reads(main, /3 new, 1 no longer/);
    const left = page.getByRole("region", { name: "Version 2" });
    const now = page.getByRole("region", { name: "Version 3" });
    await screen.reads(left, /no longer Resin coat: Dune Flow/);
    await screen.reads(now, /new Resin coat: Dune Flow · lot DF-118O/);
    expect(screen.faults.filter((fault) => !fault.endsWith("/session"))).toEqual([]);
    await screen.close();
  });

  journey("is printed with every version's reason, and has a card for the patient", async () => {
    const screen = await openRecord();
    const { page } = screen;
    const print = async (button: string) => {
      const address = await page.getByRole("link", { name: button }).getAttribute("href");
      const answer = await page.request.get(address!);
      expect([answer.status(), answer.headers()["content-type"]]).toEqual([200, "application/pdf"]);
      return readPdfText(await answer.body());
    };
    const paper = await print("PDF of the record");
    expect(paper).toContain("Sealing record");
    expect(paper).toContain("2, an addition: The patient called the next day.");
    expect(paper).toContain("3, a correction of the one before: Another syringe was used.");
    expect(paper).toMatch(/Dune Flow, lot DF-118O/);
    const card = await print("Card for the patient");
    expect(card).toMatch(/^Materials on your tooth/);
    expect(card).toContain("lot DF-118O");
    expect(card).not.toContain(chart);
    await screen.close();
  });
});

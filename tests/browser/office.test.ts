/** The office: a notice answered, worked and closed, and a chart followed to its lots. */
import { describe, expect } from "@jest/globals";
import { journey } from "./browser.ts";
import { gtins, makePack } from "./packs.ts";
import type { Screen } from "./screen.ts";
import { serve } from "./served.ts";

const served = serve();
const lot = "DF-118O";
const lookAlike = "DF-1180";

async function openOffice(): Promise<Screen> {
  const screen = await served.open({ viewport: { width: 1920, height: 1080 } });
  await screen.signIn("office");
  return screen;
}

async function traceLot(screen: Screen): Promise<void> {
  const { page } = screen;
  await screen.tap("Withdrawals");
  await page.getByLabel("Lot", { exact: true }).fill(lot);
  await screen.tap("Trace it");
  await page.getByRole("heading", { name: `Trace of lot ${lot}` }).waitFor();
}

describe("the office", () => {
  journey("answers for a lot, and keeps the one that looks like it apart", async () => {
    const screen = await openOffice();
    const { page } = screen;
    await traceLot(screen);
    const found = page.getByRole("region", { name: /, lot / });
    expect(await found.count()).toBe(1);
    await screen.reads(found, new RegExp(`^Dune Flow, lot ${lot} `));
    const flow = found.getByRole("list", { name: "From the delivery to the teeth" });
    await screen.reads(
      flow,
      /^4 received 2 still here .* 1 on planned trays Tooth 16, Chart C-1007/,
    );
    await screen.reads(flow, / 4 teeth .*4 certain .*3 patients$/);
    await screen.reads(found, /They balance: nothing is left over/);
    const rows = found.getByRole("table", { name: "Teeth and patients" }).getByRole("row");
    expect(await rows.count()).toBe(1 + 4);
    await screen.tap(`Look at it by itself: ${lookAlike}`);
    await screen.reads(found, new RegExp(`^Dune Flow, lot ${lookAlike} `));
    await screen.close();
  });

  journey("enters the notice, sets all of it apart, and closes with a summary", async () => {
    const screen = await openOffice();
    const { page } = screen;
    await traceLot(screen);
    await screen.tap("Enter a withdrawal");
    const dialog = page.getByRole("dialog");
    await dialog.getByLabel("Reference of the notice").fill("FSN-7 (fictional)");
    expect(await dialog.getByLabel(`Dune Flow, lot ${lot}`).isChecked()).toBe(true);
    await screen.tap("Enter it", dialog);
    const main = page.getByRole("main");
    await screen.reads(main, /^FSN-7 \(fictional\) Notice entered by Kim Sandal/);
    const address = page.url();
    await screen.tap("Move 2 containers to quarantine");
    await screen.tap("Move 2 containers to quarantine", dialog);
    await screen.reads(main, /Nothing it covers is on a shelf any more/);

    await page.goto("/");
    await screen.tap(/C-1007/, page.getByRole("region", { name: "The day's trays" }));
    await screen.reads(main, /Withdrawn .*covered by withdrawal FSN-7/);
    await screen.reads(page.locator(".strip"), /^Stop /);

    await screen.tap("Receive");
    await page.getByRole("heading", { name: "A new delivery" }).waitFor();
    await screen.scan(makePack({ gtin: gtins.duneFlow, lot, useByDays: 300 }));
    const apart = page.getByRole("region", { name: /^Not put away/ });
    await screen.reads(apart, /Lot DF-118O .*This lot is withdrawn \(FSN-7/);
    await screen.tap("Show the withdrawal", apart);
    expect(page.url()).toBe(address);

    await screen.tap("Close the case");
    const summary = dialog.getByLabel("Summary");
    expect(await summary.inputValue()).toMatch(/Received 4; on the shelves 0, in quarantine 2/);
    await summary.fill(`${await summary.inputValue()} Both syringes went back to the supplier.`);
    await screen.tap("Close it", dialog);
    await screen.reads(main, /Closed .*Both syringes went back to the supplier/);
    await screen.close();
  });

  journey("goes from a patient's chart back to the lots", async () => {
    const screen = await openOffice();
    const { page } = screen;
    await screen.tap("Records");
    await page.getByLabel("Chart number").fill("C-1002");
    await screen.tap("Search");
    const lots = page.getByRole("table", { name: "What chart C-1002 carries" });
    // The later visit first.
    await screen.reads(lots, new RegExp(`25 .*Dune Flow ${lot} .*24 .*Dune Flow ${lot}`));
    await lots.getByRole("link", { name: lot }).first().click();
    await page.getByRole("heading", { name: `Trace of lot ${lot}` }).waitFor();
    await screen.close();
  });
});

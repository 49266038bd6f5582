/** Several labels of one pack: compared on the screen, received together or kept apart. */
import { describe, expect } from "@jest/globals";
import { journey } from "./browser.ts";
import { listAxeFindings, listSmallTargets, measureOverhang } from "./look.ts";
import { gtins, makePack } from "./packs.ts";
import type { Screen } from "./screen.ts";
import { serve } from "./served.ts";

const served = serve();
const open = "Several labels of one pack";
const phone = { viewport: { width: 390, height: 844 } };

/** The dialog, opened where a delivery begins or in one that has begun. */
async function openDialog(screen: Screen, hasBegun: boolean) {
  const { page } = screen;
  await screen.signIn("assistant");
  await page.goto("/receive");
  await page.getByLabel("Supplier").fill("Brook Supply (fictional)");
  if (hasBegun) {
    await screen.tap("Begin the delivery");
    await page.getByRole("heading", { level: 1, name: /^Delivery from Brook/ }).waitFor();
  }
  await screen.tap(open);
  const dialog = page.getByRole("dialog", { name: open });
  await dialog.waitFor();
  return { dialog, came: page.locator(".receive-lines") };
}

/** The row of a field in the table of the labels. */
const rowOf = (screen: Screen, field: string) =>
  screen.page.getByRole("row").filter({ has: screen.page.getByRole("rowheader", { name: field }) });

describe("a pack with several labels", () => {
  journey("is received as what they say together", async () => {
    const screen = await served.open();
    const { dialog, came } = await openDialog(screen, true);
    const receive = dialog.getByRole("button", { name: "Receive as one pack" });
    expect(await receive.isDisabled()).toBe(true);
    await screen.scan(`]E0${gtins.duneFlow.slice(1)}`);
    await screen.reads(rowOf(screen, "Identifier"), /09520000001070 on one label only/);
    await screen.scan(makePack({ gtin: gtins.duneFlow, lot: "DF-2301", useByDays: 400 }));
    await screen.reads(rowOf(screen, "Identifier"), /09520000001070 09520000001070 the same/);
    await screen.reads(rowOf(screen, "Lot"), /not said DF-2301 on one label only/);
    await screen.reads(dialog, /Taken together Dune Flow · Lot DF-2301 · use by/i);
    await screen.scan(makePack({ gtin: gtins.duneFlow, lot: "DF-2301", useByDays: 400 }));
    await screen.reads(dialog, /That label is here already/);
    await receive.click();
    await dialog.waitFor({ state: "detached" });
    await screen.reads(came, /Dune Flow just now Lot DF-2301/);
    await screen.close();
  });

  journey("is kept apart where two contradict each other, until one is taken away", async () => {
    const screen = await served.open(phone);
    const { page } = screen;
    const { dialog, came } = await openDialog(screen, false);
    const good = { gtin: gtins.duneFlow, lot: "DF-240O", useByDays: 400 };
    await screen.scan(makePack(good));
    await screen.scan(makePack({ ...good, lot: "DF-2400" }));
    await screen.reads(rowOf(screen, "Lot"), /DF-240O .*DF-2400 .*do not agree/);
    await screen.reads(dialog, /These labels contradict each other .*Ask the supplier/);
    expect(await dialog.getByRole("button", { name: "Receive as one pack" }).count()).toBe(0);
    expect(await listAxeFindings(page)).toEqual([]);
    expect(await listSmallTargets(page)).toEqual([]);
    expect(await measureOverhang(page)).toBe(0);

    await screen.tap("Set it aside", dialog);
    const apart = page.getByRole("region", { name: /^Not put away/ });
    await screen.reads(apart, /Dune Flow .*contradict each other.*receive the bottles separately/);
    await page.reload();
    await screen.tap("Compare the labels", apart);
    await screen.tap("Remove label 2", dialog);
    await screen.tap("Receive as one pack", dialog);
    await screen.reads(came, /Dune Flow just now Lot DF-240O/);
    await apart.waitFor({ state: "detached" });
    await screen.close();
  });
});

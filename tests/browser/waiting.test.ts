/** The second visit: who waits, a bonding planned from the list, bonded to its seal, and gone. */
import { describe, expect } from "@jest/globals";
import type { AnswerOf } from "#contracts/operations";
import { journey } from "./browser.ts";
import { inspect, waitUntilShown } from "./every-page.ts";
import type { Screen } from "./screen.ts";
import { serve } from "./served.ts";

const served = serve();

async function openList(role: "dentist" | "office"): Promise<Screen> {
  const screen = await served.open();
  await screen.signIn(role);
  await screen.page.goto("/records/waiting");
  await waitUntilShown(screen);
  screen.faults.splice(0);
  return screen;
}
const rowOf = ({ page }: Screen, name: string) =>
  page.locator("li.waiting-row").filter({ hasText: name });

/** The code of a container of the lot, as its own label has it. */
async function codeOf(screen: Screen, lot: string): Promise<string> {
  const { containers } = await screen.ask<AnswerOf<"listContainers">>("/containers");
  return containers.find((one) => one.lot === lot)!.code;
}

/** Works a begun record through the API, as the steps have journeys of their own. */
async function workAndSign(screen: Screen, trayId: string): Promise<string> {
  const { records } = await screen.ask<AnswerOf<"getTray">>(`/trays/${trayId}`);
  const { id } = records[0]!;
  const { steps } = await screen.ask<AnswerOf<"getRecord">>(`/records/${id}`);
  for (const { key: stepKey } of steps) {
    for (const kind of ["step-started", "step-done"]) {
      await screen.ask(`/records/${id}/events`, { kind, stepKey });
    }
  }
  await screen.ask(`/records/${id}/signature`, { password: "demo-dentist" });
  await screen.ask(`/trays/${trayId}/clearing`, { usedUp: [] });
  return id;
}

describe("a sealed tooth that waits", () => {
  journey("is found from Today, planned, bonded to its seal, and leaves the list", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("dentist");
    screen.faults.splice(0);
    const main = page.getByRole("main");
    await screen.reads(main, /3 restorations are overdue Sealed up to 40 days ago/);
    await screen.tap("See who waits");
    const row = rowOf(screen, "Tooth 16, chart C-1001");
    await screen.reads(row, /40 days overdue .* Grove Temp, lot GT-0031/);
    expect(await page.locator("li.waiting-row.overdue").count()).toBe(3);
    await row.getByText("What the surface needs").click();
    await screen.reads(row, /Remove the remnants .* Without eugenol all the same .* Clean/);
    await screen.tap("Plan bonding visit", row);
    await screen.reads(page.getByRole("heading", { level: 1 }), /^Plan a tray$/);
    expect(await page.getByLabel("Chart number").inputValue()).toBe("C-1001");
    const chosen = page.getByRole("radio", { name: /Bonding the restoration/ });
    expect(await chosen.isChecked()).toBe(true);
    await screen.tap("Plan the tray");
    await screen.reads(page.getByRole("heading", { level: 1 }), /^Tray for tooth 16/);
    await screen.reads(main, /What the sealed surface needs .* 40 days before the bonding/);
    const trayId = page.url().split("/").at(-1)!;
    await screen.scan(await codeOf(screen, "HC0088"));
    await screen.reads(page.locator(".strip"), /^(Clear|Caution) every step is set/);
    await screen.tap("Chairside");
    await screen.reads(main, /What the sealed surface needs .* Roughen the coat/);
    await page.getByRole("button", { name: /Start priming/ }).click();
    await page.getByRole("region", { name: "Isolate", exact: true }).waitFor();
    const bonding = await workAndSign(screen, trayId);

    await page.goto(`/records/${bonding}`);
    await screen.reads(main, /Builds on the seal signed .*, 40 days before/);
    await screen.tap("Open the sealing record");
    await screen.reads(main, /Bonded after 40 days, signed/);
    await page.goto("/records/waiting");
    await rowOf(screen, "Tooth 24, chart C-1002").waitFor();
    expect(await rowOf(screen, "chart C-1001").count()).toBe(0);
    await page.goto("/");
    await screen.reads(main, /2 restorations are overdue/);
    expect(screen.faults).toEqual([]);
    await screen.close();
  });

  journey("waits again once its bonding is corrected to build on no seal", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("dentist");
    const main = page.getByRole("main");
    const { records } = await screen.ask<AnswerOf<"listRecords">>("/records?chart=C-1001");
    await page.goto(`/records/${records.find(({ visit }) => visit === "bonding")!.id}`);
    screen.faults.splice(0);
    await screen.tap("Amend");
    await main.getByText("Correction: something is wrong").click();
    await page.getByLabel("Why", { exact: true }).fill("It belongs to another tooth.");
    await main.getByText("no seal on record").click();
    expect(await inspect(screen, "night")).toEqual([]);
    expect(await inspect(screen, "day")).toEqual([]);
    await page.setViewportSize({ width: 1280, height: 800 });
    await screen.tap("Use the password");
    await page.getByLabel("Password").fill("demo-dentist");
    await screen.tap("Sign the amendment");
    await screen.reads(main, /Builds on no seal on record/);
    await screen.tap("Side by side");
    await screen.reads(main, /1 new, 1 no longer/);
    await screen.reads(
      page.getByRole("region", { name: "Version 1" }),
      /no longer Builds on the seal signed .*, 40 days before/,
    );
    await page.goto("/records/waiting");
    await rowOf(screen, "Tooth 16, chart C-1001").waitFor();
    await screen.close();
  });

  journey("without a seal on record starts with a word of the dentist alone", async () => {
    const screen = await openList("dentist");
    const { page } = screen;
    const main = page.getByRole("main");
    await page.goto("/trays/plan?chart=C-1099&tooth=21");
    await waitUntilShown(screen);
    await page.getByText("Bonding the restoration").click();
    await screen.tap("Plan the tray");
    await screen.reads(main, /No seal of this tooth waits here/);
    await screen.scan(await codeOf(screen, "HC0088"));
    await screen.reads(page.locator(".strip"), /^(Clear|Caution) every step is set/);
    await screen.tap("Chairside");
    const start = page.getByRole("button", { name: /Start priming/ });
    await screen.reads(main, /Which seal is bonded to/);
    expect(await start.isDisabled()).toBe(true);
    await page.getByText("no seal on record").click();
    await start.click();
    await page.getByRole("region", { name: "Isolate", exact: true }).waitFor();
    expect(screen.faults).toEqual([]);
    await screen.close();
  });

  journey("is taken off the list with a reason, and put back", async () => {
    const screen = await openList("office");
    const { page } = screen;
    const row = rowOf(screen, "Tooth 25, chart C-1002");
    await screen.tap("Take off the list", row);
    const dialog = page.getByRole("dialog");
    const take = dialog.getByRole("button", { name: "Take off the list" });
    expect(await take.isDisabled()).toBe(true);
    await dialog.getByText("something else").click();
    expect(await take.isDisabled()).toBe(true);
    await dialog.getByText("patient moved away").click();
    await dialog.getByLabel("Note").fill("to the coast");
    expect(await inspect(screen, "day")).toEqual([]);
    await page.setViewportSize({ width: 1280, height: 800 });
    await take.click();
    await row.waitFor({ state: "detached" });
    await page.getByText("Taken off the list", { exact: true }).first().click();
    await screen.reads(row, /patient moved away, said .*: to the coast/);
    expect(new URL(page.url()).search).toBe("?list=off");
    await screen.tap("Put back onto the list", row);
    await row.waitFor({ state: "detached" });
    await page.getByText("All that wait").click();
    await row.waitFor();
    await screen.close();
  });

  journey("can be read by everybody, by day and night, at every size", async () => {
    const screen = await openList("dentist");
    await screen.page.getByText("What the surface needs").first().click();
    expect(await inspect(screen, "day")).toEqual([]);
    expect(await inspect(screen, "night")).toEqual([]);
    await screen.close();
  });

  journey("is saved as CSV with its days and its cement", async () => {
    const screen = await openList("dentist");
    const { page } = screen;
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      screen.tap("Save as CSV"),
    ]);
    expect(download.suggestedFilename()).toBe("waiting.csv");
    const parts: Buffer[] = [];
    for await (const part of await download.createReadStream()) parts.push(part as Buffer);
    const [head, ...lines] = Buffer.concat(parts).toString("utf8").split("\r\n");
    expect(head).toMatch(/^\uFEFFChart,Tooth,Sealed,Days,Overdue,/);
    const line = lines.find((one) => one.startsWith("C-1002,24,"));
    expect(line).toMatch(/^C-1002,24,\d{4}-\d\d-\d\d,33,overdue,.*Grove Temp,GT-0031,/);
    await screen.close();
  });
});

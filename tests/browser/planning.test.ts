/** Visits are planned, changed, taken over from a list, printed, and their trays put away. */
import { describe, expect } from "@jest/globals";
import type { Page } from "playwright-core";
import { clockAt } from "#domain";
import type { AnswerOf } from "#contracts/operations";
import { renderPdf } from "../helpers/read-back.ts";
import { journey } from "./browser.ts";
import { listAxeFindings, listSmallTargets, measureOverhang } from "./look.ts";
import { serve } from "./served.ts";

const served = serve();

async function looksRight(page: Page): Promise<void> {
  expect(await listAxeFindings(page)).toEqual([]);
  expect(await listSmallTargets(page)).toEqual([]);
  expect(await measureOverhang(page)).toBeLessThanOrEqual(0);
}

describe("planning", () => {
  journey("takes two teeth, each with its mode, and changes them later", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("assistant");
    await page.goto("/trays/plan");
    const main = page.getByRole("main");
    await page.getByLabel("Chart number").fill("C-2001");
    await main.getByText("Dentin sealing, universal adhesive").click();
    await screen.tap("16", page.getByRole("group", { name: "upper" }));
    await screen.tap("26", page.getByRole("group", { name: "upper" }));
    expect(await page.getByLabel("Teeth", { exact: true }).inputValue()).toBe("16 26");
    const second = page.getByRole("group", { name: "Tooth 26" });
    await second.getByText("etch-and-rinse", { exact: true }).click();
    await second.getByText("of resin").click();
    await second.getByLabel("Surfaces").fill("dox");
    await screen.tap("Plan the tray");
    await screen.reads(second, /Tooth 26 does not have these surfaces/);
    await second.getByLabel("Surfaces").fill("dom");
    expect(await listAxeFindings(page)).toEqual([]);
    expect(await listSmallTargets(page)).toEqual([]);
    await screen.tap("Plan the tray");
    await screen.reads(
      main,
      /Tooth 16 self-etch Tooth 26 MOD · etch-and-rinse · Provisional: of resin/,
    );
    // Both etching for the one tooth and keeping apart for its provisional are asked for.
    await screen.reads(main, /Etch enamel and dentin .*Separate/);

    await screen.tap("Change the visit");
    await screen.tap("26", page.getByRole("group", { name: "upper" }));
    await page.getByLabel("Time").fill("16:45");
    await screen.tap("Save");
    await screen.reads(main, /Tooth 16 self-etch/);
    await screen.reads(main, /16:45/);
    const steps = await page.getByRole("list", { name: /Steps of the technique/ }).innerText();
    expect(steps).not.toContain("Etch enamel and dentin");
    expect(await measureOverhang(page)).toBeLessThanOrEqual(0);
    await screen.close();
  });

  journey(
    "takes over a list line by line, mends what is wrong, and plans nothing twice",
    async () => {
      const screen = await served.open();
      const { page } = screen;
      await screen.signIn("assistant");
      await page.goto("/trays");
      await screen.tap("Plan from a list");
      const list = "Akte;Zahn;Uhrzeit;Behandlung\nC-2201;16, 26;9:30;\nC-2202;99;10:00;Polishing\n";
      const file = { name: "list.csv", mimeType: "text/csv", buffer: Buffer.from(list) };
      await page.getByLabel("Or a file").setInputFiles(file);
      const rows = page.getByRole("list").getByRole("listitem");
      const first = page.getByRole("listitem", { name: "Line 1" });
      const second = page.getByRole("listitem", { name: "Line 2" });
      await screen.reads(first, /tooth 16, 26, .*09:30/);
      await screen.reads(second, /one is no tooth; there is no technique of that name/);
      expect(await listAxeFindings(page)).toEqual([]);
      expect(await listSmallTargets(page)).toEqual([]);
      await second.getByLabel("Teeth").fill("36");
      await second.getByLabel("Technique").selectOption({ index: 0 });
      await screen.reads(second, /tooth 36, .*10:00/);
      await screen.tap("Plan 2 visits");
      await screen.reads(first, /^planned/);
      expect(await rows.filter({ hasText: "planned" }).count()).toBe(2);
      await page.reload();
      await page.getByLabel("Or a file").setInputFiles(file);
      // Seen before anything is planned, and not offered again.
      await screen.reads(first, /was planned already/);
      await screen.reads(second, /one is no tooth/);
      expect(await page.getByRole("button", { name: /^Plan \d/ }).count()).toBe(0);
      // RFC 5545, 3.3.5: a time of another zone, by the clock of the practice.
      const zoned = "DTSTART;TZID=America/New_York:20270119T020000\r\nSUMMARY:C-2203 16";
      const event = `BEGIN:VEVENT\r\nUID:1@example.com\r\n${zoned}\r\nEND:VEVENT`;
      const calendar = `BEGIN:VCALENDAR\r\nVERSION:2.0\r\n${event}\r\nEND:VCALENDAR\r\n`;
      await page.getByLabel("One visit a line").fill(calendar);
      await screen.tap("Read the list");
      const { practice } = await screen.ask<AnswerOf<"getSession">>("/session");
      const shown = clockAt("2027-01-19T07:00:00Z", practice.timeZone).time;
      await screen.reads(first, new RegExp(`tooth 16, 19 Jan 2027, ${shown}`));
      await page.getByLabel("Or a file").setInputFiles([]);
      await page.getByLabel("Or a file").setInputFiles(file);
      await screen.reads(first, /was planned already/);
      await screen.tap("Open", first);
      await screen.reads(page.getByRole("main"), /Tray for tooth 16, 26/);
      await screen.close();
    },
  );
});

describe("what a practice sets out time and again", () => {
  journey("is kept as a template of a tray, and suggested first where it is planned", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("assistant");
    const main = page.getByRole("main");
    const { trays } = await screen.ask<AnswerOf<"getToday">>("/today");
    const { id } = trays.find(({ chartNumber }) => chartNumber === "C-1015")!;
    await page.goto(`/trays/${id}`);
    await screen.tap("Make a template of it");
    const gel = page.getByRole("group", { name: /Glycerin/ });
    await gel.getByRole("checkbox", { name: "Ember Glycerin Gel" }).waitFor();
    expect(await gel.getByRole("checkbox", { name: "Ember Glycerin Gel" }).isChecked()).toBe(true);
    await page.getByLabel("Name", { exact: true }).fill("Crown, universal");
    await main.getByText("of resin").click();
    await looksRight(page);
    await screen.tap("Save");
    const row = page.getByRole("row", { name: /Crown, universal/ });
    await screen.reads(row, /Dentin sealing, universal adhesive Operatory 1 .*Ember Glycerin Gel/);
    await looksRight(page);

    await screen.tap("Plan with it", row);
    expect(await page.getByLabel("Template").locator("option:checked").innerText()).toBe(
      "Crown, universal",
    );
    await page.getByLabel("Chart number").fill("C-2301");
    await page.getByLabel("Teeth", { exact: true }).fill("46");
    await looksRight(page);
    await screen.tap("Plan the tray");
    await screen.reads(main, /Tooth 46 self-etch · Provisional: of resin/);

    await page.goto("/trays/templates");
    await screen.tap("Remove", row);
    await screen.tap("Remove", page.getByRole("dialog"));
    await screen.reads(main, /There is no template yet/);
    await screen.close();
  });

  journey("is printed as a list of the day, without what is for the screen alone", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("assistant");
    await page.goto("/trays");
    await page.getByRole("table").waitFor();
    const bytes = new Uint8Array(await page.pdf({ format: "A4", preferCSSPageSize: true }));
    const [first, ...more] = await renderPdf(bytes, 40);
    expect(more).toEqual([]);
    const text = first!.text.replace(/\s+/g, " ");
    expect(text).toMatch(/^Trays .*As checked .*Time Tooth Chart Technique Room State Set Check/);
    expect(text).toMatch(/C-1007 .*Stop/);
    for (const screenOnly of ["Day before", "Plan a tray", "Print", "Withdrawals"]) {
      expect(text).not.toContain(screenOnly);
    }
    await screen.close();
  });
});

describe("after the visit", () => {
  journey("scans send a tray's containers where each one goes", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("assistant");
    const { trays } = await screen.ask<AnswerOf<"getToday">>("/today");
    const { id } = trays.find(({ chartNumber }) => chartNumber === "C-1015")!;
    const { items } = await screen.ask<AnswerOf<"getTray">>(`/trays/${id}`);
    const gel = items.find(({ productName }) => productName === "Ember Glycerin Gel")!.container!;
    const { locations } = await screen.ask<AnswerOf<"listLocations">>("/locations");
    const fridge = locations.find(({ kind }) => kind === "refrigerator")!;
    await page.goto(`/trays/${id}`);
    await screen.tap("Put the tray away");
    const dialog = page.getByRole("dialog");
    const fate = dialog.getByLabel(/^Ember Glycerin Gel/);
    await fate.waitFor();
    const body = page.locator("body");
    const asked = { subjects: [{ kind: "location", id: fridge.id }] };
    const run = await screen.ask<AnswerOf<"makeLabels">>("/label-runs", asked);
    const place = run.labels[0]!.code;
    await screen.scan(place);
    await screen.reads(body, /Scan a container of this tray first/);
    await screen.scan(gel.code);
    await screen.reads(body, /Ember Glycerin Gel .* in hand/);
    await screen.scan(place);
    await fate.and(page.locator(".in-hand select")).waitFor();
    await fate
      .locator("option:checked")
      .filter({ hasText: `back to ${fridge.name}` })
      .waitFor({ state: "attached" });
    await looksRight(page);
    await screen.tap("Put the tray away", dialog);
    await screen.reads(body, /The tray is put away/);
    const { container } = await screen.ask<AnswerOf<"getContainer">>(`/containers/${gel.id}`);
    expect(container.location.id).toBe(fridge.id);
    await screen.close();
  });
});

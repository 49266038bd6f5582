/** A visit written on paper is entered afterwards; and a tray's containers go back. */
import { describe, expect } from "@jest/globals";
import type { AnswerOf } from "#contracts/operations";
import { journey } from "./browser.ts";
import { listAxeFindings, listSmallTargets } from "./look.ts";
import type { Screen } from "./screen.ts";
import { serve } from "./served.ts";

const served = serve();
const hourMs = 3_600_000;

/** A tray an hour ago whose one step takes no material; gives its id. */
async function planPast(screen: Screen): Promise<string> {
  const steps = [{ key: "isolate", name: "Isolate" }];
  const body = { name: "Isolating alone", visit: "sealing", steps };
  const technique = await screen.ask<AnswerOf<"addTechnique">>("/techniques", body);
  const { locations } = await screen.ask<AnswerOf<"listLocations">>("/locations");
  const tray = await screen.ask<AnswerOf<"planTray">>("/trays", {
    chartNumber: "C-4000",
    teeth: [{ tooth: "16" }],
    techniqueId: technique.id,
    locationId: locations.find(({ kind }) => kind === "operatory")!.id,
    appointmentAt: new Date(Date.now() - hourMs).toISOString(),
  });
  return tray.id;
}

async function looksRight({ page }: Screen): Promise<void> {
  expect(await listAxeFindings(page)).toEqual([]);
  expect(await listSmallTargets(page)).toEqual([]);
}

describe("after a time without the system", () => {
  journey("a visit is entered from paper with the time at which it happened", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("dentist");
    const trayId = await planPast(screen);
    await page.goto(`/trays/${trayId}/chairside`);
    await screen.tap("Enter from paper");
    const dialog = page.getByRole("dialog");
    await screen.reads(dialog, /When did priming begin.*keeps this time/);
    await looksRight(screen);
    await screen.tap("Begin the entry", dialog);
    const step = page.getByRole("region", { name: "Isolate", exact: true });
    await screen.reads(step, /Told later: say when it was done/);
    await step.getByLabel("Seconds, if they were timed").fill("45");
    await looksRight(screen);
    await screen.tap("It was done then");
    await screen.tap("Use the password");
    await page.getByLabel("Password").fill("demo-dentist");
    await screen.tap("Sign the record");
    const main = page.getByRole("main");
    await screen.reads(main, /Signed by Dr. Noor Falk/);
    await screen.tap("The whole record");
    await screen.reads(main, /Told later, /);
    await screen.reads(main, /Isolate: done .*45 s by the timer .*entered /);
    await screen.close();
  });

  journey("there is a sheet to write on for every visit of the day", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("assistant");
    await page.goto("/trays");
    const href = await page.getByRole("link", { name: "Sheet for downtime" }).getAttribute("href");
    const answer = await page.evaluate(async (address) => {
      const response = await fetch(address);
      return { type: response.headers.get("Content-Type"), size: (await response.blob()).size };
    }, href ?? "");
    expect(answer.type).toBe("application/pdf");
    expect(answer.size).toBeGreaterThan(5_000);
    await screen.close();
  });
});

journey("a tray put away sends each container where it belongs", async () => {
  const screen = await served.open();
  const { page } = screen;
  await screen.signIn("assistant");
  const { trays } = await screen.ask<AnswerOf<"getToday">>("/today");
  const { id } = trays.find(({ chartNumber }) => chartNumber === "C-1015")!;
  const tray = await screen.ask<AnswerOf<"getTray">>(`/trays/${id}`);
  const gel = tray.items.find(({ productName }) => productName === "Ember Glycerin Gel")!;
  await page.goto(`/trays/${id}`);
  await screen.tap("Put the tray away");
  const dialog = page.getByRole("dialog");
  const fate = dialog.getByLabel(/^Ember Glycerin Gel/);
  await fate.selectOption("discarded");
  const putAway = dialog.getByRole("button", { name: "Put the tray away" });
  expect(await putAway.isDisabled()).toBe(true);
  await dialog.getByLabel("Why it is thrown away").fill("tip blocked");
  await looksRight(screen);
  await putAway.click();
  await screen.reads(page.locator("body"), /The tray is put away/);
  const found = await screen.ask<AnswerOf<"getContainer">>(`/containers/${gel.container!.id}`);
  expect(found.container.state).toBe("discarded");
  await screen.close();
});

/** The assistant: a tray set by scans, over a bad network as well, and a delivery at the door. */
import { describe, expect } from "@jest/globals";
import { journey } from "./browser.ts";
import { gtins, makePack } from "./packs.ts";
import type { Screen } from "./screen.ts";
import { serve } from "./served.ts";

const served = serve();

/** The step of a tray that bears the name. */
const stepOf = ({ page }: Screen, name: string) =>
  page.getByRole("listitem").filter({ has: page.getByRole("button", { name: `${name}:` }) });
const stripOf = ({ page }: Screen) => page.locator(".strip");

/** Signs in by hand and opens the tray of chart C-1007. */
async function openTray(): Promise<Screen> {
  const screen = await served.open();
  const { page } = screen;
  await page.goto("/");
  await page.getByLabel("Sign-in name").fill("assistant");
  await page.getByLabel("Password").fill("demo-assistant");
  await screen.tap("Sign in");
  const day = page.getByRole("region", { name: "The day's trays" });
  await day.getByRole("link").first().waitFor();
  expect(await day.getByRole("link").count()).toBe(3);
  await screen.tap(/C-1007/, day);
  await screen.reads(page.getByRole("heading", { level: 1 }), /^Tray for tooth 16, chart C-1007$/);
  return screen;
}

/** The code of the container that a step says to fetch. */
async function readFetch(screen: Screen, step: string, place: string): Promise<string> {
  const [, code = ""] = await screen.reads(
    stepOf(screen, step),
    new RegExp(`Take (\\S+)(?: \\([^)]+\\))? from ${place}`),
  );
  return code.replace("-", "");
}

describe("the assistant", () => {
  journey("changes a tray's verdict by the containers that it names", async () => {
    const screen = await openTray();
    const { page } = screen;
    const prime = stepOf(screen, "Prime");
    await screen.reads(prime, /Open too long.*usable through/);
    await screen.reads(stripOf(screen), /^Stop 2 steps to fill · 1 stop/);
    const primer = await readFetch(screen, "Prime", "Refrigerator");
    const gel = await readFetch(screen, "Glycerin and final cure", "Operatory 1");
    const separator = await readFetch(screen, "Separate", "Operatory 1");

    await screen.tap("Remove: Alder Primer");
    await screen.reads(prime, /scan it in/);
    const field = page.getByRole("textbox", { name: "Label or container code" });
    await field.fill("half a word");
    await screen.scan(primer);
    await screen.reads(prime, /Alder Primer ends .* Lot AP-2304/);
    await screen.scan(gel);
    await screen.reads(stripOf(screen), /1 step to fill/);
    await screen.scan(separator);
    await screen.reads(stripOf(screen), /^(Clear|Caution) every step is set/);
    expect(await field.inputValue()).toBe("half a word");
    expect(await prime.innerText()).not.toContain("Open too long");
    await screen.close();
  });

  journey("sends a scan once when the network goes before its answer", async () => {
    const screen = await openTray();
    const { page, context } = screen;
    const cement = await readFetch(screen, "Provisional", "Store");
    const keys: string[] = [];
    page.on("request", (request) => {
      const isScan = request.method() === "POST" && request.url().endsWith("/items");
      if (isScan) keys.push(request.headers()["idempotency-key"] ?? "");
    });
    await page.route("**/items", async (route) => {
      // The server has done it, and nobody hears so.
      await route.fetch();
      await context.setOffline(true);
      await route.abort();
    });
    await screen.scan(cement);
    const header = page.getByRole("banner");
    await screen.reads(header, /1 not yet sent/);
    await screen.reads(stepOf(screen, "Provisional"), /Grove Temp .* sent later, not yet checked/);
    await screen.reads(stripOf(screen), /1 not yet sent .* last checked/);
    expect(new Set(keys).size).toBe(1);

    await page.unroute("**/items");
    await context.setOffline(false);
    await screen.reads(stripOf(screen), / · checked /);
    await screen.reads(stepOf(screen, "Provisional"), /Grove Temp ends .* Lot GT-0031/);
    expect(await header.innerText()).not.toContain("not yet sent");
    expect(keys.length).toBeGreaterThan(1);
    expect(new Set(keys).size).toBe(1);
    await page.reload();
    await screen.reads(stepOf(screen, "Provisional"), /Grove Temp ends/);
    expect(await page.getByRole("button", { name: "Remove: Grove Temp" }).count()).toBe(1);
    await screen.close();
  });

  journey("finds every page while the network is away", async () => {
    const screen = await served.open();
    const { page, context } = screen;
    const lastCode = page.waitForResponse(/\/assets\/PracticePage-.*\.js$/);
    await screen.signIn("assistant");
    await lastCode.then((response) => response.finished());
    await context.setOffline(true);
    for (const name of ["Shelf", "Records", "Practice"]) {
      await screen.tap(name);
      await page.getByRole("heading", { level: 1, name }).waitFor();
    }
    await screen.reads(page.getByRole("complementary"), /The server does not answer/);
    await screen.close();
  });

  journey("receives what is good and keeps the rest apart with its next step", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("assistant");
    await screen.tap("Receive");
    await page.getByLabel("Supplier").fill("Meadow Supply (fictional)");
    const good = { gtin: gtins.duneFlow, lot: "DF-2201", useByDays: 500, serial: "S1" };
    await screen.scan(makePack(good));
    const came = page.locator("section", {
      has: page.getByRole("heading", { name: "What came in" }),
    });
    await screen.reads(came, /Dune Flow just now Lot DF-2201 · use by .* · serial S1/);
    await screen.reads(page.getByRole("heading", { level: 1 }), /^Delivery from Meadow Supply/);

    await screen.scan(makePack({ ...good, lot: "DF-2105", useByDays: -3, serial: "S2" }));
    const apart = page.getByRole("region", { name: /^Not put away/ });
    await screen.reads(
      apart,
      /Dune Flow Lot DF-2105 .*past its use-by date .*return it to the supplier/,
    );

    await screen.scan(makePack({ gtin: gtins.unknown, lot: "ZZ-1", useByDays: 400 }));
    const form = page.getByRole("dialog", { name: "Not in the catalogue yet" });
    await screen.reads(form, new RegExp(`${gtins.unknown} Lot ZZ-1 use by`));
    expect(await form.getByLabel("Identifier", { exact: true }).inputValue()).toBe(gtins.unknown);
    await form.getByLabel("Name", { exact: true }).fill("Willow Gel");
    await form.getByLabel("Kind").selectOption("glycerin-gel");
    await screen.tap("Register and receive", form);
    await screen.reads(came, /2 containers · 2 products .*Willow Gel just now Lot ZZ-1/);
    await screen.reads(apart, /^Not put away: 1 /);
    await screen.tap("Set apart: done", apart);
    await apart.waitFor({ state: "detached" });
    await screen.close();
  });
});

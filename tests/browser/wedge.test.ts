/** A scanner in a real browser: whatever has the focus, a scan is read and nothing of it leaks. */
import { describe, expect } from "@jest/globals";
import { usualScannerProfile } from "#labels";
import { journey } from "./browser.ts";
import type { ScannerAtHost } from "./scanner-keys.ts";
import type { Screen } from "./screen.ts";
import { serve } from "./served.ts";

const served = serve();
const label = "]d2010950600013435210Lot-7a\u001d21S9";

/** Every kind of thing that can have the focus, each with something in it, on a page of the app. */
const controls = {
  text: `<input type="text" value="half a word">`,
  search: `<input type="search" value="">`,
  number: `<input type="number" value="12">`,
  "empty number": `<input type="number">`,
  email: `<input type="email" value="a@b.example">`,
  password: `<input type="password" value="secret">`,
  date: `<input type="date" value="2026-11-25">`,
  "empty date": `<input type="date">`,
  time: `<input type="time" value="08:15">`,
  "empty time": `<input type="time">`,
  textarea: `<textarea>two\nlines</textarea>`,
  select: `<select><option>one</option><option>]d2</option><option selected>two</option></select>`,
  button: `<button type="button">press</button>`,
  submit: `<button type="submit">send</button>`,
  link: `<a href="#leaked">follow</a>`,
  checkbox: `<input type="checkbox">`,
  radio: `<input type="radio" name="r"><input type="radio" name="r" checked>`,
  range: `<input type="range" value="30">`,
  details: `<details><summary>more</summary>text</details>`,
  "edited text": `<div contenteditable="true">as <b>it</b> was</div>`,
} as const;

/** Puts the controls on the page and counts what is pressed, sent, followed or typed there. */
async function layOut({ page }: Screen): Promise<void> {
  await page.evaluate((all) => {
    const form = document.createElement("form");
    form.id = "bench";
    for (const [name, html] of Object.entries(all)) {
      const place = document.createElement("div");
      place.dataset["name"] = name;
      place.innerHTML = html;
      form.append(place);
    }
    const told: string[] = [];
    Object.assign(window, { told });
    form.addEventListener("click", () => told.push("click"));
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      told.push("submit");
    });
    window.addEventListener("keydown", ({ key }) => told.push(`key ${key}`));
    document.querySelector("main")?.append(form);
  }, controls);
}

const focusable = "input, textarea, select, button, a, summary, [contenteditable]";

/** What a person would see of a control, and whether it still has the focus. */
const stateOf = ({ page }: Screen, name: string) =>
  page.evaluate(
    ([wanted, any]) => {
      const place = document.querySelector(`[data-name="${wanted}"]`)!;
      const [one] = place.querySelectorAll<HTMLInputElement>(any);
      const all = Array.from(place.querySelectorAll<HTMLInputElement>("input"));
      return {
        value: one!.value ?? null,
        bad: one!.validity?.badInput ?? false,
        checked: all.map(({ checked }) => checked),
        open: place.querySelector("details")?.open ?? false,
        text: place.textContent,
        address: location.href,
      };
    },
    [name, focusable] as const,
  );

const focus = ({ page }: Screen, name: string) =>
  page.locator(`[data-name="${name}"]`).locator(focusable).first().focus();

/** What reached the page since it was asked last. */
const told = ({ page }: Screen): Promise<string[]> =>
  page.evaluate(() => (window as unknown as { told: string[] }).told.splice(0));

/** The dialog that says what a scan is, and away with it. */
async function readDialog(screen: Screen): Promise<string> {
  const dialog = screen.page.getByRole("dialog", { name: "What is this?" });
  const [text] = await screen.reads(dialog, /.*Serial \S+/);
  await screen.page.keyboard.press("Escape");
  await dialog.waitFor({ state: "detached" });
  return text;
}

async function openBench(keep: object | null = null): Promise<Screen> {
  const screen = await served.open();
  await screen.signIn("assistant");
  await screen.page.evaluate((kept) => {
    if (kept !== null) localStorage.setItem("tubule.scanner", JSON.stringify(kept));
  }, keep);
  await screen.page.goto("/practice/cautions");
  await screen.page.getByRole("heading", { level: 1 }).waitFor();
  await layOut(screen);
  return screen;
}

async function expectNoLeak(screen: Screen, name: string, at: ScannerAtHost = {}): Promise<void> {
  await focus(screen, name);
  const before = await stateOf(screen, name);
  await told(screen);
  await screen.scan(label, at);
  expect([name, await readDialog(screen)]).toEqual([
    name,
    expect.stringMatching(/Lot Lot-7a Serial S9$/),
  ]);
  expect([name, await stateOf(screen, name)]).toEqual([name, before]);
  const reached = (await told(screen)).filter((each) => !/^key (Shift|Control|Escape)$/.test(each));
  // The first key, or in a text the first two, cannot be known for a scanner's.
  const typed = reached.filter((each) => /^key (.|Dead)$/u.test(each));
  expect([name, typed.length <= 2, reached.filter((each) => !typed.includes(each))]).toEqual([
    name,
    true,
    [],
  ]);
}

describe("a scan", () => {
  journey("is read with the focus anywhere, and leaves nothing there", async () => {
    const screen = await openBench();
    for (const name of Object.keys(controls)) await expectNoLeak(screen, name);
    await screen.close();
  });

  journey("ended by Tab moves no focus, and one ended by a pause is read as well", async () => {
    // A loaded machine may hold keys back for longer than a scanner ever does.
    const profile = { ...usualScannerProfile, endKey: "none", maxGapMs: 60 };
    const silent = await openBench({ profile, setUpAt: null });
    for (const name of ["text", "empty date", "button", "edited text"]) {
      await expectNoLeak(silent, name, { end: "none" });
    }
    await silent.close();
    const screen = await openBench();
    await expectNoLeak(screen, "text", { end: "Tab" });
    await expectNoLeak(screen, "select", { end: "Tab" });
    await screen.close();
  });

  journey("opens no tool of the browser by a function key or Ctrl and a letter", async () => {
    const profile = { ...usualScannerProfile, gsTokens: ["{F8}"] };
    const screen = await openBench({ profile, setUpAt: null });
    await expectNoLeak(screen, "textarea", { separator: "{F8}" });
    await focus(screen, "text");
    await told(screen);
    await screen.scan("]d2010950600013435210Lot\u000621S9");
    await screen.page.getByRole("dialog", { name: "Not read" }).waitFor();
    expect((await told(screen)).filter((each) => /key [fp]$/i.test(each))).toEqual([]);
    await screen.close();
  });

  journey("from a scanner set to another keyboard is read by the places of its keys", async () => {
    const profile = { ...usualScannerProfile, keyboard: "by-position" };
    const screen = await openBench({ profile, setUpAt: null });
    for (const host of ["DE", "FR", "CH"] as const) {
      await expectNoLeak(screen, "text", { host });
      await expectNoLeak(screen, "button", { host, caps: true });
    }
    await screen.close();
  });

  journey("with Caps Lock on is refused in words, and no lot is taken from it", async () => {
    const screen = await openBench();
    await focus(screen, "text");
    // Without its identifier nothing else would tell.
    await screen.scan("010950600013435210Lot-7a", { caps: true });
    const dialog = screen.page.getByRole("dialog", { name: "Not read" });
    await screen.reads(dialog, /Caps Lock is on/);
    await screen.tap("Set the scanner up", dialog);
    await screen.page.getByRole("heading", { name: "This device's scanner" }).waitFor();
    await screen.close();
  });

  journey("in which a separator may be lost is shown before it is taken", async () => {
    const screen = await openBench();
    await screen.scan("]d2010950600013435210LOT717280331");
    const doubt = screen.page.getByRole("dialog", { name: "Is this the lot on the label?" });
    await screen.reads(doubt, /Lot LOT717280331/);
    await screen.tap("It is as printed", doubt);
    await screen.reads(screen.page.getByRole("dialog", { name: "What is this?" }), /LOT717280331/);
    await screen.close();
  });
});

describe("a person", () => {
  journey("types between scans, and every key arrives", async () => {
    const screen = await openBench();
    const { page } = screen;
    const field = page.locator('[data-name="search"] input');
    for (const [text, delay] of [
      ["sealed", 60],
      [" with two ", 90],
      ["COATS", 120],
    ] as const) {
      await focus(screen, "search");
      await page.keyboard.press("End");
      await page.keyboard.type(text, { delay });
      await screen.scan(label);
      await readDialog(screen);
    }
    expect(await field.inputValue()).toBe("sealed with two COATS");
    await focus(screen, "button");
    // The scans' keys bear times of their own, up to half a second ahead.
    await page.waitForTimeout(600);
    await told(screen);
    await page.keyboard.press("Enter");
    expect((await told(screen)).filter((each) => each.startsWith("click"))).toHaveLength(1);
    await screen.close();
  });
});

describe("on the pages", () => {
  journey("no field of a form gets a key of a scan", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("owner");
    for (const address of [
      "/practice/people",
      "/practice/places",
      "/receive",
      "/records",
      "/withdrawals",
      "/catalogue/new",
    ]) {
      await page.goto(address);
      const fields = page.locator("main").locator("input:not([type]), input[type=text]");
      const field = fields.filter({ visible: true }).first();
      await field.fill("as it was");
      await screen.scan(label);
      await page.waitForTimeout(600);
      const values = await page
        .locator("input:not([type=radio]):not([type=checkbox])")
        .evaluateAll((all) => all.map((one) => (one as HTMLInputElement).value));
      // A page may take the lot for what is asked for; the keys as such are nowhere.
      expect([address, values.filter((value) => /\]d|d20|0109/.test(value))]).toEqual([
        address,
        [],
      ]);
    }
    await screen.close();
  });
});

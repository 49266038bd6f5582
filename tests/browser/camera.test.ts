/** Scanning without a scanner: by the camera, with either decoder, and by a photo. */
import { afterAll, describe, expect } from "@jest/globals";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import type { Locator } from "playwright-core";
import { journey } from "./browser.ts";
import { waitUntilShown } from "./every-page.ts";
import { makePhoto, writeFilm, type Label } from "./label-video.ts";
import { listAxeFindings, listSmallTargets, measureOverhang, sizes } from "./look.ts";
import { hibcCheckCharacter } from "#labels";
import { gtins, makePack } from "./packs.ts";
import type { Screen } from "./screen.ts";
import { serve } from "./served.ts";

const folder = mkdtempSync(path.join(tmpdir(), "tubule-film-"));
const film = path.join(folder, "film.y4m");
afterAll(() => rmSync(folder, { recursive: true, force: true }));

// Chromium reads the film anew each time the camera is opened.
const served = serve(
  [],
  [
    "--use-fake-ui-for-media-stream",
    "--use-fake-device-for-media-stream",
    `--use-file-for-fake-video-capture=${film}`,
  ],
);

const stepOf = ({ page }: Screen, name: string): Locator =>
  page.getByRole("listitem").filter({ has: page.getByRole("button", { name: `${name}:` }) });

// The slower decoder on a machine that does much else.
const readWithinMs = 60_000;
const waitForStep = (screen: Screen, name: string, text: RegExp): Promise<void> =>
  stepOf(screen, name).filter({ hasText: text }).waitFor({ timeout: readWithinMs });
const cameraOf = ({ page }: Screen): Locator => page.getByRole("region", { name: "Camera" });
const pictureOf = (screen: Screen): Locator => cameraOf(screen).locator("video");
const openCamera = ({ page }: Screen): Promise<void> =>
  page.getByRole("banner").getByRole("button", { name: "Camera" }).click();

/** The tray of a chart, with the assistant before it. */
async function openTray(screen: Screen, chart: string): Promise<void> {
  await screen.signIn("assistant");
  await screen.tap(new RegExp(chart), screen.page.getByRole("region", { name: "The day's trays" }));
  await screen.reads(screen.page.getByRole("heading", { level: 1 }), new RegExp(chart));
  // At the door the browser notes that nobody is signed in.
  screen.faults.splice(0);
}

/** The label of the container that a step of the tray says to fetch. */
async function labelToFetch(screen: Screen, step: string): Promise<Label> {
  const [, code = ""] = await screen.reads(stepOf(screen, step), /Take (\S+)/);
  const text = `(91)${code.replace("-", "")}`;
  return { bcid: "gs1datamatrix", text, left: 532, top: 252, pixelsPerModule: 9 };
}

/** A pack of the trade with its brackets, as it is drawn. */
const packLabel = (lot: string): Label => {
  const sent = makePack({ gtin: gtins.duneFlow, lot, useByDays: 400 });
  const [, gtin, useBy] = /^\]d201(\d{14})17(\d{6})/.exec(sent)!;
  const text = `(01)${gtin}(17)${useBy}(10)${lot}`;
  return { bcid: "gs1datamatrix", text, left: 520, top: 230, pixelsPerModule: 8 };
};

/** The two symbols of one label, as ANSI/HIBC 2.6-2016 has them: linked, each with its check. */
function makeHibcPair(lot: string): [string, string] {
  const withCheck = (text: string) => text + hibcCheckCharacter(text);
  const primary = withCheck("+A99912340");
  return [primary, withCheck(`+$$3271031${lot}${primary.at(-1)}`)];
}

/** Lets go of a photo above the page, or pastes it. */
async function givePhoto({ page }: Screen, photo: Buffer, way: "drop" | "paste"): Promise<void> {
  await page.evaluate(
    ([base64, type]) => {
      const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
      const given = new DataTransfer();
      given.items.add(new File([bytes], "label.png", { type: "image/png" }));
      const usual = { bubbles: true, cancelable: true };
      document.body.dispatchEvent(
        type === "drop"
          ? new DragEvent("drop", { ...usual, dataTransfer: given })
          : new ClipboardEvent("paste", { ...usual, clipboardData: given }),
      );
    },
    [photo.toString("base64"), way] as const,
  );
}

describe("the camera", () => {
  journey("reads one bottle after the other into a tray", async () => {
    const screen = await served.open({ permissions: ["camera"] });
    await openTray(screen, "C-1007");
    const gel = await labelToFetch(screen, "Glycerin and final cure");
    const separator = await labelToFetch(screen, "Separate");
    await writeFilm(film, [[gel], [separator]], 10);
    await openCamera(screen);
    await waitForStep(screen, "Glycerin and final cure", /Ember Glycerin Gel\s*ends/);
    await waitForStep(screen, "Separate", /Fern Separator\s*ends/);
    await screen.reads(cameraOf(screen), /Read: C\w\w-\w{4} Each label counts once/);
    expect(await cameraOf(screen).innerText()).not.toContain("slower decoder");
    expect(screen.faults).toEqual([]);

    const stream = await pictureOf(screen).evaluateHandle(
      (video: HTMLVideoElement) => video.srcObject,
    );
    const isOn = () => stream.evaluate((open) => (open as MediaStream).active);
    expect(await isOn()).toBe(true);
    await screen.page.keyboard.press("Escape");
    await cameraOf(screen).waitFor({ state: "detached" });
    expect(await isOn()).toBe(false);
    await screen.close();
  });

  journey("reads with the script where WebAssembly is missing", async () => {
    const screen = await served.open({ permissions: ["camera"] });
    await screen.page.route("**/decode-worker-*.js", async (route) => {
      const response = await route.fetch();
      const body = `delete globalThis.WebAssembly;\n${await response.text()}`;
      await route.fulfill({ response, body });
    });
    await openTray(screen, "C-1007");
    await writeFilm(film, [[await labelToFetch(screen, "Provisional")]], 4);
    await openCamera(screen);
    await waitForStep(screen, "Provisional", /Grove Temp\s*ends/);
    await screen.reads(cameraOf(screen), /Reads with the slower decoder/);
    await screen.close();
  });

  journey("stays in reach before a dialog, and goes on with the next page", async () => {
    const screen = await served.open({ permissions: ["camera"] });
    const { page } = screen;
    await screen.signIn("assistant");
    await writeFilm(film, [[packLabel("DF-118O")]], 4);
    await openCamera(screen);
    // Today takes no scan: what it is opens as a dialog.
    const dialog = page.getByRole("dialog", { name: "What is this?" });
    await screen.reads(dialog, /Dune Flow/);
    await screen.tap("Trace this lot", dialog);
    await page.getByRole("heading", { level: 1, name: "Withdrawals" }).waitFor();
    const isPlaying = () => pictureOf(screen).evaluate((video: HTMLVideoElement) => !video.paused);
    expect(await isPlaying()).toBe(true);

    await page.getByRole("button", { name: /^Asa Linden/ }).click();
    const menu = page.getByRole("dialog", { name: "Asa Linden" });
    await menu.waitFor();
    await cameraOf(screen).getByRole("button", { name: "Camera: Close" }).focus();
    await page.keyboard.press("Escape");
    await cameraOf(screen).waitFor({ state: "detached" });
    expect(await menu.isVisible()).toBe(true);
    await screen.close();
  });

  journey("is fit for use at every size, by day and night", async () => {
    const screen = await served.open({ permissions: ["camera"] });
    const { page } = screen;
    await writeFilm(film, [[]], 2);
    await openTray(screen, "C-1012");
    await openCamera(screen);
    await screen.reads(cameraOf(screen), /Hold a label into the picture/);
    const faults = await listSmallTargets(page);
    for (const size of sizes) {
      await page.setViewportSize(size);
      for (const colorScheme of ["light", "dark"] as const) {
        await page.emulateMedia({ colorScheme, reducedMotion: "reduce" });
        faults.push(...(await listAxeFindings(page)));
      }
      const overhang = await measureOverhang(page);
      if (overhang > 0) faults.push(`at ${size.width} px: ${overhang} px too wide`);
    }
    expect(faults).toEqual([]);
    await screen.close();
  });

  journey("says in words that it was refused, and how to mend that", async () => {
    const screen = await served.open();
    const { page } = screen;
    await page.addInitScript(() => {
      navigator.mediaDevices.getUserMedia = () =>
        Promise.reject(new DOMException("Permission denied", "NotAllowedError"));
    });
    await openTray(screen, "C-1015");
    await openCamera(screen);
    await screen.reads(cameraOf(screen), /The camera is not allowed .* Try again/);
    await screen.close();
  });
});

describe("a photo", () => {
  journey("dropped on the page is read as a scan", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("assistant");
    await screen.tap("Receive");
    await page.getByLabel("Supplier").fill("Meadow Supply (fictional)");
    await givePhoto(screen, makePhoto([packLabel("DF-3301")]), "drop");
    await screen.reads(page.getByRole("main"), /Dune Flow just now Lot DF-3301/);
    await screen.close();
  });

  journey("pasted with both halves of a label is read as one label", async () => {
    const screen = await served.open();
    const { page } = screen;
    await screen.signIn("assistant");
    await waitUntilShown(screen);
    const [primary, secondary] = makeHibcPair("LOT7");
    const place = { bcid: "datamatrix", top: 230, pixelsPerModule: 8 } as const;
    // The half with the lot stands first.
    const labels = [
      { ...place, text: secondary, left: 220 },
      { ...place, text: primary, left: 720 },
    ];
    await givePhoto(screen, makePhoto(labels), "paste");
    const dialog = page.getByRole("dialog", { name: "What is this?" });
    await screen.reads(dialog, /Identifier A99912340 Lot LOT7 Use-by date 31 October 2027/);
    await screen.close();
  });

  journey("chosen without a camera at a plain address is read, with the way to https", async () => {
    const screen = await served.open();
    const { page } = screen;
    await page.addInitScript(() => {
      Object.defineProperty(window, "isSecureContext", { value: false });
    });
    await screen.signIn("assistant");
    await waitUntilShown(screen);
    await openCamera(screen);
    const dialog = page.getByRole("dialog", { name: "No camera at this address" });
    await dialog.getByRole("link", { name: "Let this device trust Tubule" }).waitFor();
    expect(await listAxeFindings(page)).toEqual([]);
    await dialog.locator("input[type=file]").setInputFiles({
      name: "label.png",
      mimeType: "image/png",
      buffer: makePhoto([packLabel("DF-118O")]),
    });
    await screen.reads(page.getByRole("dialog", { name: "What is this?" }), /Dune Flow/);
    await screen.close();
  });
});

/**
 * The browser of the journeys: the one that `CHROME_PATH` names, an installed Chromium or Chrome, or
 * the one that a package brings. Where there is none, a journey is skipped and its name says why.
 */
import { execFile, spawnSync } from "node:child_process";
import { constants } from "node:fs";
import { access, mkdir, mkdtemp, rename, rm, writeFile } from "node:fs/promises";
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";
import { promisify } from "node:util";
import { test } from "@jest/globals";
import { chromium, type Browser } from "playwright-core";
import { isRoot } from "../helpers/embedded.ts";

interface FoundBrowser {
  file: string;
  /** What it needs of the environment besides what the tests have. */
  env: Record<string, string>;
}

const canRun = (file: string): Promise<boolean> =>
  access(file, constants.X_OK).then(
    () => true,
    () => false,
  );

/** Where an installed one stands, by operating system. */
function listPlaces(): string[] {
  const { PATH = "", ProgramFiles, "ProgramFiles(x86)": x86, LOCALAPPDATA } = process.env;
  if (process.platform === "darwin") {
    return ["Chromium", "Google Chrome"].map(
      (name) => `/Applications/${name}.app/Contents/MacOS/${name}`,
    );
  }
  if (process.platform === "win32") {
    const roots = [ProgramFiles, x86, LOCALAPPDATA].flatMap((root) => root ?? []);
    return ["Chromium", "Google/Chrome"].flatMap((name) =>
      roots.map((root) => path.join(root, name, "Application", "chrome.exe")),
    );
  }
  const names = ["chromium", "chromium-browser", "google-chrome", "google-chrome-stable"];
  const folders = PATH.split(path.delimiter).filter((folder) => folder !== "");
  return names.flatMap((name) => folders.map((folder) => path.join(folder, name)));
}

/** A browser, or the reason why there is none. */
async function findBrowser(): Promise<FoundBrowser | string> {
  const named = process.env["CHROME_PATH"] ?? "";
  if (named !== "") {
    return (await canRun(named)) ? { file: named, env: {} } : `CHROME_PATH ${named} cannot be run`;
  }
  for (const file of listPlaces()) if (await canRun(file)) return { file, env: {} };
  if (process.platform !== "linux" || process.arch !== "x64") {
    return "no Chromium or Chrome is installed; CHROME_PATH can name one";
  }
  return findBrought();
}

/** The browser that the package brings, unpacked once into its own folder. */
async function findBrought(): Promise<FoundBrowser | string> {
  const folder = path.resolve("node_modules", ".cache", "tubule-browser");
  const file = path.join(folder, "chromium");
  try {
    const entry = createRequire(import.meta.url).resolve("@sparticuz/chromium");
    if (!(await canRun(file))) await unpack(entry, folder);
  } catch (error) {
    return `none is installed, and none could be unpacked: ${String(error)}`;
  }
  const fonts = { FONTCONFIG_PATH: folder };
  const libraries = { LD_LIBRARY_PATH: path.join(folder, "al2023", "lib") };
  const starts = (env: Record<string, string>): boolean =>
    spawnSync(file, ["--version"], { env: { ...process.env, ...env } }).status === 0;
  const env = [fonts, { ...fonts, ...libraries }].find(starts);
  return env === undefined ? `${file} does not start on this system` : { file, env };
}

/** Unpacked beside its place and moved there whole: several tests may look for it at once. */
async function unpack(entry: string, folder: string): Promise<void> {
  await mkdir(path.dirname(folder), { recursive: true });
  const beside = await mkdtemp(`${folder}-`);
  const text = `import brought from ${JSON.stringify(pathToFileURL(entry).href)};
    await (brought.default ?? brought).executablePath();`;
  await promisify(execFile)(process.execPath, ["--input-type=module", "-e", text], {
    // The second makes it bring the libraries that a bare system lacks.
    env: { ...process.env, TMPDIR: beside, AWS_LAMBDA_JS_RUNTIME: "nodejs20.x" },
  });
  const fonts = [path.join(folder, "fonts"), "/usr/share/fonts"];
  const list = fonts.map((each) => `<dir>${each}</dir>`).join("");
  const cache = `<cachedir>${path.join(folder, "fonts-cache")}</cachedir>`;
  await writeFile(
    path.join(beside, "fonts.conf"),
    `<?xml version="1.0"?><fontconfig>${list}${cache}</fontconfig>\n`,
  );
  await rename(beside, folder).catch(() => rm(beside, { recursive: true, force: true }));
}

const found = await findBrowser();

type Journey = (name: string, walk: () => Promise<void>) => void;

// Generous: beside other tests a page may take seconds.
const limitMs = 90_000;

const { skip } = test;
const leaveOut =
  (why: string): Journey =>
  (name, walk) =>
    skip(`${name} (not run: ${why})`, walk);

/** A test that needs a browser; where there is none, its name says why it was not run. */
export const journey: Journey =
  typeof found === "string" ? leaveOut(found) : (name, walk) => test(name, walk, limitMs);

/** Starts the browser with a profile of its own, which goes when it is closed. */
export async function launchBrowser(more: readonly string[] = []): Promise<Browser> {
  if (typeof found === "string") throw new Error(found);
  return chromium.launch({
    executablePath: found.file,
    env: { ...process.env, ...found.env } as Record<string, string>,
    // Root cannot have the sandbox; and nothing is to leave this machine.
    args: [...(isRoot ? ["--no-sandbox"] : []), "--disable-background-networking", ...more],
  });
}

export const hasBrowser = typeof found !== "string";

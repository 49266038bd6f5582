import type { TrustTexts } from "#texts/trust-en";
import { readPermitted } from "./permitted.ts";
import type { SecureSide } from "./secure-side.ts";

interface Shown {
  side: SecureSide;
  language: "en" | "de";
  /** By it the device's own steps are shown first. */
  agent: string;
}

const marks = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };
const escape = (text: string): string =>
  text.replaceAll(/[&<>"]/g, (mark) => marks[mark as keyof typeof marks]);

const list = (kind: "ol" | "ul", lines: readonly string[]): string =>
  `<${kind}>${lines.map((line) => `<li>${line}</li>`).join("")}</${kind}>`;

const link = (address: string): string =>
  `<a class="address" href="${escape(address)}">${escape(address)}</a>`;

/** The page in one language. What it shows of this machine is what any device could ask for. */
export function makeTrustPage(t: TrustTexts, shown: Shown): string {
  const { side, language } = shown;
  const other = language === "en" ? "de" : "en";
  const body =
    side.authority === undefined ? `<p class="card">${escape(t.off)}</p>` : makeSteps(t, shown);
  return `<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<link rel="icon" type="image/svg+xml" href="/mark.svg">
<link rel="stylesheet" href="/trust.css">
<title>${escape(t.title)} · Tubule</title>
</head>
<body>
<header>
<a class="brand" href="/"><img src="/mark.svg" alt="" width="28" height="28">Tubule</a>
<a class="language" href="?language=${other}" lang="${other}">${t.otherLanguage}</a>
</header>
<main>
<h1>${escape(t.title)}</h1>
<p class="lead">${escape(t.lead)}</p>
${body}
</main>
</body>
</html>
`;
}

function makeSteps(t: TrustTexts, { side, agent }: Shown): string {
  const steps = [
    section(
      t.steps.download,
      `<p>${escape(t.download)}</p>
<p class="buttons"><a class="button main" href="/trust/tubule-ca.crt">${escape(t.asCrt)}</a>
<a class="button" href="/trust/tubule-ca.pem">${escape(t.asPem)}</a></p>`,
    ),
    section(
      t.steps.compare,
      `<p>${escape(t.compare)}</p>
<p class="fingerprint"><span>${escape(t.fingerprint)}</span>
<code>${side.authority!.fingerprint256.replaceAll(":", ":<wbr>")}</code></p>`,
    ),
    section(t.steps.install, `<p>${escape(t.install)}</p>${makeSystems(t, agent)}`),
    section(
      t.steps.open,
      `<p>${escape(t.open)}</p>${list("ul", side.addresses.map(link))}
<p class="hint">${escape(t.openHint)}</p>`,
    ),
  ];
  return `<ol class="steps">${steps.join("\n")}</ol>
${makeMeaning(t, side)}
${makeFrom(t, side)}`;
}

const section = (title: string, body: string): string =>
  `<li class="card"><h2>${escape(title)}</h2>${body}</li>`;

const agents: readonly [string, RegExp][] = [
  ["firefox", /Firefox/],
  ["ios", /iPad|iPhone/],
  ["android", /Android/],
  ["windows", /Windows/],
  ["mac", /Macintosh/],
  ["linux", /Linux|CrOS/],
];

function makeSystems(t: TrustTexts, agent: string): string {
  const [own] = agents.find(([, pattern]) => pattern.test(agent)) ?? [];
  const systems = t.systems
    .map(
      ({ key, name, steps, undo }) => `<details${key === own ? " open" : ""}>
<summary>${escape(name)}</summary>
${list("ol", steps.map(escape))}
<p class="hint">${escape(t.undo)} ${escape(undo)}</p>
</details>`,
    )
    .join("\n");
  return `<div>${systems}</div>`;
}

function makeMeaning(t: TrustTexts, side: SecureSide): string {
  const permitted = readPermitted(side.authority!.raw);
  const [key = "", reach = "", care = ""] = t.means.map(escape);
  const names = [...(permitted?.domains ?? []), ...(permitted?.networks ?? [])];
  return `<section class="card caution"><h2>${escape(t.meansTitle)}</h2>
<p>${key}</p>
<p>${reach} <span class="names">${escape(names.join(", "))}</span>.</p>
<p>${care}</p></section>`;
}

/** For whoever reads this on the office PC: the way for the tablet. */
function makeFrom(t: TrustTexts, side: SecureSide): string {
  const [address] = side.plainAddresses;
  if (address === undefined) return "";
  return `<section class="card from"><h2>${escape(t.from)}</h2>
<p>${escape(t.fromHint)}</p>
<p><img src="/trust/address.svg" alt="${escape(t.picture)}" width="200" height="200"></p>
<p>${link(`${address}/trust`)}</p></section>`;
}

/** The addresses of every page, with what the demonstration has to show on each. */
import type { AnswerOf } from "#contracts/operations";
import type { PersonRole, Screen } from "./screen.ts";

export interface Place {
  name: string;
  /** Who sees most of it. */
  who: PersonRole;
  path: string;
}

/** What opens over a page of that name, and the English name of the button that opens it. */
export const overlays: readonly { over: string; tap: RegExp }[] = [
  { over: "today", tap: /^Dr. Noor Falk/ },
  { over: "today", tap: /^About and cautions$/ },
  { over: "a tray that stops", tap: /^Prime:/ },
  { over: "a tray that stops", tap: /^Put the tray away$/ },
  { over: "the verdict at the chair", tap: /^Pass this stop$/ },
  { over: "a step at the chair", tap: /^Deviation$/ },
  { over: "a container", tap: /^Discard$/ },
  { over: "a container", tap: /^Print its label$/ },
  { over: "who waits", tap: /^Take off the list$/ },
  { over: "a delivery", tap: /^Print \d+ labels?$/ },
  { over: "shelf", tap: /^Put away$/ },
  { over: "a trace", tap: /^Enter a withdrawal$/ },
  { over: "a withdrawal", tap: /^Move .* to quarantine$/ },
  { over: "a withdrawal", tap: /^Close the case$/ },
  { over: "a product", tap: /^Add an identifier$/ },
  { over: "practice, lights", tap: /^Add a light$/ },
  { over: "a light", tap: /^Enter a reading$/ },
  { over: "practice, temperatures", tap: /^Enter an excursion$/ },
  { over: "practice, places", tap: /^Print the labels of all places$/ },
  { over: "practice, printers", tap: /^Add a printer$/ },
  { over: "practice, printers", tap: /^Add a sheet$/ },
];

const idOf = <T extends { id: string }>(found: readonly T[], fits: (one: T) => boolean): string => {
  const one = found.find(fits);
  if (one === undefined) throw new Error("the demonstration lacks what the page is to show");
  return one.id;
};

/** Begins a record and a withdrawal, so that their pages have something to show. */
export async function preparePlaces(dentist: Screen, owner: Screen): Promise<Place[]> {
  const { trays } = await dentist.ask<AnswerOf<"getToday">>("/today");
  const { products } = await owner.ask<AnswerOf<"listProducts">>("/products");
  const { lights } = await owner.ask<AnswerOf<"listLights">>("/lights");
  const light = idOf(lights, ({ readings }) => readings.length > 0);
  const trayOf = (chart: string) => idOf(trays, ({ chartNumber }) => chartNumber === chart);
  const product = idOf(products, ({ name }) => name === "Birch Bond");
  await dentist.ask(`/trays/${trayOf("C-1015")}/record`, {});
  const scope = [{ productId: product, lot: "BB-0021" }];
  const notice = { reference: "FSN-3 (fictional)", note: "Inspect", scope };
  const withdrawal = await owner.ask<AnswerOf<"openWithdrawal">>("/withdrawals", notice);
  return [
    ...(await listClinical(dentist, trayOf)),
    ...listDesk({ product, light, withdrawal: withdrawal.id }),
  ];
}

/** A later version of a record; gives its id. */
async function amend(screen: Screen, recordId: string): Promise<string> {
  const add = [{ kind: "note", text: "The patient called: no pain." }];
  const body = { amends: "addition", reason: "Told by phone.", add, password: "demo-dentist" };
  const path = `/records/${recordId}/amendments`;
  return (await screen.ask<AnswerOf<"amendRecord">>(path, body)).id;
}

async function listClinical(screen: Screen, trayOf: (chart: string) => string): Promise<Place[]> {
  const { techniques } = await screen.ask<AnswerOf<"listTechniques">>("/techniques");
  const technique = idOf(techniques, ({ key }) => key === "seal-universal");
  const { deliveries } = await screen.ask<AnswerOf<"listDeliveries">>("/deliveries");
  const { containers } = await screen.ask<AnswerOf<"listContainers">>("/containers");
  const { records } = await screen.ask<AnswerOf<"listRecords">>("/records");
  const container = idOf(containers, ({ lot }) => lot === "AP-2201");
  const record = idOf(records, ({ chartNumber }) => chartNumber === "C-1003");
  const amended = await amend(
    screen,
    idOf(records, ({ chartNumber }) => chartNumber === "C-1002"),
  );
  const paths: Record<string, string> = {
    today: "/",
    trays: "/trays",
    "plan a tray": "/trays/plan",
    "plan from a list": "/trays/import",
    templates: "/trays/templates",
    "new template": "/trays/templates/new",
    "a tray that stops": `/trays/${trayOf("C-1007")}`,
    "a visit to change": `/trays/${trayOf("C-1012")}/change`,
    "the verdict at the chair": `/trays/${trayOf("C-1012")}/chairside`,
    "a step at the chair": `/trays/${trayOf("C-1015")}/chairside`,
    receive: "/receive",
    "a delivery": `/receive/${idOf(deliveries, ({ lines }) => lines > 0)}`,
    shelf: "/shelf",
    "a container": `/shelf/${container}`,
    records: "/records",
    "who waits": "/records/waiting",
    "a chart's lots": "/records?chart=C-1002",
    "a record": `/records/${record}`,
    "an amendment": `/records/${record}/amend`,
    "a record with versions": `/records/${amended}`,
    "versions side by side": `/records/${amended}/versions`,
    "a technique": `/catalogue/techniques/${technique}`,
    "a technique to edit": `/catalogue/techniques/${technique}/edit?as=copy`,
    "no such page": "/nowhere",
  };
  return Object.entries(paths).map(([name, path]) => ({ name, path, who: "dentist" }));
}

function listDesk(ids: Record<"product" | "light" | "withdrawal", string>): Place[] {
  const { product, light, withdrawal } = ids;
  const parts = [
    "people",
    "tablets",
    "places",
    "lights",
    "temperatures",
    "teeth",
    "checks",
    "labels",
    "printers",
    "scanner",
    "pin",
    "audit",
    "cautions",
  ];
  const paths: Record<string, string> = {
    withdrawals: "/withdrawals",
    "a trace": "/withdrawals?lot=DF-118O",
    "a withdrawal": `/withdrawals/${withdrawal}`,
    catalogue: "/catalogue",
    "a product": `/catalogue/${product}`,
    "a new product": "/catalogue/new",
    systems: "/catalogue/systems",
    techniques: "/catalogue/techniques",
    "a light": `/practice/lights/${light}`,
    ...Object.fromEntries(parts.map((part) => [`practice, ${part}`, `/practice/${part}`])),
  };
  return Object.entries(paths).map(([name, path]) => ({ name, path, who: "owner" }));
}

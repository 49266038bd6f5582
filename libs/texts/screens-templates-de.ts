import type { templatesEn } from "./screens-templates-en.ts";

/** The texts of the templates of trays, in German. Own wording. */
export const templatesDe: typeof templatesEn = {
  title: "Vorlagen",
  lead:
    "Was Sie immer wieder richten: Technik, Zimmer, was bei einem Zahn üblich ist und die Produkte " +
    "jedes Schritts. Sie werden zuerst vorgeschlagen; geprüft wird wie immer.",
  one: "Vorlage",
  none: "keine",
  empty: "Es gibt noch keine Vorlage. Legen Sie hier eine an oder nach einem gerichteten Tray.",
  add: "Neue Vorlage",
  fromTray: "Als Vorlage behalten",
  addTitle: "Neue Vorlage",
  changeTitle: (name) => `Vorlage ${name}`,
  name: "Name",
  technique: "Technik",
  outOfUse: "nicht mehr in Gebrauch: wählen Sie eine andere",
  room: "Zimmer",
  tooth: "Bei einem Zahn üblich",
  products: "Produkte",
  productsTitle: "Was üblicherweise in jeden Schritt gehört",
  productsHint: "Das zuerst angekreuzte wird zuerst vorgeschlagen.",
  noProduct: "Im Katalog ist kein Produkt dieser Art.",
  first: (name, place) => `${name} · ${place}.`,
  acts: "Was zu tun ist",
  plan: "Damit planen",
  change: "Ändern",
  remove: "Entfernen",
  removeTitle: (name) => `Die Vorlage ${name} entfernen?`,
  removeText: "Damit geplante Trays bleiben, wie sie sind.",
  saved: (name) => `Die Vorlage ${name} ist gespeichert.`,
  removed: (name) => `Die Vorlage ${name} ist entfernt.`,
};

import type { packEn } from "./screens-pack-en.ts";

/** The texts of a pack that bears several labels, in German. Own wording. */
export const packDe: typeof packEn = {
  open: "Mehrere Etiketten einer Packung",
  title: "Mehrere Etiketten einer Packung",
  lead:
    "Scannen Sie die Etiketten dieser Packung nacheinander: die Schachtel, die Flasche darin, " +
    "ihre Hülle.",
  scanTarget: "die Etiketten einer Packung",
  label: (number) => `Etikett ${number}`,
  table: "Was jedes Etikett sagt",
  field: "Feld",
  standing: "Verglichen",
  fields: {
    identifier: "Kennung",
    lot: "Charge",
    expiry: "Verwendbar bis",
    serial: "Seriennummer",
    production: "Hergestellt am",
  },
  notSaid: "keine Angabe",
  standings: {
    agreed: "gleich",
    single: "nur auf einem Etikett",
    levels: "andere Verpackung",
    items: "andere Artikel",
    conflict: "widersprüchlich",
  },
  together: "Zusammen genommen",
  noProduct: "Noch nennt kein Etikett das Produkt. Scannen Sie das mit der langen Nummer.",
  conflict: "Diese Etiketten widersprechen sich",
  keepApart: "Räumen Sie die Packung nicht ein. Zwischen zwei Etiketten wird nichts ausgesucht.",
  steps: [
    "Vergleichen Sie, was auf der Packung gedruckt ist.",
    "Fragen Sie den Lieferanten, welches Etikett stimmt.",
    "Oder buchen Sie die Flaschen einzeln ein: hier abbrechen und jede Flasche für sich scannen.",
  ],
  otherItem:
    "Zwei Etiketten nennen verschiedene Artikel. Die Artikel eines Sets werden einzeln eingebucht.",
  receive: "Als eine Packung einbuchen",
  setAside: "Gesondert stellen",
  remove: (number) => `Etikett ${number} entfernen`,
  twice: "Dieses Etikett ist schon dabei.",
  ownCode: "Das ist ein eigenes Etikett. Scannen Sie die des Herstellers auf dieser Packung.",
  full: "Fünf Etiketten genügen für eine Packung. Entfernen Sie zuerst eines.",
  compare: "Etiketten vergleichen",
};

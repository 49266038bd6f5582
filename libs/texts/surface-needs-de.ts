import type { SurfaceNeedCode, SurfaceNeedSource } from "#domain";
import type { SurfaceNeedText } from "./surface-needs-en.ts";

/** In German. */
export const surfaceNeedsDe: Readonly<Record<SurfaceNeedCode, SurfaceNeedText>> = {
  remnants: {
    title: "Reste entfernen",
    sentence: "{cement} hielt das Provisorium: Reste davon abnehmen, mit Vergrößerung nachgesehen.",
  },
  "remnants-unknown": {
    title: "Zement nicht vermerkt",
    sentence:
      "Ein Provisorium war geplant, ein Zement ist nicht vermerkt: herausfinden, was es hielt, und " +
      "dessen Reste abnehmen.",
  },
  eugenol: {
    title: "Eugenol lag auf",
    sentence:
      "{cement} enthält Eugenol, das die Haftung schwächen kann: gründlich konditionieren und " +
      "beachten, was die Gebrauchsanweisung des Befestigungszements zu Eugenol sagt.",
  },
  "eugenol-free": {
    title: "Trotzdem konditionieren",
    sentence:
      "{cement} ist ohne Eugenol vermerkt; auch ein solcher Zement senkt die Haftung: die " +
      "Oberfläche konditionieren.",
  },
  "resin-stuck": {
    title: "Kunststoff kann haften",
    sentence:
      "Kunststoff lag auf der Versiegelung und kein Trennmittel ist vermerkt: nach haftendem " +
      "Kunststoff suchen und nach Stellen, an denen die Versiegelung mit abging.",
  },
  "separator-film": {
    title: "Trennmittel entfernen",
    sentence: "Auf die Versiegelung kam ein Trennmittel: seinen Film abreinigen.",
  },
  contaminated: {
    title: "Verunreinigt",
    sentence: {
      blood: "Beim Versiegeln wurde Blut vermerkt: die Versiegelung vor dem Befestigen ansehen.",
      saliva: "Beim Versiegeln wurde Speichel vermerkt: sie vor dem Befestigen genau ansehen.",
      both: "Beim Versiegeln wurden Blut und Speichel vermerkt: die Versiegelung zuerst ansehen.",
    },
  },
  clean: {
    title: "Reinigen",
    sentence:
      "Die versiegelte Oberfläche mit dem reinigen, was die Gebrauchsanweisung dort zulässt, und " +
      "abspülen.",
  },
  "roughen-coat": {
    title: "Schicht aufrauen",
    sentence: "Die Kompositschicht abstrahlen oder aufrauen, wie die Gebrauchsanweisung es sagt.",
  },
  "roughen-thin": {
    title: "Vorsichtig aufrauen",
    sentence:
      "Keine Kompositschicht ist vermerkt, die Versiegelung ist also dünn: nur leicht aufrauen und " +
      "neu versiegeln, wo Dentin sichtbar wird.",
  },
  "bond-again": {
    title: "Kunststoff neu vorbereiten",
    sentence:
      "Silan oder Adhäsiv erneut auf die versiegelte Oberfläche, wie die Gebrauchsanweisung es sagt.",
  },
  "long-wait": {
    title: "Länger als üblich",
    sentence:
      "{days} Tage seit der Versiegelung; untersucht wurden meist Zeiten bis zu {usualDays} Tagen.",
  },
  "longer-than-studied": {
    title: "Länger als untersucht",
    sentence:
      "{days} Tage seit der Versiegelung, {studiedDays} sind das längste, was untersucht wurde: " +
      "prüfen, ob die Versiegelung heil ist.",
  },
};

/** Where a need comes from, in German. */
export const surfaceSourcesDe: Readonly<Record<SurfaceNeedSource, string>> = {
  "common-practice": "allgemeine Praxis, ohne Quelle",
  "eugenol-study": "J Appl Oral Sci 2010;18(1)",
  "eugenol-free-study": "J Funct Biomater 2026;17(2):98",
  "provisional-study": "KSDM-Zeitstudie, s40563-016-0061-9, zu Provisorien",
  "timing-study": "KSDM-Zeitstudie, s40563-016-0061-9",
  "twelve-weeks": "Magne 2007, aus dem Gedächtnis",
  "from-memory": "Brauch des Fachs, aus dem Gedächtnis",
};

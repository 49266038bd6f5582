/** Words and sentences of the screens in German. */
import { amendDe } from "./screens-amend-de.ts";
import { cameraDe } from "./screens-camera-de.ts";
import { catalogueDe } from "./screens-catalogue-de.ts";
import { chairsideDe } from "./screens-chairside-de.ts";
import type { ScreenTexts } from "./screens-en.ts";
import { importDe } from "./screens-import-de.ts";
import { keepingDe } from "./screens-keeping-de.ts";
import { labelsDe } from "./screens-labels-de.ts";
import { liveDe } from "./screens-live-de.ts";
import { packDe } from "./screens-pack-de.ts";
import { practiceDe } from "./screens-practice-de.ts";
import { receiveDe } from "./screens-receive-de.ts";
import { recordsDe } from "./screens-records-de.ts";
import { secureDe } from "./screens-secure-de.ts";
import { scannerDe } from "./screens-scanner-de.ts";
import { shelfDe } from "./screens-shelf-de.ts";
import { templatesDe } from "./screens-templates-de.ts";
import { techniqueDe } from "./screens-technique-de.ts";
import { trayDe } from "./screens-tray-de.ts";
import { waitingDe } from "./screens-waiting-de.ts";
import { withdrawalDe } from "./screens-withdrawal-de.ts";

const plural = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`;

const cautionLine =
  "Hilfsmittel zum Dokumentieren und Prüfen. Es entscheidet die Zahnärztin oder der Zahnarzt.";

/** Every text of the web client in German; the same shape as `screensEn`. Own wording. */
export const screensDe: ScreenTexts = {
  common: {
    add: "Hinzufügen",
    cancel: "Abbrechen",
    choose: "Auswählen …",
    fewer: (what) => `${what}: weniger`,
    more: (what) => `${what}: mehr`,
    close: "Schließen",
    loading: "Wird geholt …",
    print: "Drucken",
    export: "Als CSV speichern",
    reload: "Neu holen",
    remove: "Entfernen",
    save: "Speichern",
    undo: "Rückgängig",
    open: "offen",
    sealed: "ungeöffnet",
    lot: "Charge",
    ends: (date) => `bis ${date}`,
    noEnd: "ohne Enddatum",
    seconds: (count) => `${count} s`,
    tooth: (tooth) => `Zahn ${tooth}`,
    chart: (chart) => `Akte ${chart}`,
  },
  notations: {
    fdi: "FDI (ISO 3950)",
    universal: "Universal (ADA)",
    palmer: "Palmer, mit Buchstaben für den Quadranten",
  },
  shell: {
    skip: "Zum Inhalt springen",
    toothNumbers: (system) => `Zahnnummern: ${system}.`,
    pages: "Seiten",
    notFound: "Diese Seite gibt es nicht",
    notFoundHint: "Die Adresse ist alt oder vertippt. Alles beginnt bei Heute.",
    toToday: "Zu Heute",
    broken: "Die Seite konnte nicht gezeigt werden",
    brokenHint: "Nichts Bestätigtes ist verloren. Laden Sie die Seite neu.",
    loadAgain: "Neu laden",
    clockOff: (minutes) =>
      minutes > 0
        ? `Diese Uhr geht ${plural(minutes, "Minute", "Minuten")} vor; es zählt die des Servers.`
        : `Diese Uhr geht ${plural(-minutes, "Minute", "Minuten")} nach; es zählt die des Servers.`,
    offline: "Der Server antwortet nicht. Was Sie sehen, kann veraltet sein.",
    notices: "Hinweise",
    training: "Vorführung: erfundene Praxis, Personen und Produkte",
    caution: cautionLine,
    aboutLink: "Über Tubule und Hinweise",
    nav: {
      today: "Heute",
      receive: "Wareneingang",
      shelf: "Regal",
      trays: "Trays",
      records: "Dokumentation",
      withdrawals: "Rückrufe",
      catalogue: "Katalog",
      practice: "Praxis",
    },
  },
  about: {
    title: "Über Tubule",
    version: (version) => `Version ${version}`,
    secure: "Dieses Gerät erreicht Tubule über eine verschlüsselte Adresse.",
    plain:
      "Dieses Gerät erreicht Tubule über eine einfache Adresse; der Browser lässt den Bildschirm dann nicht anbleiben und gibt die Kamera nicht frei. Ein Scanner arbeitet trotzdem.",
  },
  menu: {
    language: "Sprache",
    appearance: "Aussehen",
    automatic: "wie das Gerät",
    light: "hell",
    dark: "dunkel",
    sounds: "Töne beim Scannen",
    soundsOn: "an",
    soundsOff: "aus",
    scanner: "Scanner dieses Geräts",
    setPin: "Eigene PIN festlegen",
    changePin: "Eigene PIN ändern",
    pinHint: "4 bis 8 Ziffern. Damit übernehmen Sie ein angemeldetes Tablet und unterschreiben.",
    pin: "PIN",
    password: "Passwort",
    pinSaved: "Ihre PIN ist festgelegt.",
    switchPerson: "Jemand anderes übernimmt",
    signOut: "Abmelden",
    roles: "Rollen",
  },
  signIn: {
    title: "Anmelden",
    name: "Anmeldename",
    password: "Passwort",
    button: "Anmelden",
    whoAreYou: "Wer übernimmt?",
    onDevice: (name) => `Dies ist ${name}`,
    pinFor: (name) => `PIN von ${name}`,
    withPassword: "Mit Name und Passwort anmelden",
    withPin: "Mit PIN übernehmen",
    otherPerson: "Jemand anderes",
    clear: "Löschen",
    enter: "Übernehmen",
    demo: "Vorführung: wählen Sie, wer Sie sind",
    ended: "Die Sitzung ist zu Ende. Nach dem Anmelden sind Sie wieder an derselben Stelle.",
  },
  setUp: {
    title: "Tubule einrichten",
    lead: "Diese Installation hat noch keine Praxis. Der Code steht dort, wo der Server gestartet wurde.",
    code: "Einrichtungscode",
    practice: "Name der Praxis",
    timeZone: "Zeitzone",
    language: "Sprache",
    yourName: "Ihr Name",
    signInName: "Anmeldename",
    signInHint: "Kleine Buchstaben, Ziffern, Punkte und Striche",
    password: "Passwort",
    passwordHint: "Mindestens 8 Zeichen; am besten ein Satz",
    alsoDentist: "Ich behandle auch selbst (Rolle Zahnärztin/Zahnarzt)",
    button: "Praxis anlegen",
  },
  scan: {
    goesTo: (target) => `Ein Scan geht an: ${target}`,
    noScanner: "Kein Scanner? Code eintippen oder einfügen",
    send: "Eingeben",
    field: "Etikett oder Behältercode",
    read: (what) => `Gelesen: ${what}`,
    endless:
      "Ein Scan kam ohne Endtaste. Stellen Sie den Scanner so ein, dass er nach jedem Code Enter sendet, und scannen Sie noch einmal.",
    scannerPage: "Scanner einrichten",
    unreadable: "Nicht gelesen",
    whatIsThis: "Was ist das?",
    notKnownHere: "Kein Produkt im Katalog hat diese Kennung.",
    noContainers: "Von dieser Charge ist hier nichts eingegangen.",
    containersHere: "Behälter zu diesem Etikett",
    readOffline: "Der Server antwortet nicht; gelesen ist nur das Etikett selbst.",
    secondSymbol: "Das ist die Hälfte des Etiketts. Scannen Sie auch das andere Symbol.",
    alone: "Nur dieses verwenden",
    useBy: "Verwendbar bis",
    marked: "Was der Scanner gesendet hat",
    traceLot: "Charge verfolgen",
    receiveIt: "Annehmen",
    register: "Produkt anlegen",
    serial: "Seriennummer",
    identifier: "Kennung",
  },
  camera: cameraDe,
  scanner: scannerDe,
  outbox: {
    waiting: (count) => `${count} noch nicht gesendet`,
    toSettle: (count) => `${count} zu klären`,
    allSent: "Alles ist gesendet",
    title: "Noch nicht bestätigt",
    lead: "Auf diesem Gerät aufbewahrt und der Reihe nach gesendet. Gespeichert ist erst, was der Server bestätigt hat.",
    notLasting: "Dieser Browser bewahrt nichts auf: Seite erst schließen, wenn alles gesendet ist.",
    waitingFor: (name) => `Wartet, bis ${name} sich anmeldet`,
    refused: "Vom Server abgelehnt",
    sendNow: "Jetzt senden",
    sendAgain: "Noch einmal senden",
    letGo: "Verwerfen",
    letGoTitle: "Verwerfen?",
    letGoText: (about) => `„${about}“ wurde nicht gespeichert und wird nicht mehr gesendet.`,
    noted: "Anders geklärt: verwerfen",
    refusedToast: (about) => `Nicht angenommen: ${about}`,
    kinds: {
      scanIntoTray: "In ein Tray gescannt",
      removeFromTray: "Vom Tray genommen",
      addRecordEvent: "Eintrag in einer Dokumentation",
      swapContainer: "Behälter getauscht",
    },
  },
  today: {
    title: "Heute",
    theDay: "Die Trays des Tages",
    noTrays: "Für heute ist kein Tray geplant.",
    plan: "Tray planen",
    list: "Was jemanden braucht",
    nothing: "Im Augenblick braucht nichts jemanden.",
    nowMark: "jetzt",
    lines: {
      withdrawal: (reference) => `Rückruf ${reference} ist offen`,
      withdrawalHere: (count) =>
        `${plural(count, "Behälter steht", "Behälter stehen")} noch im Regal`,
      withdrawalGone: "Nichts davon steht im Regal",
      draft: (tooth, chart) =>
        `Dokumentation zu Zahn ${tooth}, Akte ${chart}, ist nicht unterschrieben`,
      started: (when) => `Begonnen ${when}`,
      trayStop: (tooth, chart) => `Tray für Zahn ${tooth}, Akte ${chart}`,
      missing: (count) => `${plural(count, "Schritt hat", "Schritte haben")} keinen Behälter`,
      expired: (name) => `${name} ist über dem letzten Tag`,
      endsSoon: (name) => `${name} läuft bald ab`,
      unconfirmed: (name) => `${name} ist nicht mit der Gebrauchsanweisung verglichen`,
      unconfirmedWhy: "Bis dahin sagt es jede Prüfung",
      endedOn: (date, place) => `Abgelaufen ${date} · ${place}`,
      endsOn: (date, place) => `Bis ${date} · ${place}`,
    },
    actions: {
      openCase: "Fall bearbeiten",
      sign: "Weitermachen",
      setTray: "Tray richten",
      lookAt: "Ansehen",
      takeAway: "Wegnehmen",
      useFirst: "Ansehen",
      confirm: "Vergleichen",
    },
  },
  technique: techniqueDe,
  tray: trayDe,
  chairside: chairsideDe,
  receive: receiveDe,
  pack: packDe,
  shelf: shelfDe,
  records: recordsDe,
  amend: amendDe,
  withdrawal: withdrawalDe,
  catalogue: catalogueDe,
  practice: practiceDe,
  secure: secureDe,
  import: importDe,
  templates: templatesDe,
  keeping: keepingDe,
  labels: labelsDe,
  live: liveDe,
  waiting: waitingDe,
  states: {
    noMatch: "Nichts passt zum Filter.",
    problem: "Das ging nicht",
    requestNumber: (number) => `Anfrage ${number}`,
    unreachable:
      "Der Server antwortet nicht. Sehen Sie nach, ob der Praxis-PC läuft, und versuchen Sie es noch einmal.",
    olderData: (when) => `Der Server antwortet nicht. Stand: ${when}.`,
  },
  verdictHints: {
    clear: "Nichts spricht dagegen",
    caution: "Erst ansehen, dann weiter",
    stop: "Nicht primern",
  },
  finding: {
    because: "Warum",
    whole: "Ganzes Tray",
    passed: (by) => `Übergangen von ${by}`,
    pass: "Diesen Stopp übergehen",
    dentistOnly: "Nur eine Zahnärztin oder ein Zahnarzt kann einen Stopp übergehen.",
    notes: (count) => plural(count, "Hinweis", "Hinweise"),
  },
};

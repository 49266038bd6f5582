/** Words and sentences of the screens in English. The German file has the same shape, by type. */
import { amendEn } from "./screens-amend-en.ts";
import { cameraEn } from "./screens-camera-en.ts";
import { catalogueEn } from "./screens-catalogue-en.ts";
import { chairsideEn } from "./screens-chairside-en.ts";
import { importEn } from "./screens-import-en.ts";
import { keepingEn } from "./screens-keeping-en.ts";
import { labelsEn } from "./screens-labels-en.ts";
import { liveEn } from "./screens-live-en.ts";
import { packEn } from "./screens-pack-en.ts";
import { practiceEn } from "./screens-practice-en.ts";
import { receiveEn } from "./screens-receive-en.ts";
import { recordsEn } from "./screens-records-en.ts";
import { secureEn } from "./screens-secure-en.ts";
import { scannerEn } from "./screens-scanner-en.ts";
import { shelfEn } from "./screens-shelf-en.ts";
import { templatesEn } from "./screens-templates-en.ts";
import { techniqueEn } from "./screens-technique-en.ts";
import { trayEn } from "./screens-tray-en.ts";
import { waitingEn } from "./screens-waiting-en.ts";
import { withdrawalEn } from "./screens-withdrawal-en.ts";

const plural = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`;

const cautionLine = "A record-keeping and checking aid. The licensed clinician decides.";

/**
 * Every text of the web client in English, by page. A text with something in it is a function of
 * what it names. Own wording; the terms are those of the trade and of the standards.
 */
export const screensEn = {
  common: {
    add: "Add",
    cancel: "Cancel",
    choose: "Choose …",
    fewer: (what: string) => `${what}: one fewer`,
    more: (what: string) => `${what}: one more`,
    close: "Close",
    loading: "Fetching …",
    print: "Print",
    export: "Save as CSV",
    reload: "Fetch again",
    remove: "Remove",
    save: "Save",
    undo: "Undo",
    open: "open",
    sealed: "sealed",
    lot: "Lot",
    ends: (date: string) => `ends ${date}`,
    noEnd: "no end date",
    seconds: (count: number) => `${count} s`,
    tooth: (tooth: string) => `Tooth ${tooth}`,
    chart: (chart: string) => `Chart ${chart}`,
  },
  notations: {
    fdi: "FDI (ISO 3950)",
    universal: "Universal (ADA)",
    palmer: "Palmer, with letters for the quadrant",
  },
  shell: {
    skip: "Skip to the content",
    toothNumbers: (system: string) => `Tooth numbers: ${system}.`,
    pages: "Pages",
    notFound: "There is no such page",
    notFoundHint: "The address may be old or mistyped. Everything starts from Today.",
    toToday: "Go to Today",
    broken: "This page could not be shown",
    brokenHint: "Nothing that was confirmed is lost. Load the page again.",
    loadAgain: "Load again",
    clockOff: (minutes: number) =>
      minutes > 0
        ? `This device's clock is ${plural(minutes, "minute", "minutes")} ahead. The server's time counts.`
        : `This device's clock is ${plural(-minutes, "minute", "minutes")} behind. The server's time counts.`,
    offline: "The server does not answer. What you see may be old.",
    notices: "Notices",
    training: "Demonstration: made-up practice, people and products",
    caution: cautionLine,
    aboutLink: "About and cautions",
    nav: {
      today: "Today",
      receive: "Receive",
      shelf: "Shelf",
      trays: "Trays",
      records: "Records",
      withdrawals: "Withdrawals",
      catalogue: "Catalogue",
      practice: "Practice",
    },
  },
  about: {
    title: "About Tubule",
    version: (version: string) => `Version ${version}`,
    secure: "This device reaches Tubule over an encrypted address.",
    plain:
      "This device reaches Tubule over a plain address, so the browser lets Tubule neither keep the screen on nor use the camera. A scanner works all the same.",
  },
  menu: {
    language: "Language",
    appearance: "Appearance",
    automatic: "as the device",
    light: "light",
    dark: "dark",
    sounds: "Sounds of a scan",
    soundsOn: "on",
    soundsOff: "off",
    scanner: "Scanner of this device",
    setPin: "Set your PIN",
    changePin: "Change your PIN",
    pinHint: "4 to 8 digits. With it you take over a registered tablet and sign records.",
    pin: "PIN",
    password: "Password",
    pinSaved: "Your PIN is set.",
    switchPerson: "Somebody else takes over",
    signOut: "Sign out",
    roles: "Roles",
  },
  signIn: {
    title: "Sign in",
    name: "Sign-in name",
    password: "Password",
    button: "Sign in",
    whoAreYou: "Who takes over?",
    onDevice: (name: string) => `This is ${name}`,
    pinFor: (name: string) => `PIN of ${name}`,
    withPassword: "Sign in with name and password",
    withPin: "Take over with a PIN",
    otherPerson: "Somebody else",
    clear: "Clear",
    enter: "Take over",
    demo: "Demonstration: choose who to be",
    ended: "The session has ended. Sign in and you are back where you were.",
  },
  setUp: {
    title: "Set up Tubule",
    lead: "This installation has no practice yet. The code stands where the server was started.",
    code: "Set-up code",
    practice: "Name of the practice",
    timeZone: "Time zone",
    language: "Language",
    yourName: "Your name",
    signInName: "Sign-in name",
    signInHint: "Small letters, digits, dots and dashes",
    password: "Password",
    passwordHint: "At least 8 characters; a sentence is best",
    alsoDentist: "I treat patients as well (role dentist)",
    button: "Make the practice",
  },
  scan: {
    goesTo: (target: string) => `A scan goes to: ${target}`,
    noScanner: "No scanner? Type or paste a code",
    send: "Enter",
    field: "Label or container code",
    read: (what: string) => `Read: ${what}`,
    endless:
      "A scan came without its end key. Set the scanner to send Enter after each code, then scan again.",
    scannerPage: "Set the scanner up",
    unreadable: "Not read",
    whatIsThis: "What is this?",
    notKnownHere: "No product in the catalogue has this identifier.",
    noContainers: "Nothing of this lot has been received here.",
    containersHere: "Containers of this label",
    readOffline: "The server does not answer, so only the label itself can be read.",
    secondSymbol: "This symbol is half of the label. Scan the other one as well.",
    alone: "Use this one alone",
    useBy: "Use-by date",
    marked: "What the scanner sent",
    traceLot: "Trace this lot",
    receiveIt: "Receive it",
    register: "Register this product",
    serial: "Serial",
    identifier: "Identifier",
  },
  camera: cameraEn,
  scanner: scannerEn,
  outbox: {
    waiting: (count: number) => `${count} not yet sent`,
    toSettle: (count: number) => `${count} to settle`,
    allSent: "Everything is sent",
    title: "Not yet confirmed",
    lead: "Kept on this device and sent in order. Nothing counts as saved before the server has said so.",
    notLasting: "This browser keeps nothing: do not close the page before everything is sent.",
    waitingFor: (name: string) => `Waits for ${name} to sign in`,
    refused: "Refused by the server",
    sendNow: "Send now",
    sendAgain: "Send again",
    letGo: "Let go",
    letGoTitle: "Let this go?",
    letGoText: (about: string) => `“${about}” was not saved and will not be sent again.`,
    noted: "Settled otherwise: let go",
    refusedToast: (about: string) => `Not taken: ${about}`,
    kinds: {
      scanIntoTray: "Scan into a tray",
      removeFromTray: "Taken off a tray",
      addRecordEvent: "Entry in a record",
      swapContainer: "Container swapped",
    },
  },
  today: {
    title: "Today",
    theDay: "The day's trays",
    noTrays: "No tray is planned for today.",
    plan: "Plan a tray",
    list: "What needs somebody",
    nothing: "Nothing needs anybody now.",
    nowMark: "now",
    lines: {
      withdrawal: (reference: string) => `Withdrawal ${reference} is open`,
      withdrawalHere: (count: number) =>
        `${plural(count, "container is", "containers are")} still on the shelf`,
      withdrawalGone: "Nothing of it is on the shelf",
      draft: (tooth: string, chart: string) =>
        `Record of tooth ${tooth}, chart ${chart}, is not signed`,
      started: (when: string) => `Begun ${when}`,
      trayStop: (tooth: string, chart: string) => `Tray for tooth ${tooth}, chart ${chart}`,
      missing: (count: number) => `${plural(count, "step has", "steps have")} no container`,
      expired: (name: string) => `${name} is past its last day`,
      endsSoon: (name: string) => `${name} ends soon`,
      unconfirmed: (name: string) => `${name} was not compared with its instructions`,
      unconfirmedWhy: "Until then every check says so",
      endedOn: (date: string, place: string) => `Ended ${date} · ${place}`,
      endsOn: (date: string, place: string) => `Ends ${date} · ${place}`,
    },
    actions: {
      openCase: "Work the case",
      sign: "Go on with it",
      setTray: "Set the tray",
      lookAt: "Look at it",
      takeAway: "Take it away",
      useFirst: "Look at it",
      confirm: "Compare it",
    },
  },
  technique: techniqueEn,
  tray: trayEn,
  chairside: chairsideEn,
  receive: receiveEn,
  pack: packEn,
  shelf: shelfEn,
  records: recordsEn,
  amend: amendEn,
  withdrawal: withdrawalEn,
  catalogue: catalogueEn,
  practice: practiceEn,
  secure: secureEn,
  import: importEn,
  templates: templatesEn,
  keeping: keepingEn,
  labels: labelsEn,
  live: liveEn,
  waiting: waitingEn,
  states: {
    noMatch: "Nothing fits the filter.",
    problem: "That did not work",
    requestNumber: (number: string) => `Request ${number}`,
    unreachable: "The server does not answer. Check that the office PC is on, then try again.",
    olderData: (when: string) => `The server does not answer. This is as of ${when}.`,
  },
  verdictHints: {
    clear: "Nothing speaks against it",
    caution: "Look before you go on",
    stop: "Do not prime",
  },
  finding: {
    because: "Why",
    whole: "Whole tray",
    passed: (by: string) => `Passed by ${by}`,
    pass: "Pass this stop",
    dentistOnly: "Only a dentist can pass a stop.",
    notes: (count: number) => plural(count, "note", "notes"),
  },
};

/** The shape that every language's screen texts have. */
export type ScreenTexts = typeof screensEn;

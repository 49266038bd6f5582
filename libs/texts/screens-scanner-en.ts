/** The texts of a device's scanner and its set-up, in English. Own wording. */

export const scannerEn = {
  lead: "Scanners type like a keyboard. Here stands how the one at this device is understood.",
  now: {
    title: "This device's scanner",
    setUp: (when: string) => `Set up on ${when}.`,
    never: "Not yet set up: it is understood as a scanner comes from the factory.",
    byHand: "Set by hand: it was never tried with the set-up symbols.",
    onTablet: (name: string) => `Kept on this device and with the tablet ${name}.`,
    onDevice: "Kept in this browser alone.",
    notSaved: "The tablet's own copy could not be saved:",
    keyboard: "What is read",
    keyboards: { "as-typed": "the characters typed", "by-position": "the places of the keys" },
    separator: "Separator between fields",
    separatorPlain: "as it should be (GS)",
    prefix: "Added in front",
    suffix: "Added behind",
    endKey: "End of a scan",
    endKeys: { Enter: "Enter", Tab: "Tab", either: "Enter or Tab", none: "a pause" },
    gap: "Longest gap between two keys",
    keys: "Fewest keys of a scan",
    milliseconds: (count: number) => `${count} ms`,
    start: "Set the scanner up",
    again: "Set it up again",
    forget: "Back to the factory's",
    forgotten: "The scanner is understood as it comes from the factory.",
  },
  run: {
    title: "Set the scanner up",
    steps: ["First symbol", "Second symbol", "Result"],
    first: "Scan this symbol.",
    second: "Now scan this one.",
    wait: "Waiting for the scan. Leave the keyboard alone meanwhile.",
    other: "That was not the symbol shown. Scan the one above, and nothing else.",
    kind: "The kind of barcode on most of your HIBC labels",
    kinds: {
      hibc: "Data Matrix (square)",
      "hibc-linear": "Code 128 (bars)",
      "hibc-code39": "Code 39 (wide bars)",
    },
    none: "If your scanner does not read from screens, print the sheet and scan from paper.",
    sheet: "Print the sheet",
    nothing: "Nothing arrives? The scanner must be connected as a keyboard (HID).",
    symbolFailed: "The symbol could not be fetched. Scan it from the printed sheet.",
    good: "The scanner is set up",
    goodText: "Every label is now read as it was printed.",
    bad: "The scanner must be changed first",
    badText:
      "As it is, a lot could be read wrong, so nothing was saved. Change this on the scanner, by " +
      "its manual, then set it up again:",
    setRight: "Set right here",
    change: "Change on the scanner",
    fine: "Does no harm",
    again: "Scan again from the start",
    done: "Done",
  },
  findings: {
    "not-the-symbol": {
      title: "Another barcode was scanned",
      text: () => "Scan the two symbols that are shown, and nothing else.",
    },
    "characters-changed": {
      title: "Characters came out wrong",
      text: () =>
        "The scanner is set to a keyboard that is neither this device's nor that of the United " +
        "States. Set its keyboard country to United States.",
    },
    "letters-inverted": {
      title: "Small and capital letters are swapped",
      text: () => "Switch off the conversion of letters on the scanner.",
    },
    "letters-capital": {
      title: "Every letter comes as a capital",
      text: () =>
        "Two lots that differ in that alone could not be told apart. Switch off the conversion " +
        "to capital letters.",
    },
    "letters-small": {
      title: "Every letter comes small",
      text: () =>
        "Two lots that differ in that alone could not be told apart. Switch off the conversion " +
        "to small letters.",
    },
    "caps-lock": {
      title: "Caps Lock is on",
      text: () =>
        "From now on the places of the keys are read, which Caps Lock does not change. Better " +
        "turn it off, too.",
    },
    "keyboard-layout": {
      title: "Scanner and device have different keyboards",
      text: () =>
        "The scanner types as on a keyboard of the United States. From now on the places of its " +
        "keys are read.",
    },
    "brackets-added": {
      title: "Brackets are put round the field numbers",
      text: () =>
        "Brackets may be part of a lot. Switch off the formatting of GS1 data on the scanner.",
    },
    "separator-lost": {
      title: "The separator between fields is lost",
      text: () =>
        "A lot runs into the field behind it, and nobody can tell where it ends. Set the scanner " +
        "to send the group separator (GS, also called FNC1 or ASCII 29).",
    },
    "separator-ambiguous": {
      title: "The separator comes as something that may be data",
      text: (sent: string) =>
        `It came as ${sent}, which may be part of a lot or the end of a scan. Set the scanner to ` +
        "send the group separator (GS, ASCII 29) itself, or the key F8.",
    },
    "separator-substituted": {
      title: "The separator comes as another text",
      text: (sent: string) => `From now on ${sent} is taken for the separator.`,
    },
    "leading-separator": {
      title: "A separator stands in front",
      text: () => "It is passed over.",
    },
    "full-ascii": {
      title: "Code 39 is converted to full ASCII",
      text: () => "That spoils HIBC labels. Switch off Full ASCII for Code 39.",
    },
    "check-character-stripped": {
      title: "The check character is taken off",
      text: () =>
        "Without it a misreading goes unseen. Set the scanner to send the check character of " +
        "Code 39.",
    },
    "last-character-lost": {
      title: "The last character is missing",
      text: () =>
        "The scanner takes off the check character, or spaces at the end. Set it to send both.",
    },
    "space-changed": {
      title: "The space comes as another character",
      text: (sent: string) => `It came as ${sent}. Set the scanner to send spaces as they are.`,
    },
    "identifier-wrong": {
      title: "The kind of barcode is named wrong",
      text: (sent: string) =>
        `It was named ${sent}. Set the scanner to read GS1 symbols as such, and to send AIM ` +
        "identifiers or none.",
    },
    "identifier-sent": {
      title: "The kind of each barcode is sent along",
      text: (sent: string) => `It came as ${sent}: labels are told apart with certainty.`,
    },
    "identifier-not-sent": {
      title: "The kind of barcode is not sent along",
      text: () =>
        "It works without. Where the scanner can, set it to send AIM identifiers: labels are told " +
        "apart with more certainty.",
    },
    "additions-vary": {
      title: "Each kind of barcode gets other characters added",
      text: (sent: string) =>
        `One of them was ${sent}. Switch off code identifiers of the scanner's own; AIM ` +
        "identifiers may stay.",
    },
    "prefix-added": {
      title: "Characters are added in front",
      text: (sent: string) => `From now on ${sent} is taken off.`,
    },
    "suffix-added": {
      title: "Characters are added behind",
      text: (sent: string) => `From now on ${sent} is taken off.`,
    },
    "end-key-varies": {
      title: "Only one of the two scans had an end key",
      text: () => "Set the scanner to send Enter after every kind of barcode.",
    },
    "no-end-key": {
      title: "No end key is sent",
      text: () =>
        "From now on a pause ends a scan. Scans are taken faster where the scanner sends Enter.",
    },
    "too-slow": {
      title: "The keys come too slowly",
      text: (sent: string) =>
        `Up to ${sent} ms passed between two keys; from 60 ms on, a scan cannot be told from ` +
        "typing. Switch off the delay between characters, or go nearer to the receiver.",
    },
  },
  tryOut: {
    title: "Try it out",
    lead: "Scan anything: it is shown here and goes nowhere else.",
    begin: "Begin",
    end: "End",
    nothing: "Nothing has arrived yet.",
    typed: "Typed",
    byPosition: "By the places of the keys",
    raw: "Taken as",
    ended: "Ended by",
    gaps: (shortest: number, longest: number) =>
      shortest === longest ? `${shortest} ms apart` : `${shortest} to ${longest} ms apart`,
    gapsLabel: "Keys",
    capsLock: "Caps Lock is on.",
    reads: "Read as",
  },
  settings: {
    title: "Settings by hand",
    hint: "The set-up finds these by itself. Change them only if scans are missed or typing is taken for one.",
    saved: "Saved for this device.",
  },
  doubt: {
    title: "Is this the lot on the label?",
    text: "Two fields may have run into one. Compare with the printed label.",
    yes: "It is as printed",
    no: "Put it away",
  },
};

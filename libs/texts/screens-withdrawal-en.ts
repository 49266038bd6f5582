const plural = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`;

/** The texts of traces and withdrawals, in English. Own wording. */
export const withdrawalEn = {
  title: "Withdrawals",
  lead: "Is it here? Who has it? Do the books balance?",
  scanTarget: "the trace: follows the label's lot",
  form: {
    title: "Trace",
    lot: "Lot",
    lotHint: "Exactly as printed",
    identifier: "Device identifier",
    identifierHint: "GTIN, HIBC or PPN",
    container: "Container",
    containerHint: "The short code on its label",
    button: "Trace it",
    again: "Another trace",
    sayOne: "Say a lot, a device identifier or a container.",
  },
  answer: {
    title: (what: string) => `Trace of ${what}`,
    lot: (lot: string) => `lot ${lot}`,
    identifier: (identifier: string) => `identifier ${identifier}`,
    container: (code: string) => `container ${code}`,
    at: (when: string) => `As the books stand ${when}`,
    none: "None here",
    noneText: "Nothing of it was ever received here. That is an answer, too.",
    unknown:
      "No catalogue entry and no container has this code, so nothing of it was received here.",
    withdrawn: "covered by an open withdrawal",
    saveTeeth: "Save the affected teeth as CSV",
    enter: "Enter a withdrawal",
    officeEnters: "The office enters a withdrawal.",
  },
  lookAlikes: {
    title: "Lots that look alike, not included",
    text: "Their text could be misread for this one. Each is its own lot: look at it by itself.",
    look: "Look at it by itself",
  },
  flow: {
    label: "From the delivery to the teeth",
    received: "received",
    here: "still here",
    planned: "on planned trays",
    teeth: "teeth",
    patients: "patients",
    nowhere: "none on a shelf",
    noTray: "on no tray",
    noTooth: "in no tooth",
  },
  certainty: { certain: "certain", inferred: "inferred", possible: "possible" },
  certaintyWhy: {
    certain: "its container was scanned",
    inferred: "the scan was missed; only one of that product was open in the room",
    possible: "the scan was missed; several of that product were open in the room",
  },
  teeth: {
    title: "Teeth and patients",
    none: "No tooth has it, as far as is recorded.",
    sums: (counts: { certain: number; inferred: number; possible: number }) =>
      `${counts.certain} certain · ${counts.inferred} inferred · ${counts.possible} possible`,
    columns: {
      certainty: "Certainty",
      chart: "Chart",
      tooth: "Tooth",
      visit: "Visit",
      step: "Step",
      container: "Container",
      used: "Used",
      record: "Record",
      product: "Product",
      lot: "Lot",
    },
    visits: { sealing: "sealing", bonding: "bonding" },
  },
  balance: {
    title: "Do the books balance?",
    received: "Received",
    onHand: "On the shelves",
    quarantined: "In quarantine",
    usedUp: "Used up",
    discarded: "Discarded",
    returned: "Returned",
    unaccounted: "Unaccounted",
    balanced: "They balance: nothing is left over.",
    missing: (count: number) =>
      `${plural(count, "container is", "containers are")} unaccounted for.`,
    tooMany: (count: number) =>
      `${plural(count, "container more is", "containers more are")} on the books than were ` +
      "received.",
    lost: (count: number) => `Of these, ${count} declared lost.`,
    counted: (count: number) => `Of these, ${count} by counting.`,
  },
  lotTitle: (product: string, lot: string) => `${product}, lot ${lot}`,
  useBy: (date: string) => `use by ${date}`,
  noUseBy: "no use-by date",
  cases: {
    title: "Cases",
    empty: "No withdrawal has been entered.",
    columns: {
      reference: "Reference",
      state: "State",
      received: "Notice entered",
      closed: "Closed",
      scope: "Covers",
    },
  },
  everyLot: "every lot",
  enter: {
    title: "Enter a withdrawal",
    text: "From the moment it is entered, nothing it covers passes a check or a delivery.",
    reference: "Reference of the notice",
    referenceHint: "The number or title the notice bears",
    note: "Note",
    noteHint: "Who sent it, what it asks for",
    scope: "What it covers",
    scopeOf: (product: string, lot: string) => `${product}, lot ${lot}`,
    scopeAll: (product: string) => `${product}, every lot`,
    more: "Cover something else as well",
    product: "Product",
    lot: "Lot",
    lotHint: "Left empty: every lot of the product",
    addScope: "Add to it",
    nothing: "Say what it covers: tick a lot, or add a product.",
    button: "Enter it",
    done: (reference: string) => `Withdrawal ${reference} is open.`,
  },
  case: {
    noticeBy: (by: string, when: string) => `Notice entered by ${by}, ${when}`,
    since: "since the notice",
    took: "from notice to closing",
    covers: "Covers",
    stillOut: "still on the shelves",
    setApart: "in quarantine",
    teeth: "teeth",
    patients: "patients",
    unaccounted: "unaccounted",
    segregate: (count: number) => `Move ${plural(count, "container", "containers")} to quarantine`,
    segregateTitle: "Move all of it to quarantine?",
    segregateText: (count: number) =>
      `${plural(count, "container", "containers")} this case covers. Carry them there as ` +
      "well: the books move at once.",
    segregated: (count: number) =>
      `${plural(count, "container", "containers")} moved to quarantine.`,
    nothingOut: "Nothing it covers is on a shelf any more.",
    close: "Close the case",
    closeTitle: (reference: string) => `Close ${reference}?`,
    closeText:
      "What was found and done, in words. The figures of now are put in; change what you like.",
    stillOutWarning: (count: number) =>
      `${plural(count, "container", "containers")} of it ${count === 1 ? "is" : "are"} still ` +
      "on the shelves.",
    summary: "Summary",
    closeButton: "Close it",
    closed: (when: string) => `Closed ${when}`,
    closedDone: "The case is closed.",
    officeCloses: "The office closes the case.",
    lots: "Lots it covers here",
    noLots: "None of what it covers was ever received here. From now on it is refused at the door.",
    figures: (f: {
      received: number;
      onHand: number;
      quarantined: number;
      usedUp: number;
      discarded: number;
      returned: number;
      unaccounted: number;
    }) =>
      `Received ${f.received}; on the shelves ${f.onHand}, in quarantine ${f.quarantined}, ` +
      `used up ${f.usedUp}, discarded ${f.discarded}, returned ${f.returned}, ` +
      `unaccounted ${f.unaccounted}.`,
    figuresTeeth: (f: { certain: number; inferred: number; possible: number; patients: number }) =>
      `Teeth: ${f.certain} certain, ${f.inferred} inferred, ${f.possible} possible; ` +
      `patients: ${f.patients}.`,
  },
  clock: {
    days: (count: number) => plural(count, "day", "days"),
    parts: (hours: string, minutes: string, seconds: string) => `${hours}:${minutes}:${seconds}`,
  },
};

import { describe, expect, test } from "@jest/globals";
import { problemCodes } from "#contracts/problem-codes";
import {
  checkTray,
  containerStates,
  contents,
  describeTooth,
  findingCodes,
  findingLevels,
  locationKinds,
  productKinds,
  recordStates,
  remedyCodes,
  roles,
  solvents,
  strategies,
  trayStates,
  verdicts,
  withdrawalStates,
  type Finding,
  type TrayFacts,
} from "#domain";
import { scannerFaults } from "#labels";
import { aTrayWithBond, bondNorth, checkedAt, onShelf } from "../domain/facts.fixture.ts";
import { troubledTrays } from "../domain/troubled-trays.fixture.ts";
import { getMessages, languages } from "./format.ts";
import {
  sayBecause,
  sayFinding,
  sayLabelProblem,
  sayProblem,
  sayScannerFault,
  sayTooth,
  sayVerdict,
} from "./say.ts";

// The closed list of reasons for which reading a label fails.
const labelProblemKinds = `empty_input unrecognized_format unsupported_symbology unsupported_scheme
  symbology_case_mismatch symbology_mismatch unknown_ai empty_value value_too_short value_too_long
  invalid_character invalid_check_digit invalid_date invalid_time doubled_separator
  missing_companion_ai exclusive_ai_pair conflicting_duplicate_ai not_a_digital_link
  dl_key_qualifier_order dl_attribute_not_allowed dl_duplicate_ai invalid_check_character
  link_mismatch invalid_structure unknown_data_identifier conflicting_duplicate`.split(/\s+/);

/** A sentence for people: begins and ends as one, nothing unfilled, no code in it. */
function expectSentence(text: string): void {
  expect(text).toMatch(/^[\p{L}\p{N}“„].*[.!]$/su);
  expect(text).not.toMatch(/[{}[\]|]|undefined|null|NaN/);
  expect(text).not.toMatch(/\d{4}-\d{2}-\d{2}|\d\/\d|  /);
}

function findIn(facts: TrayFacts, code: string): Finding {
  const found = checkTray(facts, checkedAt).findings.find((finding) => finding.code === code);
  if (found === undefined) throw new Error(`no ${code}`);
  return found;
}

describe.each(languages)("texts in %s", (language) => {
  const messages = getMessages(language);

  test("have every word of every list, and no word twice in one list", () => {
    const lists = [
      [messages.productKinds, productKinds],
      [messages.solvents, solvents],
      [messages.strategies, strategies],
      [messages.contents, contents],
      [messages.containerStates, containerStates],
      [messages.locationKinds, locationKinds],
      [messages.trayStates, trayStates],
      [messages.recordStates, recordStates],
      [messages.withdrawalStates, withdrawalStates],
      [messages.roles, roles],
      [messages.verdicts, verdicts],
      [messages.levels, findingLevels],
      [messages.findings, findingCodes],
      [messages.remedies, remedyCodes],
      [messages.problems, Object.keys(problemCodes)],
      [messages.labelProblems, labelProblemKinds],
      [messages.scannerFaults, scannerFaults],
    ] as const;
    for (const [words, codes] of lists) {
      expect(Object.keys(words).sort()).toEqual([...codes].sort());
      const texts = Object.values(words).map((text: unknown) => JSON.stringify(text));
      expect(new Set(texts).size).toBe(codes.length);
      expect(texts).not.toContain('""');
    }
  });

  test.each(troubledTrays.map((tray) => [tray.code, tray.title, tray] as const))(
    "say %s where %s",
    (code, _, { facts }) => {
      const finding = findIn(facts, code);
      const said = sayFinding(language, finding);
      expect(said.title).toMatch(/^\p{Lu}/u);
      expect(said.title.length).toBeLessThanOrEqual(30);
      expectSentence(said.sentence);
      expectSentence(said.remedy);
      for (const because of finding.because) {
        const reason = sayBecause(language, because);
        expect(reason).toMatch(/ \(.+\)$/);
        expect(reason).not.toMatch(/[{}[\]|]|undefined|\d{4}-\d{2}-\d{2}/);
        expect(Object.keys(messages.because)).toContain(because.what);
      }
    },
  );

  test("use every reason's sentence: no text that nothing can say", () => {
    const said = new Set(
      troubledTrays.map(({ code, reason }) => (reason === null ? code : `${code}.${reason}`)),
    );
    const written = Object.entries(messages.findings).flatMap(([code, { sentence }]) =>
      typeof sentence === "string" ? code : Object.keys(sentence).map((one) => `${code}.${one}`),
    );
    expect(written.sort()).toEqual([...said].sort());
  });

  test("name the better container in every remedy that has one", () => {
    for (const { code, facts } of troubledTrays) {
      for (const finding of checkTray({ ...facts, shelf: [onShelf(bondNorth)] }, checkedAt)
        .findings) {
        const { remedy } = sayFinding(language, finding);
        expectSentence(remedy);
        const named = finding.remedy.numbers.insteadCode !== undefined;
        expect([code, remedy.includes("CM3-AB9T") && remedy.includes("Operatory 2")]).toEqual([
          code,
          named,
        ]);
      }
    }
  });

  test("say every remedy there is", () => {
    const numbers = {
      insteadCode: "CM3-AB9T",
      insteadProduct: "Product",
      insteadPlace: "Fridge",
      product: "Product",
      neededSeconds: 10,
      step: "Prime",
      enoughSeconds: 20,
      minutesLeft: 5,
      light: "Lamp",
      place: "Fridge",
      tooth: "16",
    };
    for (const code of remedyCodes) {
      const finding = { code: "missing" as const, subject: { name: "Prime" }, numbers: {} };
      const said = sayFinding(language, { ...finding, remedy: { code, numbers } });
      expectSentence(said.remedy);
      expect(said.remedy.split("CM3-AB9T")).toHaveLength(2);
    }
  });

  test("say every problem with and without its numbers, what happened and what to do", () => {
    const numbers = {
      retryAfterSeconds: 30,
      roles: "owner",
      useBy: "2026-11-24",
      reference: "W-1",
      stored: "2026-11-24",
      available: 2,
      place: "Fridge",
      openedOn: "2026-11-24",
      product: "Product",
      missing: "Cure",
      requestId: "r-1",
    };
    for (const code of Object.keys(problemCodes)) {
      expectSentence(sayProblem(language, code));
      expectSentence(sayProblem(language, code, numbers));
      expect(sayProblem(language, code)).toMatch(/[.,;!:] .+/);
    }
    const withNumbers = sayProblem(language, "not-enough-stock", { available: 2 });
    expect(withNumbers).toContain("2");
    expect(withNumbers).not.toBe(sayProblem(language, "not-enough-stock"));
  });

  test("say a problem that they do not know as an internal error", () => {
    expect(sayProblem(language, "of-tomorrow")).toBe(sayProblem(language, "internal-error"));
    expect(sayProblem(language, "constructor")).toBe(sayProblem(language, "internal-error"));
  });

  test("say every reason for which a label is not read, and one they do not know", () => {
    for (const kind of labelProblemKinds) expectSentence(sayLabelProblem(language, kind));
    expect(sayLabelProblem(language, "of-tomorrow")).toBe(sayProblem(language, "label-unreadable"));
  });

  test("say what the scanner did where it was the scanner", () => {
    for (const fault of scannerFaults) {
      expectSentence(sayScannerFault(language, fault));
      const said = sayLabelProblem(language, "value_too_long", fault);
      expect(said).toBe(sayScannerFault(language, fault));
    }
  });

  test("say the cautions of the product", () => {
    expect(Object.keys(messages.cautions)).toEqual(["aid", "figures", "duties"]);
    for (const caution of Object.values(messages.cautions)) expectSentence(caution);
  });
});

describe("sentences", () => {
  const expired = findIn(
    {
      ...aTrayWithBond({ container: { useBy: { date: "2026-11-01", precision: "day" } } }),
      shelf: [onShelf(bondNorth)],
    },
    "past-use-by",
  );

  test("an expired container is said short, then with both dates, then with what to take", () => {
    expect(sayFinding("en", expired)).toEqual({
      title: "Expired",
      sentence: "Product bond-north CK7-QW4X: use by 1 November 2026, today is 25 November 2026.",
      remedy: "Discard it. Take CM3-AB9T (Product bond-north) from Operatory 2.",
    });
    expect(sayFinding("de", expired)).toEqual({
      title: "Abgelaufen",
      sentence:
        "Product bond-north CK7-QW4X: verwendbar bis 1. November 2026, heute ist der " +
        "25. November 2026.",
      remedy:
        "Entsorgen Sie den Behälter. Nehmen Sie CM3-AB9T (Product bond-north). Ort: Operatory 2.",
    });
  });

  test("each number compared is said with where it came from", () => {
    expect(expired.because.map((one) => sayBecause("en", one))).toEqual([
      "use-by date 1 November 2026 (label)",
      "today 25 November 2026 (clock)",
    ]);
    expect(expired.because.map((one) => sayBecause("de", one))).toEqual([
      "verwendbar bis 1. November 2026 (Etikett)",
      "heute 25. November 2026 (Uhr)",
    ]);
  });

  test("solvents and kinds are said in words, lists with an or", () => {
    const acetone = troubledTrays.find((tray) => tray.reason === "not-allowed");
    if (acetone === undefined) throw new Error("no such tray");
    const finding = findIn(acetone.facts, "wrong-solvent");
    expect(sayFinding("en", finding).sentence).toBe(
      "Product primer-north CK7-QW4X contains acetone; “Step primer” allows only: ethanol or " +
        "water.",
    );
    expect(sayFinding("de", finding).sentence).toBe(
      "Product primer-north CK7-QW4X enthält Aceton; „Step primer“ erlaubt nur: Ethanol oder " +
        "Wasser.",
    );
  });

  test("a product without solvent is said as such", () => {
    const finding = {
      code: "wrong-solvent" as const,
      subject: { name: "Bond A" },
      numbers: { reason: "needed", solvents: "", solvent: "water", step: "Prime" },
      remedy: { code: "none" as const, numbers: {} },
    };
    expect(sayFinding("en", finding).sentence).toBe(
      "Bond A contains no solvent; “Prime” needs water.",
    );
  });

  test("one day and several days are said apart", () => {
    const left = (daysLeft: number): string =>
      sayFinding("de", {
        code: "short-dated",
        subject: { name: "Bond A" },
        numbers: { daysLeft, end: "2026-11-26", limit: 30 },
        remedy: { code: "use-soon", numbers: {} },
      }).sentence;
    expect(left(1)).toBe("Bond A: noch 1 Tag, bis 26. November 2026; die Praxis verlangt 30 Tage.");
    expect(left(0)).toContain("noch 0 Tage");
  });

  test("a verdict is one word", () => {
    expect(verdicts.map((verdict) => sayVerdict("en", verdict))).toEqual([
      "Stop",
      "Caution",
      "Clear",
    ]);
    expect(verdicts.map((verdict) => sayVerdict("de", verdict))).toEqual([
      "Stopp",
      "Vorsicht",
      "Frei",
    ]);
  });

  test.each([
    ["36", "lower left first molar", "erster Molar unten links"],
    ["11", "upper right central incisor", "mittlerer Schneidezahn oben rechts"],
    ["85", "lower right primary second molar", "zweiter Molar unten rechts (Milchzahn)"],
  ])("tooth %s is the %s", (fdi, english, german) => {
    const tooth = describeTooth(fdi);
    if (tooth === null) throw new Error("no tooth");
    expect(sayTooth("en", tooth)).toBe(english);
    expect(sayTooth("de", tooth)).toBe(german);
  });
});

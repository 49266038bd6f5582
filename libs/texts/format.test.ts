import { describe, expect, test } from "@jest/globals";
import { fill } from "./fill.ts";
import { formatDate, formatNumber, getMessages, languages, plural } from "./format.ts";

describe("dates", () => {
  test("have their month as a word", () => {
    expect(formatDate("en", "2026-02-01")).toBe("1 February 2026");
    expect(formatDate("de", "2026-02-01")).toBe("1. Februar 2026");
    expect(formatDate("de", "2026-03-31")).toBe("31. März 2026");
  });

  test("are the same day wherever the machine stands", () => {
    // A civil date read as an instant would be the day before in the Americas.
    const days = Array.from({ length: 28 }, (_, index) => String(index + 1).padStart(2, "0"));
    for (const day of days) {
      expect(formatDate("en", `2028-02-${day}`)).toBe(`${Number(day)} February 2028`);
    }
  });

  test("that are none are shown as they are", () => {
    expect(formatDate("en", "unknown")).toBe("unknown");
    expect(formatDate("en", "2026-13-01")).toBe("2026-13-01");
  });
});

describe("numbers", () => {
  test("have the language's own decimal mark and grouping", () => {
    expect(formatNumber("en", 1234.5)).toBe("1,234.5");
    expect(formatNumber("de", 1234.5)).toBe("1.234,5");
  });

  test("choose the form of the word beside them", () => {
    const forms = { one: "tooth", other: "teeth" };
    expect([0, 1, 2].map((count) => plural("en", count, forms))).toEqual([
      "teeth",
      "tooth",
      "teeth",
    ]);
    expect(plural("de", 1.5, forms)).toBe("teeth");
  });
});

describe("filling a text", () => {
  test("puts values in, formatted as the text says", () => {
    expect(fill("en", "{a}, {b|date}, {c|seconds}", { a: "x", b: "2026-11-25", c: 10 })).toBe(
      "x, 25 November 2026, 10 s",
    );
  });

  test("leaves out a part in brackets where a value is not given", () => {
    const text = "Wait[ {left|seconds}][ for {what}].";
    expect(fill("en", text, { left: 5 })).toBe("Wait 5 s.");
    expect(fill("en", text, { left: 5, what: "it" })).toBe("Wait 5 s for it.");
    expect(fill("en", text, {})).toBe("Wait.");
    expect(fill("en", "Wait[ {left|seconds} for {what}].", { left: 5 })).toBe("Wait.");
  });

  test("shows a placeholder without a value rather than a wrong text", () => {
    expect(fill("en", "Take {code}.", {})).toBe("Take {code}.");
  });

  test("takes a value as it is, whatever brackets or braces it holds", () => {
    expect(fill("en", "Lot {lot}[ ({more})].", { lot: "[A]{lot}$&", more: "{lot}" })).toBe(
      "Lot [A]{lot}$& ({lot}).",
    );
  });

  test("shows a word of no list as it is", () => {
    expect(fill("de", "{a|kind}, {b|solvents}", { a: "wax", b: "water,ether" })).toBe(
      "wax, Wasser oder ether",
    );
  });
});

/** The names that a text asks for, with their formats. */
function listPlaceholders(text: string): readonly string[] {
  return (text.match(/\{[^}]*\}|\[|\]/g) ?? []).sort();
}

function listTexts(value: unknown, path: string): readonly (readonly [string, string])[] {
  if (typeof value === "string") return [[path, value]];
  return Object.entries(value as object).flatMap(([key, member]) =>
    listTexts(member, `${path}.${key}`),
  );
}

describe("every language", () => {
  test("asks for the same values in every text", () => {
    const [first, ...others] = languages.map((language) => listTexts(getMessages(language), ""));
    expect(first?.length).toBeGreaterThan(200);
    for (const texts of others) {
      for (const [index, [path, text]] of texts.entries()) {
        const [firstPath, firstText] = first?.[index] ?? ["", ""];
        expect([path, listPlaceholders(text)]).toEqual([firstPath, listPlaceholders(firstText)]);
      }
    }
  });

  test("names only formats that there are, outside nested brackets", () => {
    const formats =
      "date days months minutes seconds kind kinds solvent solvents strategy content contents absence";
    for (const language of languages) {
      for (const [, text] of listTexts(getMessages(language), "")) {
        for (const [, format] of text.matchAll(/\{\w+\|(\w+)\}/g)) {
          expect(formats.split(" ")).toContain(format);
        }
        expect(text.replace(/\{\w+(\|\w+)?\}/g, "")).not.toMatch(/[{}]|\[[^\]]*\[/);
      }
    }
  });

  test("is written with its own letters, never with substitutes", () => {
    const german = listTexts(getMessages("de"), "").map(([, text]) => text);
    expect(
      german.filter((text) => /\b(fuer|ueber|koennen|muessen|moeglich|pruefen)\b/i.test(text)),
    ).toEqual([]);
    expect(german.filter((text) => /[äöüß]/i.test(text)).length).toBeGreaterThan(50);
  });
});

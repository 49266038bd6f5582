import { describe, expect, test } from "@jest/globals";
import { arrangeTray, countFindings, type PendingScan, type Tray } from "./columns.ts";

const step = (key: string, accepts: string[]) => ({
  key,
  name: key,
  accepts,
  required: true,
  when: null,
});
const item = (id: string, ...stepKeys: string[]) => ({ id, stepKeys });
const finding = (code: string, itemId: string | null, stepKey: string | null) => ({
  code,
  level: "stop",
  subject: { type: "container", itemId, containerId: null, stepKey, name: "" },
  overridden: null,
});

const tray = (items: unknown[], findings: unknown[]) =>
  ({
    teeth: [{ tooth: "16", mode: null, provisional: "none", undercut: false }],
    technique: {
      steps: [
        step("isolate", []),
        step("prime", ["primer"]),
        step("bond", ["adhesive", "universal-adhesive"]),
        // Of no tooth of this visit.
        {
          ...step("block", ["flowable"]),
          when: { modes: null, provisional: null, undercut: true },
        },
      ],
    },
    items,
    suggestions: { prime: [{ code: "C1" }] },
    check: { findings },
  }) as unknown as Tray;

const scan = (key: string, kind: string | null): PendingScan => ({
  key,
  name: key,
  detail: "",
  kind,
  late: false,
});

describe("a tray in columns", () => {
  test("has a column for each step in the order of the work, with what to fetch", () => {
    const { columns } = arrangeTray(tray([], []));
    expect(columns.map((column) => column.step.key)).toEqual(["isolate", "prime", "bond"]);
    expect(columns.map((column) => column.usesMaterial)).toEqual([false, true, true]);
    expect(columns.map((column) => column.suggestions.length)).toEqual([0, 1, 0]);
  });

  test("shows a container at every step that it serves", () => {
    const { columns } = arrangeTray(tray([item("i1", "prime", "bond")], []));
    expect(columns.map((column) => column.items.length)).toEqual([0, 1, 1]);
  });

  test("hangs a finding under its step, else under its container's first step", () => {
    const findings = [finding("wrong-solvent", "i1", "bond"), finding("past-use-by", "i1", null)];
    const { columns } = arrangeTray(tray([item("i1", "prime", "bond")], findings));
    expect(columns.map((column) => column.findings.map(({ code }) => code))).toEqual([
      [],
      ["past-use-by"],
      ["wrong-solvent"],
    ]);
  });

  test("keeps what belongs to no step where it is seen", () => {
    const findings = [finding("wrong-kind", "i9", null), finding("system-split", null, null)];
    const { columns, apart } = arrangeTray(tray([item("i9")], findings));
    expect(columns.every((column) => column.items.length + column.findings.length === 0)).toBe(
      true,
    );
    expect(apart.items).toHaveLength(1);
    expect(apart.findings.map(({ code }) => code)).toEqual(["wrong-kind", "system-split"]);
  });

  test("shows a scan under way where its kind will land, and apart where that is not known", () => {
    const { columns, apart } = arrangeTray(tray([], []), [scan("k1", "primer"), scan("k2", null)]);
    expect(columns.map((column) => column.pending.length)).toEqual([0, 1, 0]);
    expect(apart.pending.map(({ key }) => key)).toEqual(["k2"]);
  });

  test("shows nothing of a container whose removal is under way", () => {
    const findings = [finding("past-use-by", "i1", "prime")];
    const { columns } = arrangeTray(tray([item("i1", "prime")], findings), [], new Set(["i1"]));
    expect(columns.every((column) => column.items.length + column.findings.length === 0)).toBe(
      true,
    );
  });

  test("counts a stop that a dentist has passed no longer", () => {
    const passed = { ...finding("short-dated", "i1", "prime"), overridden: { by: "D" } };
    const { check } = tray(
      [],
      [passed, finding("missing", null, "bond"), { ...finding("x", null, null), level: "info" }],
    );
    expect(countFindings(check.findings)).toEqual({ stop: 1, caution: 0, info: 1 });
  });
});

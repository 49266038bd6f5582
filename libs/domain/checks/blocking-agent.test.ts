import { describe, expect, test } from "@jest/globals";
import {
  aPlainProduct,
  aStep,
  aTechnique,
  aTray,
  anItem,
  bondStep,
  onShelf,
  primeStep,
} from "../facts.fixture.ts";
import type { ToothFacts, TrayFacts } from "../facts.ts";
import type { ProductKind } from "../vocabulary.ts";
import { countFindings, getFinding } from "./check-tray.fixture.ts";

const barrier = aStep("glycerin-gel", { accepts: ["glycerin-gel", "other-barrier"] });
const underBarrier = (kind: ProductKind) =>
  aTray({
    technique: aTechnique({ steps: [primeStep, bondStep, barrier] }),
    items: [...aTray().items, anItem(aPlainProduct(kind))],
  });

const tooth = (provisional: ToothFacts["provisional"]): ToothFacts => ({
  tooth: "16",
  mode: null,
  provisional,
  undercut: false,
});
const separating = aStep("separating-agent", { required: false });
const withResin = (over: Partial<TrayFacts> = {}): TrayFacts =>
  aTray({
    technique: aTechnique({ steps: [primeStep, bondStep, separating] }),
    teeth: [tooth("resin")],
    ...over,
  });
const separator = anItem(aPlainProduct("separating-agent"));

// Glycerin kept seal and impression apart: Eur J Dent 2014;8:366-372; without an air-block every
// impression was faulty: IJCPD 2019;12:288-292. A resin provisional sticks: KSDM timing study.
describe("blocking-agent", () => {
  test("stops another barrier where glycerin gel belongs", () => {
    expect(getFinding(underBarrier("other-barrier"), "blocking-agent")).toMatchObject({
      level: "stop",
      subject: { stepKey: "glycerin-gel" },
      numbers: { reason: "no-glycerin", kind: "other-barrier" },
    });
    expect(countFindings(underBarrier("glycerin-gel"), "blocking-agent")).toBe(0);
  });

  test("warns of a resin provisional without a separating agent, and names one to fetch", () => {
    const shelf = [onShelf(aPlainProduct("separating-agent"))];
    expect(getFinding(withResin({ shelf }), "blocking-agent")).toMatchObject({
      level: "caution",
      subject: { type: "tooth", name: "16", stepKey: "separating-agent" },
      numbers: { reason: "no-separator", tooth: "16" },
      remedy: { code: "add-separator", numbers: { insteadCode: "CM3-AB9T" } },
    });
  });

  test("warns also where the technique has no such step", () => {
    const finding = getFinding(withResin({ technique: aTechnique() }), "blocking-agent");
    expect(finding.subject.stepKey).toBeNull();
  });

  test("is silent with a separating agent, without resin, and where it is missing anyway", () => {
    const set = withResin({ items: [...aTray().items, separator] });
    expect(countFindings(set, "blocking-agent")).toBe(0);
    for (const provisional of ["none", "other"] as const) {
      expect(countFindings(withResin({ teeth: [tooth(provisional)] }), "blocking-agent")).toBe(0);
    }
    const steps = [primeStep, bondStep, { ...separating, required: true }];
    const required = withResin({ technique: aTechnique({ steps }) });
    expect(countFindings(required, "blocking-agent")).toBe(0);
    expect(countFindings(required, "missing")).toBe(1);
  });

  test("asks for each tooth that the separating step is for", () => {
    const when = { modes: null, provisional: null, undercut: true };
    const steps = [primeStep, bondStep, { ...separating, when }];
    const teeth = [
      { ...tooth("resin"), undercut: true },
      { ...tooth("resin"), tooth: "17" },
    ];
    const items = [...aTray().items, separator];
    const tray = withResin({ technique: aTechnique({ steps }), teeth, items });
    expect(getFinding(tray, "blocking-agent").subject.name).toBe("17");
  });
});

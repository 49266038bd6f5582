import { describe, expect, test } from "@jest/globals";
import { aTrayWithBond, bondNorth, onShelf } from "../facts.fixture.ts";
import { getFinding } from "./check-tray.fixture.ts";

const withdrawals = [
  { id: "w2", reference: "W-2026-2" },
  { id: "w1", reference: "W-2026-1" },
];

describe("withdrawn", () => {
  test("names the lot and every open withdrawal, and sends the container into quarantine", () => {
    expect(getFinding(aTrayWithBond({ withdrawals }), "withdrawn")).toMatchObject({
      level: "stop",
      numbers: { references: "W-2026-1, W-2026-2", lot: "L7" },
      remedy: { code: "quarantine", numbers: {} },
      because: [
        { what: "withdrawal", value: "W-2026-1", from: "withdrawal" },
        { what: "withdrawal", value: "W-2026-2", from: "withdrawal" },
      ],
      until: null,
    });
  });

  test("covers a container never received by the lot of its label", () => {
    const scanned = { identifier: "1", lot: "L9", serial: null, useBy: null };
    const facts = aTrayWithBond({ withdrawals, container: null, scanned });
    expect(getFinding(facts, "withdrawn").numbers).toMatchObject({ lot: "L9" });
  });

  test("names the container to take instead", () => {
    const facts = { ...aTrayWithBond({ withdrawals }), shelf: [onShelf(bondNorth)] };
    expect(getFinding(facts, "withdrawn").remedy).toMatchObject({
      code: "quarantine",
      numbers: { insteadCode: "CM3-AB9T", insteadPlace: "Operatory 2" },
    });
  });
});

import { describe, expect, test } from "@jest/globals";
import { paths, patterns, readNext } from "./paths.ts";
import { stationOf } from "./shell/nav.ts";

const id = "01a21300-0000-7000-8000-000000000000";

describe("the links of the client", () => {
  test("lead where the patterns of the pages expect them", () => {
    expect(paths.tray(id)).toBe(patterns.tray.replace(":trayId", id));
    expect(paths.chairside(id)).toBe(patterns.chairside.replace(":trayId", id));
    expect(paths.container(id)).toBe(patterns.container.replace(":containerId", id));
    expect(paths.record(id)).toBe(patterns.record.replace(":recordId", id));
    expect(paths.withdrawal(id)).toBe(patterns.withdrawal.replace(":withdrawalId", id));
    expect(paths.product(id)).toBe(patterns.product.replace(":productId", id));
    expect(paths.delivery(id)).toBe(patterns.delivery.replace(":deliveryId", id));
  });

  test("keep a filter in the address, escaped, and leave out what is empty", () => {
    expect(paths.trays({ on: "2026-03-02", chart: "" })).toBe("/trays?on=2026-03-02");
    expect(paths.withdrawals({ lot: "A&B/7" })).toBe("/withdrawals?lot=A%26B%2F7");
  });

  test("belong to the station of the line that they begin with", () => {
    expect(stationOf(paths.today())).toBe("today");
    expect(stationOf(paths.chairside(id))).toBe("trays");
    expect(stationOf(paths.container(id))).toBe("shelf");
    expect(stationOf("/nowhere")).toBeNull();
  });
});

describe("the way back after signing in", () => {
  test("leads to the page that was asked for", () => {
    expect(readNext(paths.signIn("/trays?on=2026-03-02").split("?")[1]!)).toBe(
      "/trays?on=2026-03-02",
    );
  });

  test("never leads to another site", () => {
    for (const next of [
      "https://evil.example",
      "//evil.example",
      "/\\evil.example",
      "javascript:1",
      "",
    ]) {
      expect(readNext(new URLSearchParams({ next }).toString())).toBe("/");
    }
  });
});

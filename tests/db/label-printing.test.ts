import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { act, asDentist, refusalOf } from "./acts.ts";
import { openScene, type Scene } from "./scene.ts";

let it: Scene;
beforeAll(async () => {
  it = await openScene();
});
afterAll(() => it.close());

const kept = "not refused";
/** What the database answers the application. */
const tried = (text: string, values: unknown[] = []) =>
  refusalOf(act(it.app, asDentist(it.here), (client) => client.query(text, values)));

describe("a sheet", () => {
  const usual = {
    page_width_um: 210_000,
    page_height_um: 297_000,
    columns: 3,
    rows: 8,
    label_width_um: 70_000,
    label_height_um: 37_000,
    margin_left_um: 0,
    margin_top_um: 500,
    pitch_x_um: 70_000,
    pitch_y_um: 37_000,
  };
  const insert = (change: Record<string, number>, name = newId()) => {
    const sheet = { ...usual, ...change };
    const places = Object.keys(sheet).map((_, index) => `$${index + 4}`);
    return tried(
      `insert into label_sheet (practice_id, id, name, ${Object.keys(sheet).join(", ")})
       values ($1, $2, $3, ${places.join(", ")})`,
      [it.here.id, newId(), name, ...Object.values(sheet)],
    );
  };

  test("whose labels just fit and touch each other is kept", async () => {
    expect(await insert({})).toBe(kept);
    expect(await insert({ columns: 1, pitch_x_um: 1_000 })).toBe(kept);
  });

  test.each([
    ["label_sheet_labels_apart", { pitch_x_um: 69_999 }],
    ["label_sheet_labels_apart", { pitch_y_um: 36_999 }],
    ["label_sheet_on_page", { margin_left_um: 1 }],
    ["label_sheet_on_page", { margin_top_um: 1_001 }],
    ["label_sheet_on_page", { columns: 1, label_width_um: 210_001 }],
    ["label_sheet_measures_range", { margin_left_um: -1 }],
    ["label_sheet_measures_range", { page_height_um: 1_000_001 }],
    ["label_sheet_count_range", { columns: 0 }],
    ["label_sheet_count_range", { columns: 6, rows: 84, page_width_um: 900_000 }],
  ])("breaks %s with %j", async (constraint, change) => {
    const others = { label_sheet_count_range: { label_height_um: 1_000, pitch_y_um: 1_000 } };
    const more = others[constraint as keyof typeof others] ?? {};
    expect(await insert({ ...more, ...(change as Record<string, number>) })).toBe(constraint);
  });

  test("needs a name, and one of its own", async () => {
    expect(await insert({}, " ")).toBe("label_sheet_name_filled");
    const name = newId();
    expect(await insert({}, name)).toBe(kept);
    expect(await insert({}, name)).toBe("label_sheet_name_taken");
  });
});

describe("a printer", () => {
  const insert = (change: Record<string, unknown>) => {
    const printer = {
      name: newId(),
      host: "192.0.2.1",
      port: 9100,
      dots_per_inch: 300,
      label_width_um: 45_000,
      label_height_um: 20_000,
      ...change,
    };
    const places = Object.keys(printer).map((_, index) => `$${index + 3}`);
    return tried(
      `insert into label_printer (practice_id, id, ${Object.keys(printer).join(", ")})
       values ($1, $2, ${places.join(", ")})`,
      [it.here.id, newId(), ...Object.values(printer)],
    );
  };

  test("with a name, an address, a port and a resolution is kept", async () => {
    expect(await insert({})).toBe(kept);
    expect(await insert({ host: "fe80::1", dots_per_inch: 203, port: 65_535 })).toBe(kept);
  });

  test.each([
    ["label_printer_port_range", { port: 0 }],
    ["label_printer_port_range", { port: 65_536 }],
    ["label_printer_resolution_known", { dots_per_inch: 400 }],
    ["label_printer_host_form", { host: "a printer" }],
    ["label_printer_host_form", { host: "printer\n" }],
    ["label_printer_label_range", { label_width_um: 0 }],
    ["label_printer_name_filled", { name: "" }],
  ])("breaks %s with %j", async (constraint, change) => {
    expect(await insert(change)).toBe(constraint);
  });
});

describe("a code", () => {
  test("of a place or a tray has its form, and is given once", async () => {
    const { id, places, tray } = it.here;
    const give = (table: string, which: string, code: string | null) =>
      tried(`update ${table} set code = $3 where practice_id = $1 and id = $2`, [id, which, code]);
    expect(await give("location", places.store, "TK7QW4X")).toBe("location_code_form");
    expect(await give("location", places.store, "L0000000")).toBe("location_code_form");
    expect(await give("location", places.store, "LK7QW4X")).toBe(kept);
    expect(await give("location", places.store, "LK7QW4Y")).toBe("TB001");
    expect(await give("location", places.store, null)).toBe("TB001");
    expect(await give("location", places.quarantine, "LK7QW4X")).toBe("location_code_taken");
    expect(await give("tray", tray, "LK7QW4X")).toBe("tray_code_form");
    expect(await give("tray", tray, "TK7QW4X")).toBe(kept);
    expect(await give("tray", tray, "TK7QW4Y")).toBe("TB001");
  });
});

describe("a run", () => {
  const run = (id: string, copies = 1, of: string | null = null) =>
    tried("insert into label_run values ($1, $2, $3, $4, $5, now())", [
      ...[it.here.id, id, copies, of, it.here.assistant],
    ]);
  const subject = (id: string, position: number, ids: (string | null)[]) =>
    tried("insert into label_run_subject values ($1, $2, $3, $4, $5, $6)", [
      ...[it.here.id, id, position],
      ...ids,
    ]);

  test("has one to ten copies, and is a reprint of another run that there is", async () => {
    expect(await run(newId(), 0)).toBe("label_run_copies_range");
    expect(await run(newId(), 11)).toBe("label_run_copies_range");
    expect(await run(newId(), 1, newId())).toBe("label_run_reprint_fk");
    const id = newId();
    expect(await run(id, 1, id)).toBe("label_run_not_of_itself");
  });

  test("names one thing a label, in its place, of this practice", async () => {
    const id = newId();
    expect(await run(id)).toBe(kept);
    const { container, places, tray } = it.here;
    expect(await subject(id, 1, [null, null, null])).toBe("label_run_subject_one");
    expect(await subject(id, 1, [container, places.store, null])).toBe("label_run_subject_one");
    expect(await subject(id, 0, [container, null, null])).toBe("label_run_subject_position_range");
    expect(await subject(id, 501, [container, null, null])).toBe(
      "label_run_subject_position_range",
    );
    expect(await subject(id, 1, [container, null, null])).toBe(kept);
    expect(await subject(id, 1, [null, null, tray])).toBe("label_run_subject_pk");
    const { there } = it;
    expect(await subject(id, 2, [there.container, null, null])).toBe(
      "label_run_subject_container_fk",
    );
    expect(await subject(id, 2, [null, there.places.store, null])).toBe(
      "label_run_subject_location_fk",
    );
    expect(await subject(id, 2, [null, null, there.tray])).toBe("label_run_subject_tray_fk");
    expect(await subject(newId(), 1, [container, null, null])).toBe("label_run_subject_run_fk");
  });
});

test("how a print went is one of three, told once, of a print that was asked for", async () => {
  const { id, assistant } = it.here;
  const print = newId();
  const insertPrint = (labels: number) =>
    tried(
      "insert into label_print values ($1, $2, 'p', '192.0.2.1', 9100, null, 1, $3, $4, now())",
      [id, print, labels, assistant],
    );
  const outcome = (of: string, what: string) =>
    tried("insert into label_print_outcome values ($1, $2, $3, '', now())", [id, of, what]);
  expect(await insertPrint(0)).toBe("label_print_count_range");
  expect(await insertPrint(1)).toBe(kept);
  expect(await outcome(print, "perhaps")).toBe("label_print_outcome_known");
  expect(await outcome(newId(), "sent")).toBe("label_print_outcome_print_fk");
  expect(await outcome(print, "sent")).toBe(kept);
  expect(await outcome(print, "unreachable")).toBe("label_print_outcome_pk");
});

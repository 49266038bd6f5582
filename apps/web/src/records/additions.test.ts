import { describe, expect, test } from "@jest/globals";
import { readEntry, readTenths, type EntryFields } from "./additions.ts";

const empty: EntryFields = {
  kind: "note",
  stepKey: "coat",
  text: "",
  what: "other",
  millimetres: "",
  container: null,
  productId: "",
  seconds: "",
  lightId: "",
  mode: "",
  distanceTenthMm: 20,
};
const read = (fields: Partial<EntryFields>) => readEntry({ ...empty, ...fields });

describe("an entry of an amendment", () => {
  test.each<[Partial<EntryFields>, object]>([
    [{ text: " calm " }, { kind: "note", text: "calm" }],
    [
      { kind: "deviation", what: "saliva" },
      { kind: "deviation", stepKey: "coat", what: "saliva", text: "" },
    ],
    [
      { kind: "thickness", millimetres: "0,6" },
      { kind: "thickness", stepKey: "coat", tenthMm: 6 },
    ],
    [
      { kind: "used", container: { id: "c", name: "C" } },
      { kind: "used", stepKey: "coat", containerId: "c" },
    ],
    [
      { kind: "not-scanned", productId: "p", text: "torn" },
      { kind: "not-scanned", stepKey: "coat", productId: "p", reason: "torn" },
    ],
    [
      { kind: "cure", seconds: "20", lightId: "l", mode: "Soft" },
      {
        kind: "cure",
        stepKey: "coat",
        seconds: 20,
        lightId: "l",
        mode: "Soft",
        distanceTenthMm: 20,
      },
    ],
    [
      { kind: "cure", seconds: " 20 ", lightId: "other" },
      { kind: "cure", stepKey: "coat", seconds: 20, lightId: null, distanceTenthMm: 20 },
    ],
  ])("is made of %j", (fields, entry) => expect(read(fields)).toEqual(entry));

  test.each<Partial<EntryFields>>([
    {},
    { kind: "deviation" },
    { kind: "deviation", what: "blood", stepKey: "" },
    { kind: "thickness", millimetres: "thin" },
    { kind: "used" },
    { kind: "cure", seconds: "", lightId: "l" },
    { kind: "cure", seconds: "2.5", lightId: "l" },
    { kind: "cure", seconds: "3601", lightId: "l" },
    { kind: "cure", seconds: "20" },
    { kind: "not-scanned", productId: "p", text: "no" },
  ])("is not made of %j", (fields) => expect(read(fields)).toBeNull());
});

test.each([
  ["0.6", 6],
  ["1", 10],
  [" 10,0 ", 100],
  ["10.1", null],
  ["0.65", null],
  ["-1", null],
  ["", null],
])("%j are tenths of a millimetre: %j", (text, tenths) => expect(readTenths(text)).toBe(tenths));

import { expect, test } from "@jest/globals";
import { decodeList } from "./read-list-file.ts";

const text = "Akte;Zähne\r\nC-1;16";

// Byte order marks and code points: Unicode 15, 2.13; windows-1252 has ä at E4.
test.each([
  ["UTF-8", [0x5a, 0xc3, 0xa4], "Zä"],
  ["UTF-8 with a mark", [0xef, 0xbb, 0xbf, 0x5a, 0xc3, 0xa4], "Zä"],
  ["windows-1252", [0x5a, 0xe4, 0x68], "Zäh"],
  ["UTF-16, little end first", [0xff, 0xfe, 0x5a, 0x00, 0xe4, 0x00], "Zä"],
  ["UTF-16, big end first", [0xfe, 0xff, 0x00, 0x5a, 0x00, 0xe4], "Zä"],
  ["nothing", [], ""],
])("%s is read as it was written", (_name, bytes, read) => {
  expect(decodeList(new Uint8Array(bytes))).toBe(read);
});

test("a whole list comes through", () => {
  expect(decodeList(Buffer.from(text, "latin1"))).toBe(text);
  expect(decodeList(Buffer.from(text, "utf8"))).toBe(text);
});

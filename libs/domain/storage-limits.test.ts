import { expect, test } from "@jest/globals";
import { isOutsideStorage } from "./storage-limits.ts";

// ISO 15223-1 5.3.7: the upper and the lower limit are themselves allowed.
test.each([
  [2, 8, 2, 8, false],
  [1.9, 8, 2, 8, true],
  [2, 8.1, 2, 8, true],
  [null, 8.1, 2, 8, true],
  [null, 8, 2, 8, false],
  // Of one reading alone it is known that it was as cold and as warm as that.
  [null, 1, 2, 8, true],
  [9, null, 2, 8, true],
  [-20, 40, null, null, false],
  [-20, 40, null, 25, true],
  [-20, 20, null, 25, false],
  [5, 40, 2, null, false],
  [null, null, 2, 8, false],
])("from %j to %j degrees is outside %j to %j: %j", (lowestC, highestC, min, max, outside) => {
  const limits = { storageMinC: min, storageMaxC: max };
  expect(isOutsideStorage({ lowestC, highestC }, limits)).toBe(outside);
});

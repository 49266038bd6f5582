import { isValidGtin, toGtin14 } from "#labels";
import type { Identifier } from "./facts.ts";

/** An identifier as the catalogue keeps it: a GTIN with 14 digits, anything else in capitals. */
export function tidyIdentifier(identifier: Identifier): Identifier {
  const bare = identifier.value.replaceAll(/[\s-]/g, "").toUpperCase();
  if (identifier.scheme !== "gs1-gtin" || !isValidGtin(bare)) return { ...identifier, value: bare };
  return { ...identifier, value: toGtin14(bare) ?? bare };
}

/** Whether an identifier can be kept: of a GTIN, whether its check digit fits. */
export function isIdentifier({ scheme, value }: Identifier): boolean {
  return value !== "" && (scheme !== "gs1-gtin" || (value.length === 14 && isValidGtin(value)));
}

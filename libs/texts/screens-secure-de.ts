import type { secureEn } from "./screens-secure-en.ts";

/** The texts about an address that is not secure, in German. Own wording. */
export const secureDe: typeof secureEn = {
  noCamera: "Hier keine Kamera: Diese Adresse ist nicht sicher.",
  trust: "Dieses Gerät soll Tubule vertrauen",
  thenOpen: "dann öffnen:",
  off: "Warum es keine sichere gibt",
  gotIt: "Verstanden",
};

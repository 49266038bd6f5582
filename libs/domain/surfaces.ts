/** Surfaces of a tooth, by the letters of the trade. */
import { describeTooth } from "./teeth.ts";

/** The surfaces of a tooth in their order, or why the text names none. */
export type SurfaceReading =
  | { ok: true; surfaces: string }
  | { ok: false; error: "not-a-tooth" | "empty" | "not-a-surface" | "not-on-this-tooth" | "twice" };

const known = "MOIDBFLP";
// Back teeth have a biting surface (O) and a cheek side (B), front teeth an edge (I) and a lip side
// (F). P is another word for L in the upper arch.
const order = { posterior: "MODBL", anterior: "MIDFL" } as const;
const frontClasses: readonly string[] = ["central-incisor", "lateral-incisor", "canine"];

/**
 * Reads the surfaces of a tooth as people write them, in any order and in either case, and answers
 * them in the usual order: M, O or I, D, B or F, L; `dom` on tooth 36 is `MOD`. P, palatal, is read
 * as L and only in the upper arch. Errors: `not-a-tooth` for anything but an ISO 3950 code, `empty`,
 * `not-a-surface` for another letter, `not-on-this-tooth` such as O on an incisor, `twice` for a
 * surface named more than once. Source: common practice for the letters, which the HL7 code system
 * of surfaces shares; refusing what the tooth does not have is the project's rule.
 */
export function readSurfaces(fdi: string, text: string): SurfaceReading {
  const tooth = describeTooth(fdi);
  if (tooth === null) return { ok: false, error: "not-a-tooth" };
  const letters = Array.from(text.trim().toUpperCase());
  if (letters.length === 0) return { ok: false, error: "empty" };
  if (letters.some((letter) => !known.includes(letter))) {
    return { ok: false, error: "not-a-surface" };
  }
  const places = order[frontClasses.includes(tooth.class) ? "anterior" : "posterior"];
  const named = letters.map((letter) => (letter === "P" && tooth.arch === "upper" ? "L" : letter));
  if (named.some((letter) => !places.includes(letter))) {
    return { ok: false, error: "not-on-this-tooth" };
  }
  if (new Set(named).size < named.length) return { ok: false, error: "twice" };
  const surfaces = Array.from(places).filter((letter) => named.includes(letter));
  return { ok: true, surfaces: surfaces.join("") };
}

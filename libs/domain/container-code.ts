/** The code on the practice's own label of a container: one kind of `own-code.ts`. */
import { makeOwnCode, ownCodeCount, readOwnCode, showOwnCode } from "./own-code.ts";

/** How many different container codes there are; a counter runs from 0 to one less. */
export const containerCodeCount = ownCodeCount;

/** What reading a container code gives: the code as stored, or that it is none. */
export type ContainerCodeReading = { ok: true; code: string } | { ok: false };

/**
 * The container code for a counter of the practice, a whole number from 0 to
 * `containerCodeCount` - 1; anything else throws a RangeError.
 */
export const makeContainerCode = (counter: number): string => makeOwnCode("container", counter);

/**
 * Reads a container code in every form that `readOwnCode` knows. `{ ok: false }` for anything that
 * is not a container code or whose check character does not fit.
 */
export function readContainerCode(text: string): ContainerCodeReading {
  const own = readOwnCode(text);
  return own?.kind === "container" ? { ok: true, code: own.code } : { ok: false };
}

/** A container code grouped for people to read aloud, `CK7-QW4X`. */
export const showContainerCode = showOwnCode;

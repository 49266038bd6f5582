/**
 * Teeth as the practice writes them. What is sent and stored is always FDI (ISO 3950). The notation
 * is known with the session, before any page is shown, and a change of it loads the page anew.
 */
import { showToothIn, readToothIn, type ToothNotation } from "#domain";

let notation: ToothNotation = "fdi";

export function setToothNotation(next: ToothNotation): void {
  notation = next;
}
export const getToothNotation = (): ToothNotation => notation;

/** A stored tooth as the practice writes it; what is none stays as it is. */
export const showTooth = (fdi: string): string => showToothIn(notation, fdi);

/** The tooth that a text in the practice's notation names; `null` for none. */
export const readTooth = (text: string): string | null => readToothIn(notation, text);

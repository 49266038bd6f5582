/** What a scan's keys may have changed in the focused element, and how to set it right. */

type Changing = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

export interface TextSnapshot {
  element: Changing;
  value: string;
  selection: [number, number] | null;
}

const untyped = new Set([
  "checkbox",
  "radio",
  "button",
  "submit",
  "reset",
  "range",
  "color",
  "file",
]);
/** Inputs made of parts: text cannot be put back into them key by key, only as a whole. */
const ofParts = new Set(["date", "time", "month", "week", "datetime-local"]);

function isChanging(element: Element | null): element is Changing {
  if (element instanceof HTMLTextAreaElement || element instanceof HTMLSelectElement) return true;
  return element instanceof HTMLInputElement && !untyped.has(element.type);
}

/** Whether keys held back can be put into the focused element afterwards. */
export function takesText(element: Element | null): boolean {
  return (
    isChanging(element) && !(element instanceof HTMLSelectElement) && !ofParts.has(element.type)
  );
}

/** Remembers what the focused element contains; `null` where typing changes nothing. */
export function takeSnapshot(element: Element | null): TextSnapshot | null {
  if (!isChanging(element)) return null;
  const plain = !(element instanceof HTMLSelectElement);
  const start = plain ? element.selectionStart : null;
  const end = plain ? element.selectionEnd : null;
  const selection: [number, number] | null = start === null || end === null ? null : [start, end];
  return { element, value: element.value, selection };
}

// React notices a value only when it is set past its own property and an event follows.
function setValue(element: Changing, value: string): void {
  const property = Object.getOwnPropertyDescriptor(Object.getPrototypeOf(element), "value");
  property?.set?.call(element, value);
  element.dispatchEvent(new Event("input", { bubbles: true }));
  if (element instanceof HTMLSelectElement) {
    element.dispatchEvent(new Event("change", { bubbles: true }));
  }
}

/** Undoes what the first keys of a scan did. */
export function restore(snapshot: TextSnapshot): void {
  const { element, value, selection } = snapshot;
  if (element.value !== value) setValue(element, value);
  if (selection !== null && !(element instanceof HTMLSelectElement)) {
    element.setSelectionRange(selection[0], selection[1]);
  }
}

/** Types text into the focused element at the caret, so that the browser's undo knows of it. */
export function typeText(element: Element | null, text: string): void {
  if (!isChanging(element) || element instanceof HTMLSelectElement) return;
  if (document.execCommand("insertText", false, text)) return;
  const start = element.selectionStart ?? element.value.length;
  const end = element.selectionEnd ?? start;
  setValue(element, element.value.slice(0, start) + text + element.value.slice(end));
}

/** What a scan's keys may have changed in the focused element, and how to set it right. */

type Field = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement;

export interface TextSnapshot {
  /** Undoes what the first keys of a scan did. */
  restore: () => void;
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

function isField(element: Element | null): element is Field {
  if (element instanceof HTMLTextAreaElement || element instanceof HTMLSelectElement) return true;
  return element instanceof HTMLInputElement && !untyped.has(element.type);
}

const isEdited = (element: Element | null): element is HTMLElement =>
  element instanceof HTMLElement && element.isContentEditable;

/** Whether keys held back can be put into the focused element afterwards. */
export function takesText(element: Element | null): boolean {
  if (isEdited(element)) return true;
  return isField(element) && !(element instanceof HTMLSelectElement) && !ofParts.has(element.type);
}

/** Remembers what the focused element contains; `null` where typing changes nothing. */
export function takeSnapshot(element: Element | null): TextSnapshot | null {
  if (isField(element)) return snapshotOfField(element);
  return isEdited(element) ? snapshotOfEdited(element) : null;
}

function snapshotOfField(element: Field): TextSnapshot {
  const { value } = element;
  const plain = !(element instanceof HTMLSelectElement);
  const start = plain ? element.selectionStart : null;
  const end = plain ? element.selectionEnd : null;
  return {
    restore: () => {
      // A date or number of which a part is typed has the value of an empty one.
      if (element.value !== value || element.validity.badInput) setValue(element, value);
      if (plain && start !== null) element.setSelectionRange(start, end);
    },
  };
}

function snapshotOfEdited(element: HTMLElement): TextSnapshot {
  const nodes = Array.from(element.childNodes, (node) => node.cloneNode(true));
  return {
    restore: () => {
      element.replaceChildren(...nodes);
      getSelection()?.selectAllChildren(element);
      getSelection()?.collapseToEnd();
    },
  };
}

// React notices a value only when it is set past its own property and an event follows.
function setValue(element: Field, value: string): void {
  const property = Object.getOwnPropertyDescriptor(Object.getPrototypeOf(element), "value");
  property?.set?.call(element, value);
  element.dispatchEvent(new Event("input", { bubbles: true }));
  if (element instanceof HTMLSelectElement) {
    element.dispatchEvent(new Event("change", { bubbles: true }));
  }
}

/** Types text into the focused element at the caret, so that the browser's undo knows of it. */
export function typeText(element: Element | null, text: string): void {
  if (!takesText(element)) return;
  if (document.execCommand("insertText", false, text)) return;
  if (!isField(element) || element instanceof HTMLSelectElement) return;
  const start = element.selectionStart ?? element.value.length;
  const end = element.selectionEnd ?? start;
  setValue(element, element.value.slice(0, start) + text + element.value.slice(end));
}

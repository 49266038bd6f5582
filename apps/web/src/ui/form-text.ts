/** The text of a named field of a form; empty where there is none. */
export function readText(form: HTMLFormElement, name: string): string {
  const value = new FormData(form).get(name);
  return typeof value === "string" ? value : "";
}

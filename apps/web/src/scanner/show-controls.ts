const names =
  "NUL SOH STX ETX EOT ENQ ACK BEL BS HT LF VT FF CR SO SI DLE DC1 DC2 DC3 DC4 NAK SYN ETB CAN EM SUB ESC FS GS RS US".split(
    " ",
  );

/** Control characters by their names, such as ‹GS›, so that a missing one can be seen. */
export function showControls(text: string): string {
  return Array.from(text, (character) =>
    character < " " ? `‹${names[character.charCodeAt(0)]}›` : character,
  ).join("");
}

/** The same with spaces as ‹SP›, too: where a space may be all there is. */
export const showEvery = (text: string): string => showControls(text).replaceAll(" ", "‹SP›");

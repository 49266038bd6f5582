function refuse(what: string): never {
  throw new TypeError(`canonical JSON cannot hold ${what}`);
}

function writeString(text: string): string {
  if (/\p{Surrogate}/u.test(text)) refuse("half a surrogate pair");
  return JSON.stringify(text);
}

function writeObject(value: object): string {
  const prototype: unknown = Object.getPrototypeOf(value);
  if (prototype !== Object.prototype && prototype !== null) refuse("anything but plain objects");
  const members: string[] = [];
  // The default order of sort() is by UTF-16 code units, which is the order the RFC asks for.
  for (const key of Object.keys(value).sort()) {
    const member: unknown = value[key as keyof typeof value];
    if (member !== undefined) members.push(`${writeString(key)}:${canonicalJson(member)}`);
  }
  return `{${members.join(",")}}`;
}

/**
 * The one JSON text of a value, for hashing: members sorted by the UTF-16 code units of their
 * names, no white space, numbers and strings as ECMAScript writes them. A member that is
 * `undefined` is left out, as JSON does. Throws a TypeError for what JSON cannot hold: numbers that
 * are not finite, `undefined` anywhere else, functions, big integers, dates and other class
 * instances, half a surrogate pair. Source: RFC 8785, sections 3.2.2 and 3.2.3.
 */
export function canonicalJson(value: unknown): string {
  switch (typeof value) {
    case "boolean":
      return String(value);
    case "number":
      return Number.isFinite(value) ? JSON.stringify(value) : refuse("a number without end");
    case "string":
      return writeString(value);
    case "object":
      if (value === null) return "null";
      if (Array.isArray(value)) {
        return `[${Array.from(value, (member: unknown) => canonicalJson(member)).join(",")}]`;
      }
      return writeObject(value);
    default:
      return refuse(`a value of type ${typeof value}`);
  }
}

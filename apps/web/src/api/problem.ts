import { problemCodes, type ProblemCode } from "#contracts/problem-codes";

export interface FieldError {
  /** Where in the request, such as `/body/lot`. */
  path: string;
  message: string;
}

/** What the server refused (RFC 9457), with its code read from the last part of `type`. */
export class ApiProblem extends Error {
  readonly code: ProblemCode;
  readonly status: number;
  readonly detail: string;
  readonly errors: readonly FieldError[];
  /** The number of the request, to be told to whoever looks after the installation. */
  readonly instance: string;
  /** The problem's own names and numbers, for its sentence. */
  readonly values: Readonly<Record<string, string | number>>;

  constructor(body: Record<string, unknown>, status: number) {
    const code = readCode(body["type"], status);
    const detail = typeof body["detail"] === "string" ? body["detail"] : problemCodes[code].title;
    super(detail);
    this.name = "ApiProblem";
    this.code = code;
    this.status = status;
    this.detail = detail;
    this.errors = readErrors(body["errors"]);
    this.instance = typeof body["instance"] === "string" ? body["instance"] : "";
    this.values = Object.fromEntries(
      Object.entries(body).filter(
        (pair): pair is [string, string | number] => !(pair[0] in standard) && isValue(pair[1]),
      ),
    );
  }
}

/** The server did not answer: no network, or it is not running. */
export class Unreachable extends Error {
  constructor(cause: unknown) {
    super("the server does not answer", { cause });
    this.name = "Unreachable";
  }
}

const standard = { type: 0, title: 0, status: 0, detail: 0, instance: 0, errors: 0 };

function isValue(value: unknown): value is string | number {
  return typeof value === "string" || typeof value === "number";
}

function readCode(type: unknown, status: number): ProblemCode {
  const last = typeof type === "string" ? (type.split("/").pop() ?? "") : "";
  if (Object.hasOwn(problemCodes, last)) return last as ProblemCode;
  if (status === 404) return "not-found";
  return status === 429 ? "too-many-requests" : "internal-error";
}

function readErrors(errors: unknown): readonly FieldError[] {
  if (!Array.isArray(errors)) return [];
  return errors.filter(
    (one): one is FieldError =>
      typeof one === "object" &&
      one !== null &&
      typeof (one as FieldError).path === "string" &&
      typeof (one as FieldError).message === "string",
  );
}

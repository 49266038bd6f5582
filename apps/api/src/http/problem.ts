import { problemCodes, type ProblemCode } from "#contracts/problem-codes";

/** What cannot be done, said by a code of the closed list. Anything else thrown is a bug. */
export class Problem extends Error {
  readonly code: ProblemCode;
  readonly extra: Record<string, unknown>;

  constructor(code: ProblemCode, detail: string, extra: Record<string, unknown> = {}) {
    super(detail);
    this.code = code;
    this.extra = extra;
  }

  get status(): number {
    return problemCodes[this.code].status;
  }
}

export function problemBody(problem: Problem, instance: string): Record<string, unknown> {
  const { title, status } = problemCodes[problem.code];
  return {
    type: `/problems/${problem.code}`,
    title,
    status,
    detail: problem.message,
    instance,
    ...problem.extra,
  };
}

/** The one sentence for what is not there and for what belongs to another practice. */
export const notFound = (what: string): Problem =>
  new Problem(
    "not-found",
    `There is no such ${what} in this practice. Check the address or reload.`,
  );

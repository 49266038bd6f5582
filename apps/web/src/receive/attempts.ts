/** Packs scanned and not yet received: kept on this device until each is received or settled. */
import type { BodyOf } from "#contracts/operations";
import type { ProblemCode } from "#contracts/problem-codes";
import { ApiProblem, type FieldError } from "../api/problem.ts";
import { makeUuid } from "../api/uuid.ts";
import { readRemembered, remember } from "../ui/remembered.ts";

export type ReceiveBody = BodyOf<"receive">;

export interface Refusal {
  code: ProblemCode;
  values: Readonly<Record<string, string | number>>;
  errors: readonly FieldError[];
}

export interface Attempt {
  /** The Idempotency-Key: the same one as long as nobody knows what became of it. */
  key: string;
  body: ReceiveBody;
  /** `unsent`: the server has not answered. */
  state: "sending" | "unsent" | "refused";
  refusal: Refusal | null;
}

export function makeAttempt(body: ReceiveBody): Attempt {
  return { key: makeUuid(), body, state: "sending", refusal: null };
}

/** A pack that is not sent, since its labels contradict each other on this device already. */
export function makeConflict(body: ReceiveBody): Attempt {
  const refusal = { code: "pack-conflict", values: {}, errors: [] } as const;
  return { ...makeAttempt(body), state: "refused", refusal };
}

/** What became of an attempt that was not received. */
export function markAttempt(attempt: Attempt, error: unknown): Attempt {
  const isAnswer =
    error instanceof ApiProblem && error.status < 500 && error.code !== "request-in-progress";
  if (!isAnswer) return { ...attempt, state: "unsent", refusal: null };
  const { code, values, errors } = error;
  return { ...attempt, state: "refused", refusal: { code, values, errors } };
}

/** The same pack once more: under the same key while its fate is unknown, else under a new one. */
export function renewAttempt(attempt: Attempt, change: Partial<ReceiveBody> = {}): Attempt {
  if (attempt.state === "unsent") return { ...attempt, state: "sending" };
  return makeAttempt({ ...attempt.body, ...change });
}

const nameOf = (deliveryId: string): string => `receive.${deliveryId}`;

/** What is kept of a delivery, oldest first. */
export function readAttempts(deliveryId: string): readonly Attempt[] {
  const kept = readRemembered(nameOf(deliveryId));
  return kept === null ? [] : (JSON.parse(kept) as readonly Attempt[]);
}

export function keepAttempts(deliveryId: string, attempts: readonly Attempt[]): void {
  remember(nameOf(deliveryId), attempts.length === 0 ? null : JSON.stringify(attempts));
}

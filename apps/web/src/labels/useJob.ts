import { useRef } from "react";
import type { AnswerOf } from "#contracts/operations";
import { send, type CallInput, type LooseInput } from "../api/client.ts";
import { Unreachable } from "../api/problem.ts";
import { makeUuid } from "../api/uuid.ts";

/**
 * Sends a job to a printer. Every press is a job of its own, unless the server's answer to the same
 * one was lost: then it goes under the same key, so that nothing is printed twice.
 */
export function useJob<N extends "printRun" | "testPrinter">(
  name: N,
): (input: CallInput<N>) => Promise<AnswerOf<N>> {
  const unsure = useRef({ content: "", key: "" });
  return async (input) => {
    const content = JSON.stringify(input);
    const isSame = unsure.current.content === content;
    const key = isSame ? unsure.current.key : makeUuid();
    unsure.current = { content: "", key: "" };
    try {
      return (await send(name, { ...(input as LooseInput), key })) as AnswerOf<N>;
    } catch (error) {
      if (error instanceof Unreachable) unsure.current = { content, key };
      throw error;
    }
  };
}

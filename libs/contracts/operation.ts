/** The form of an operation's contract; `operations.ts` lists them all. */
import type { z } from "zod";
import type { ProblemCode } from "./problem-codes.ts";

/** An answer that is a file, of one of these media types. */
export interface FileAnswer {
  media: readonly string[];
}

export interface Operation {
  tag: string;
  summary: string;
  query?: z.ZodType;
  body?: z.ZodType;
  answer: z.ZodType | FileAnswer;
  /** 201 where something comes into being, else 200. */
  status: 200 | 201;
  problems: readonly ProblemCode[];
}

export const get = { status: 200, problems: [] } as const;
export const getOne = { status: 200, problems: ["not-found"] } as const;

export const isFile = (answer: Operation["answer"]): answer is FileAnswer => "media" in answer;

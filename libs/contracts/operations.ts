/**
 * The schemas of every operation in `routes.ts`: what goes in, what comes out, and the problems it
 * answers with besides those that every operation shares. The server validates with them, the
 * OpenAPI document is made from them, and the web client takes their types.
 */
import type { z } from "zod";
import { caseOperations } from "./case-operations.ts";
import { deskOperations } from "./desk-operations.ts";
import { keepingOperations } from "./keeping-operations.ts";
import { labelOperations } from "./label-operations.ts";
import type { Operation } from "./operation.ts";
import { recordOperations } from "./record-operations.ts";
import type { RouteName, routes } from "./routes.ts";
import { waitingOperations } from "./waiting-operations.ts";

export const operations = {
  ...deskOperations,
  ...caseOperations,
  ...labelOperations,
  ...keepingOperations,
  ...recordOperations,
  ...waitingOperations,
} as const satisfies Record<RouteName, Operation>;

type Operations = typeof operations;
type PathParameters<P extends string> = P extends `${string}:${infer Name}/${infer Rest}`
  ? Name | PathParameters<`/${Rest}`>
  : P extends `${string}:${infer Name}`
    ? Name
    : never;

/** The parameters in an operation's path. */
export type ParamsOf<N extends RouteName> = Record<
  PathParameters<(typeof routes)[N]["path"]>,
  string
>;
/** A body as the client writes it (defaults may be left out). */
export type BodyOf<N extends RouteName> = Operations[N] extends { body: infer B extends z.ZodType }
  ? z.input<B>
  : undefined;
/** A query as the client writes it. */
export type QueryOf<N extends RouteName> = Operations[N] extends {
  query: infer Q extends z.ZodType;
}
  ? z.input<Q>
  : undefined;
/** An answer as it is read: JSON by its schema, or a file. */
export type AnswerOf<N extends RouteName> = Operations[N]["answer"] extends infer A extends
  z.ZodType
  ? z.output<A>
  : Blob;

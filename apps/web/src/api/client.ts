import type { AnswerOf, BodyOf, ParamsOf, QueryOf } from "#contracts/operations";
import { apiPrefix, routes, type Route, type RouteName } from "#contracts/routes";
import { ApiProblem, Unreachable } from "./problem.ts";
import { noteServerTime } from "./server-clock.ts";
import { makeUuid } from "./uuid.ts";

type ParamsPart<N extends RouteName> = [keyof ParamsOf<N>] extends [never]
  ? { params?: undefined }
  : { params: ParamsOf<N> };
type BodyPart<N extends RouteName> =
  BodyOf<N> extends undefined ? { body?: undefined } : { body: BodyOf<N> };
type QueryPart<N extends RouteName> =
  QueryOf<N> extends undefined ? { query?: undefined } : { query?: QueryOf<N> };

/** What an operation needs: `params` and `body` where its contract has them. */
export type CallInput<N extends RouteName> = ParamsPart<N> &
  BodyPart<N> &
  QueryPart<N> & {
    /** Idempotency-Key; the same one when the same request is sent again. */
    key?: string;
    signal?: AbortSignal;
  };

/** The same, with its types forgotten: what the outbox stores and sends again. */
export interface LooseInput {
  params?: Record<string, string> | undefined;
  query?: Record<string, unknown> | undefined;
  body?: unknown;
  key?: string | undefined;
  signal?: AbortSignal | undefined;
}

let onSignedOut: () => void = () => {};

/** Sets what happens when the server says that nobody is signed in. */
export function whenSignedOut(react: () => void): void {
  onSignedOut = react;
}

/** The address of an operation with its parameters filled in; a query's undefined is left out. */
export function addressOf(name: RouteName, input: Pick<LooseInput, "params" | "query">): string {
  const { path }: Route = routes[name];
  const filled = path.replace(/:(\w+)/g, (_, parameter: string) => {
    const value = input.params?.[parameter];
    if (value === undefined) throw new Error(`${name} needs ${parameter}`);
    return encodeURIComponent(value);
  });
  const search = new URLSearchParams();
  for (const [key, value] of Object.entries(input.query ?? {})) {
    if (typeof value === "string" || typeof value === "number") search.set(key, String(value));
  }
  const query = search.toString();
  return `${apiPrefix}${filled}${query === "" ? "" : `?${query}`}`;
}

/** Sends one request; the caller vouches for the types. */
export async function send(name: RouteName, input: LooseInput): Promise<unknown> {
  return readJson(await request(name, input, "application/json"));
}

/** Fetches an operation's answer that is a file; throws as `call` does. */
export async function fetchFile<N extends RouteName>(name: N, input: CallInput<N>): Promise<Blob> {
  const response = await request(name, input as LooseInput, "*/*");
  try {
    return await response.blob();
  } catch (error) {
    throw new Unreachable(error);
  }
}

async function request(name: RouteName, input: LooseInput, accept: string): Promise<Response> {
  const { method }: Route = routes[name];
  const headers: Record<string, string> = { Accept: accept };
  if (method !== "GET") headers["Idempotency-Key"] = input.key ?? makeUuid();
  const asked: RequestInit = { method, headers, credentials: "same-origin", cache: "no-store" };
  if (input.body !== undefined) {
    headers["Content-Type"] = "application/json";
    asked.body = JSON.stringify(input.body);
  }
  if (input.signal) asked.signal = input.signal;
  const response = await reach(addressOf(name, input), asked);
  noteServerTime(response.headers.get("Date"));
  if (response.ok) return response;
  const problem = new ApiProblem(await readProblem(response), response.status);
  if (problem.code === "not-signed-in") onSignedOut();
  throw problem;
}

/** Calls an operation of the API and gives its answer; throws `ApiProblem` or `Unreachable`. */
export async function call<N extends RouteName>(
  name: N,
  ...[input]: Record<string, never> extends CallInput<N> ? [CallInput<N>?] : [CallInput<N>]
): Promise<AnswerOf<N>> {
  return (await send(name, (input ?? {}) as LooseInput)) as AnswerOf<N>;
}

async function reach(address: string, request: RequestInit): Promise<Response> {
  try {
    return await fetch(address, request);
  } catch (error) {
    if (error instanceof DOMException && error.name === "AbortError") throw error;
    throw new Unreachable(error);
  }
}

async function readJson(response: Response): Promise<unknown> {
  try {
    return await response.json();
  } catch (error) {
    // Cut off on the way: whether it was done is not known, so it may be sent again.
    throw new Unreachable(error);
  }
}

async function readProblem(response: Response): Promise<Record<string, unknown>> {
  try {
    const body: unknown = await response.json();
    return typeof body === "object" && body !== null ? (body as Record<string, unknown>) : {};
  } catch {
    return {};
  }
}

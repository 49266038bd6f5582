/** Requests as bytes, past the typed client: what a broken or hostile client may send. */
import { Agent, request as httpRequest } from "node:http";
import { connect } from "node:net";
import { ProblemBody } from "#contracts/common";
import { problemCodes, type ProblemCode } from "#contracts/problem-codes";
import { apiPrefix, routes, type RouteName } from "#contracts/routes";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { password, type TestApp } from "./app.ts";

export interface RawRequest {
  method: string;
  /** As it is sent: nothing is encoded any more. */
  path: string;
  headers: Record<string, string>;
  payload?: string | Buffer;
}

export interface RawAnswer {
  status: number;
  text: string;
  headers: Record<string, unknown>;
}

/** The server of a test on a port of the loopback, with connections that are kept. */
export class RawClient {
  private readonly agent = new Agent({ keepAlive: true, maxSockets: 64 });
  private constructor(private readonly port: number) {}

  static async of({ app }: TestApp): Promise<RawClient> {
    if (!app.getHttpServer().listening) await app.listen(0, "127.0.0.1");
    return new RawClient((app.getHttpServer().address() as { port: number }).port);
  }

  /** `hurry` cuts the connection as soon as the request is written: its answer is lost. */
  send(raw: RawRequest, hurry = false): Promise<RawAnswer> {
    const { method, path, payload } = raw;
    const length = payload === undefined ? {} : { "content-length": Buffer.byteLength(payload) };
    return new Promise((resolve, reject) => {
      const request = httpRequest({
        agent: hurry ? new Agent() : this.agent,
        host: "127.0.0.1",
        port: this.port,
        method,
        path,
        headers: { ...raw.headers, ...length },
      });
      request.on("error", reject);
      request.on("response", (response) => {
        const chunks: Buffer[] = [];
        response.on("data", (chunk: Buffer) => chunks.push(chunk));
        response.on("error", reject);
        response.on("end", () => {
          const text = Buffer.concat(chunks).toString();
          resolve({ status: response.statusCode ?? 0, text, headers: response.headers });
        });
      });
      request.end(payload, () => hurry && request.destroy(new Error("cut off")));
    });
  }

  /** The cookie of a session of its own. */
  async signIn(signInName: string): Promise<string> {
    const answer = await this.send({
      method: "POST",
      path: `${apiPrefix}/session`,
      headers: { "content-type": "application/json" },
      payload: JSON.stringify({ signInName, password }),
    });
    return String(answer.headers["set-cookie"]).split(";")[0]!;
  }

  /** Writes a text as it is; gives all that is said until the server ends the connection. */
  speak(text: string): Promise<string> {
    return new Promise((resolve, reject) => {
      const socket = connect(this.port, "127.0.0.1");
      let said = "";
      socket.on("data", (chunk: Buffer) => (said += chunk.toString()));
      socket.on("error", reject);
      socket.on("close", () => resolve(said));
      socket.write(text);
    });
  }

  close(): void {
    this.agent.destroy();
  }
}

export interface AnyGiven {
  params?: Record<string, string>;
  query?: Record<string, unknown>;
  body?: unknown;
}

/** Half a surrogate pair becomes what a careless program writes for it: no UTF-8 at all. */
const encode = (text: string): string =>
  text
    .split(/(\p{Surrogate})/u)
    .map((part, index) => (index % 2 === 1 ? "%ED%A0%80" : encodeURIComponent(part)))
    .join("");

/** A request of one operation, with a new Idempotency-Key where it writes. */
export function requestOf(name: RouteName, given: AnyGiven, cookie: string): RawRequest {
  const { method, path } = routes[name];
  const filled = path.replace(/:(\w+)/g, (_all, parameter: string) =>
    encode(given.params?.[parameter] ?? ""),
  );
  const words = Object.entries(given.query ?? {}).flatMap(([key, value]) =>
    (Array.isArray(value) ? value : [value]).map(
      (each) => `${encode(key)}=${encode(String(each))}`,
    ),
  );
  const query = words.length > 0 ? `?${words.join("&")}` : "";
  return {
    method,
    path: `${apiPrefix}${filled}${query}`,
    headers: {
      ...(cookie === "" ? {} : { cookie }),
      ...(method === "GET" ? {} : { "idempotency-key": newId() }),
      ...(given.body === undefined ? {} : { "content-type": "application/json" }),
    },
    ...(given.body === undefined ? {} : { payload: JSON.stringify(given.body) }),
  };
}

/** What is wrong with the form of a problem (RFC 9457); undefined where nothing is. */
export function faultOfProblem({ status, text, headers }: RawAnswer): string | undefined {
  const type = String(headers["content-type"]);
  if (!type.startsWith("application/problem+json")) return `content type ${type}`;
  const read = ProblemBody.safeParse(JSON.parse(text));
  if (!read.success) return read.error.message;
  const code = read.data.type.replace("/problems/", "") as ProblemCode;
  if (problemCodes[code]?.status !== status || read.data.status !== status) {
    return `${code} with status ${status}`;
  }
  if (read.data.title !== problemCodes[code].title) return `title ${read.data.title}`;
  if (!/^urn:tubule:request:[0-9a-f-]{36}$/.test(read.data.instance)) return read.data.instance;
  const wrong = read.data.errors?.find(({ path }) => !/^(\/([^~/]|~[01])*)*$/.test(path));
  if (wrong) return `${wrong.path} is no JSON pointer`;
  const leak = /node_modules|\bat \w+ \(|select |insert |\.ts:|pg_|constraint/i.exec(text);
  return leak ? `says '${leak[0]}'` : undefined;
}

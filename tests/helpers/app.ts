/**
 * The real server on a database of its own, with a practice of four people, one of each role. Every
 * answer is compared with its contract on the way: an answer of another shape fails the test.
 */
import type { NestFastifyApplication } from "@nestjs/platform-fastify";
import supertest from "supertest";
import type { DataSource } from "typeorm";
import { ProblemBody } from "#contracts/common";
import { isFile, type FileAnswer, type Operation } from "#contracts/operation";
import {
  operations,
  type AnswerOf,
  type BodyOf,
  type ParamsOf,
  type QueryOf,
} from "#contracts/operations";
import { problemCodes, type ProblemCode } from "#contracts/problem-codes";
import { apiPrefix, routes, type RouteName } from "#contracts/routes";
import type { Role } from "#domain";
import { sharedProblems } from "../../apps/api/src/http/openapi.ts";
import { makeApp } from "../../apps/api/src/app.ts";
import { connect } from "../../apps/api/src/db/data-source.ts";
import { inCommand } from "../../apps/api/src/db/transaction.ts";
import { newId } from "../../apps/api/src/db/uuid.ts";
import type { Actor } from "../../apps/api/src/http/actor.ts";
import { actorOf } from "../../apps/api/src/people/begin-session.ts";
import { insertPerson } from "../../apps/api/src/people/people.store.ts";
import { hashSecret } from "../../apps/api/src/people/secrets.ts";
import { foundPractice, furnish } from "../../apps/api/src/practice/found-practice.ts";
import { asOwner, cloneDatabase, type TestDatabase } from "./database.ts";

export const password = "a long enough one";
export const roleNames = ["assistant", "dentist", "office", "owner"] as const;

/** The clock of a test: stands still until it is set, or let run. */
export class TestClock {
  private at = new Date("2026-06-15T08:00:00.000Z");
  private runsSinceMs: number | null = null;
  now = (): Date =>
    this.runsSinceMs === null
      ? this.at
      : new Date(this.at.getTime() + Date.now() - this.runsSinceMs);
  set(instant: string): void {
    this.at = new Date(instant);
    this.runsSinceMs = null;
  }
  /** Goes on from an instant, as fast as time does. */
  runFrom(instant: string): void {
    this.set(instant);
    this.runsSinceMs = Date.now();
  }
}

export interface Given<N extends RouteName> {
  params?: ParamsOf<N>;
  query?: QueryOf<N>;
  body?: BodyOf<N>;
  /** The Idempotency-Key; a new one where it is not said, none where it is null. */
  key?: string | null;
}

export interface Answered<N extends RouteName> {
  status: number;
  /** The answer of a success; a failure throws when it is asked for. */
  ok: AnswerOf<N>;
  /** The code of a problem; a success throws when it is asked for. */
  problem: ProblemCode;
  body: unknown;
  text: string;
}

/** Somebody with a browser: keeps the cookies of a session. */
export class Person {
  readonly agent: ReturnType<typeof supertest.agent>;
  constructor(
    app: NestFastifyApplication,
    readonly role: Role | "nobody",
    readonly id: string,
  ) {
    this.agent = supertest.agent(app.getHttpServer());
  }

  async call<N extends RouteName>(name: N, given: Given<N> = {}): Promise<Answered<N>> {
    const { method, path } = routes[name];
    const filled = path.replace(/:(\w+)/g, (_all, parameter: string) =>
      encodeURIComponent((given.params as Record<string, string>)[parameter] ?? ""),
    );
    const verb = method.toLowerCase() as "get" | "post" | "put" | "delete";
    let request = this.agent[verb](`${apiPrefix}${filled}`);
    if (given.query) request = request.query(given.query as object);
    if (method !== "GET" && given.key !== null) {
      request = request.set("Idempotency-Key", given.key ?? newId());
    }
    const response = await (given.body === undefined
      ? request
      : request.send(given.body as object));
    return readAnswer(name, response);
  }

  signIn(signInName: string): Promise<Answered<"signIn">> {
    return this.call("signIn", { body: { signInName, password } });
  }
}

function readAnswer<N extends RouteName>(name: N, response: supertest.Response): Answered<N> {
  const { status, text } = response;
  const { answer }: Operation = operations[name];
  const body = status < 300 && isFile(answer) ? readFile(response, answer) : readJson(text);
  if (status < 300) {
    const read = isFile(answer) ? undefined : answer.safeParse(body);
    if (read?.error) throw new Error(`${name} answers against its contract: ${read.error.message}`);
    if (status !== operations[name].status) throw new Error(`${name} answered ${status}`);
  } else {
    checkProblem(name, response, body);
  }
  return {
    status,
    text,
    body,
    get ok() {
      if (status >= 300) throw new Error(`${name} answered ${status}: ${text}`);
      return body as AnswerOf<N>;
    },
    get problem() {
      if (status < 300) throw new Error(`${name} answered ${status}, not with a problem`);
      return (body as ProblemBody).type.replace("/problems/", "") as ProblemCode;
    },
  };
}

const readJson = (text: string): unknown => (text === "" ? undefined : JSON.parse(text));

function readFile(response: supertest.Response, { media }: FileAnswer): Blob {
  const type = String(response.headers["content-type"]).split(";")[0]!;
  if (!media.includes(type)) throw new Error(`a file of type ${type}, not ${media.join(" or ")}`);
  const isText = /^text\/|\+json$/.test(type);
  return new Blob([isText ? response.text : new Uint8Array(response.body as Buffer)], { type });
}

function checkProblem(name: RouteName, response: supertest.Response, body: unknown): void {
  const problem = ProblemBody.parse(body);
  const code = problem.type.replace("/problems/", "") as ProblemCode;
  const known = problemCodes[code];
  const right =
    known?.status === response.status &&
    problem.title === known.title &&
    String(response.headers["content-type"]).startsWith("application/problem+json");
  if (!right) throw new Error(`${name} answers a problem of another form: ${response.text}`);
  const listed: readonly ProblemCode[] = [...operations[name].problems, ...sharedProblems(name)];
  if (!listed.includes(code)) throw new Error(`${name} does not list its problem ${code}`);
}

export interface TestPractice {
  actor: Actor;
  assistant: Person;
  dentist: Person;
  office: Person;
  owner: Person;
}

export interface TestApp {
  app: NestFastifyApplication;
  db: DataSource;
  database: TestDatabase;
  clock: TestClock;
  practice: TestPractice;
  nobody: Person;
  /** A second practice of another organisation on the same database. */
  addPractice(name: string): Promise<TestPractice>;
  close(): Promise<void>;
}

export async function openApp(timeZone = "Europe/Berlin"): Promise<TestApp> {
  const database = await cloneDatabase();
  const db = await connect(database.appUrl);
  const clock = new TestClock();
  const app = await makeApp({ db, clock, logLevel: "silent", requestsPerMinute: 1_000_000 });
  const founding = { practiceName: "Test practice", timeZone, language: "en" as const };
  const owner = {
    displayName: "Owner",
    signInName: "owner",
    passwordHash: await hashSecret(password),
  };
  const actor = await foundPractice(db, clock.now(), {
    ...founding,
    ...owner,
    demonstration: false,
    roles: ["owner"],
  });
  if (!actor) throw new Error("the cloned database is not empty");
  const fill = (who: Actor, prefix: string) => addPeople({ app, db, clock }, who, prefix);
  return {
    app,
    db,
    database,
    clock,
    practice: await fill(actor, ""),
    nobody: new Person(app, "nobody", newId()),
    addPractice: async (name) => {
      const other = await addFoundation(database, { name, timeZone, at: clock.now() });
      await inCommand(db, { actor: other, at: clock.now(), submission: null }, async (tx) => {
        await furnish(tx, { ...founding, practiceName: name });
        const roles = ["owner"] as const;
        await insertPerson(tx, {
          ...owner,
          id: other.personId,
          signInName: `${name}-owner`,
          pinHash: null,
          roles,
        });
        return null;
      });
      return fill(other, `${name}-`);
    },
    close: async () => {
      // Ends the connections, too.
      await app.close();
      await database.drop();
    },
  };
}

/** A practice beside the first one, as only the database's owner can make it. */
async function addFoundation(
  database: TestDatabase,
  told: { name: string; timeZone: string; at: Date },
): Promise<Actor> {
  const ids = { practiceId: newId(), organisationId: newId(), personId: newId() };
  await asOwner(database, "insert into organisation (id, name) values ($1, $2)", [
    ids.organisationId,
    told.name,
  ]);
  await asOwner(
    database,
    `insert into practice (practice_id, organisation_id, name, time_zone, created_at)
     values ($1, $2, $3, $4, $5)`,
    [ids.practiceId, ids.organisationId, told.name, told.timeZone, told.at],
  );
  return { ...actorOf({ ...ids, deviceId: null }), timeZone: told.timeZone };
}

async function addPeople(
  made: { app: NestFastifyApplication; db: DataSource; clock: TestClock },
  actor: Actor,
  prefix: string,
): Promise<TestPractice> {
  const { app, db, clock } = made;
  const ids = new Map<string, string>([["owner", actor.personId]]);
  const passwordHash = await hashSecret(password);
  await inCommand(db, { actor, at: clock.now(), submission: null }, async (tx) => {
    for (const role of ["assistant", "dentist", "office"] as const) {
      const id = newId();
      const names = { displayName: `${prefix}${role}`, signInName: `${prefix}${role}` };
      await insertPerson(tx, { ...names, id, passwordHash, pinHash: null, roles: [role] });
      ids.set(role, id);
    }
    return null;
  });
  const people: Partial<Record<Role, Person>> = {};
  for (const role of roleNames) {
    const person = new Person(app, role, ids.get(role)!);
    await person.signIn(`${prefix}${role}`);
    people[role] = person;
  }
  return { actor, ...(people as Record<Role, Person>) };
}

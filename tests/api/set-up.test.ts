/** An installation without a practice: its first owner makes one, once, with the console's code. */
import { afterAll, beforeAll, expect, test } from "@jest/globals";
import type { NestFastifyApplication } from "@nestjs/platform-fastify";
import { makeApp } from "../../apps/api/src/app.ts";
import { connect } from "../../apps/api/src/db/data-source.ts";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { password, Person, TestClock } from "../helpers/app.ts";
import { asOwner, cloneDatabase, type TestDatabase } from "../helpers/database.ts";

const code = "ABCD-EFGH-JKMN";
let database: TestDatabase;
let app: NestFastifyApplication;
const someone = () => new Person(app, "nobody", newId());
const body = {
  code,
  practiceName: "First practice",
  timeZone: "Pacific/Auckland",
  language: "de" as const,
  displayName: "First Owner",
  signInName: "First.Owner",
  password,
  alsoDentist: true,
};

beforeAll(async () => {
  database = await cloneDatabase();
  const db = await connect(database.appUrl);
  app = await makeApp({ db, clock: new TestClock(), setUpCode: code, logLevel: "silent" });
});
afterAll(async () => {
  await app.close();
  await database.drop();
});

test("an empty installation says that it waits for its owner", async () => {
  const { ok } = await someone().call("getSetUp");
  expect(ok).toEqual({ needed: true, demonstration: false });
});

test("a wrong code is refused", async () => {
  for (const wrong of ["ABCD-EFGH-JKMP", "ABCD", "0"]) {
    const answer = await someone().call("setUp", { body: { ...body, code: wrong } });
    expect(answer.problem).toBe("wrong-set-up-code");
  }
});

test("a time zone that does not exist is refused, with the field named", async () => {
  for (const timeZone of ["Mars/Olympus", "+02:00", "Europe/Berlin "]) {
    const answer = await someone().call("setUp", { body: { ...body, timeZone } });
    expect(answer.problem).toBe("invalid-request");
    expect(answer.body).toMatchObject({ errors: [{ path: "/body/timeZone" }] });
  }
});

test("of 16 who set it up at once one is the owner, and the others find it set up", async () => {
  const people = Array.from({ length: 16 }, someone);
  // As it is read from a console: small letters, no hyphens.
  const told = { ...body, code: "abcdefghjkmn" };
  const answers = await Promise.all(people.map((each) => each.call("setUp", { body: told })));
  const statuses = answers.map(({ status }) => status).sort((a, b) => a - b);
  expect(statuses).toEqual([201, ...Array<number>(15).fill(404)]);
  const losers = answers.filter(({ status }) => status === 404);
  expect(new Set(losers.map(({ problem }) => problem))).toEqual(new Set(["already-set-up"]));
  expect(await asOwner(database, "select name from practice")).toEqual([
    { name: "First practice" },
  ]);

  const winner = answers.findIndex(({ status }) => status === 201);
  const { ok } = await people[winner]!.call("getSession");
  expect(ok.person.roles).toEqual(["dentist", "office", "owner"]);
  expect(ok.practice).toMatchObject({ timeZone: "Pacific/Auckland", language: "de" });
  const { locations } = (await people[winner]!.call("listLocations")).ok;
  expect(locations.map(({ name }) => name)).toContain("Kühlschrank");
  const { techniques } = (await people[winner]!.call("listTechniques")).ok;
  expect(techniques.length).toBeGreaterThan(3);
  expect(techniques.every(({ starter }) => starter)).toBe(true);
});

test("afterwards it is set up for good, whatever the code", async () => {
  expect((await someone().call("getSetUp")).ok.needed).toBe(false);
  for (const again of [code, "ABCD-EFGH-JKMP"]) {
    const answer = await someone().call("setUp", { body: { ...body, code: again } });
    expect(answer.problem).toBe("already-set-up");
  }
});

test("the owner signs in with the name as it was entered, in small or capital letters", async () => {
  const owner = someone();
  expect((await owner.signIn("FIRST.owner")).ok.person.displayName).toBe("First Owner");
});

test("a server without a code can be set up by nobody", async () => {
  const other = await cloneDatabase();
  const closed = await makeApp({ db: await connect(other.appUrl), logLevel: "silent" });
  try {
    const anyone = new Person(closed, "nobody", newId());
    expect((await anyone.call("setUp", { body })).problem).toBe("already-set-up");
  } finally {
    await closed.close();
    await other.drop();
  }
});

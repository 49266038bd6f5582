import { afterAll, beforeAll, expect, test } from "@jest/globals";
import { openApp, type TestApp } from "../helpers/app.ts";

let it: TestApp;
beforeAll(async () => {
  it = await openApp();
});
afterAll(() => it.close());

test("the server says that it is ready, with its own version and the database's", async () => {
  const { ok } = await it.nobody.call("getHealth");
  expect(ok.status).toBe("ok");
  expect(ok.database).toMatch(/^PostgreSQL \d+/);
});

test("a signed-in person is told who and where", async () => {
  const { ok } = await it.practice.dentist.call("getSession");
  expect(ok.person.roles).toEqual(["dentist"]);
  expect(ok.practice.timeZone).toBe("Europe/Berlin");
});

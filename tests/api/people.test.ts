/** Signing in and out, people, tablets and PINs, places. */
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "@jest/globals";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { openApp, password, Person, type TestApp } from "../helpers/app.ts";
import { RawClient, requestOf } from "../helpers/raw.ts";

let it: TestApp;
const someone = () => new Person(it.app, "nobody", newId());
const start = "2026-06-15T08:00:00.000Z";
beforeAll(async () => {
  it = await openApp();
});
beforeEach(() => it.clock.set(start));
afterAll(() => it.close());

let numbers = 0;
/** A new person of the practice, with a browser of his or her own. */
async function hire(roles: ("assistant" | "dentist" | "office" | "owner")[] = ["assistant"]) {
  const signInName = `person-${(numbers += 1)}`;
  const body = { displayName: `Person ${numbers}`, signInName, password, roles };
  const { id } = (await it.practice.owner.call("addPerson", { body })).ok;
  const person = new Person(it.app, "nobody", id);
  return { id, signInName, person };
}

describe("signing in", () => {
  test("opens a session of seven days that is told who and where", async () => {
    const person = someone();
    const { ok } = await person.signIn(" Dentist ");
    expect(ok.person).toMatchObject({ displayName: "dentist", roles: ["dentist"], hasPin: false });
    expect(ok.expiresAt).toBe("2026-06-22T08:00:00.000Z");
    expect(ok.device).toBeNull();
    expect((await person.call("getSession")).ok).toEqual(ok);
  });

  test("a wrong password and an unknown name are answered alike", async () => {
    const wrong = { signInName: "dentist", password: "not the right one" };
    const unknown = { signInName: "nobody-here", password };
    const [first, second] = [
      await someone().call("signIn", { body: wrong }),
      await someone().call("signIn", { body: unknown }),
    ];
    expect(first.problem).toBe("wrong-credentials");
    const plain = (text: string) => text.replace(/urn:[^"]+/, "");
    expect(plain(second.text)).toBe(plain(first.text));
  });

  test("is locked for a quarter of an hour after ten failures, for that name alone", async () => {
    const { signInName } = await hire();
    const guess = { body: { signInName, password: "a wrong guess" } };
    for (let n = 0; n < 10; n += 1) {
      expect((await someone().call("signIn", guess)).problem).toBe("wrong-credentials");
    }
    const client = await RawClient.of(it);
    const locked = await client.send(
      requestOf("signIn", { body: { signInName: signInName.toUpperCase(), password } }, ""),
    );
    client.close();
    expect(JSON.parse(locked.text).type).toBe("/problems/locked-out");
    expect(locked.headers["retry-after"]).toBe("900");
    expect((await someone().signIn("dentist")).status).toBe(201);
    it.clock.set("2026-06-15T08:14:59.000Z");
    expect((await someone().signIn(signInName)).problem).toBe("locked-out");
    it.clock.set("2026-06-15T08:15:01.000Z");
    expect((await someone().signIn(signInName)).status).toBe(201);
  });

  test("many guesses at once are counted like one after another", async () => {
    const { signInName } = await hire();
    const client = await RawClient.of(it);
    const guess = requestOf("signIn", { body: { signInName, password: "a wrong guess" } }, "");
    const answers = await Promise.all(Array.from({ length: 40 }, () => client.send(guess)));
    client.close();
    const tried = answers.filter(({ status }) => status === 401);
    expect(tried).toHaveLength(10);
    expect(answers.filter(({ status }) => status === 429)).toHaveLength(30);
  });

  test("a success forgets the failures before it", async () => {
    const { signInName } = await hire();
    const guess = { body: { signInName, password: "a wrong guess" } };
    for (let round = 0; round < 2; round += 1) {
      for (let n = 0; n < 9; n += 1) await someone().call("signIn", guess);
      expect((await someone().signIn(signInName)).status).toBe(201);
    }
  });

  test("gives a new token each time, in a cookie that no script reads", async () => {
    const client = await RawClient.of(it);
    const request = requestOf("signIn", { body: { signInName: "office", password } }, "");
    const cookies = [await client.send(request), await client.send(request)].map(({ headers }) =>
      String(headers["set-cookie"]),
    );
    client.close();
    expect(cookies[0]).toMatch(/^tubule_session=[0-9a-f-]{36}\.[\w-]{43}; /);
    for (const word of ["HttpOnly", "SameSite=Strict", "Path=/"])
      expect(cookies[0]).toContain(word);
    expect(cookies[1]).not.toBe(cookies[0]);
  });
});

describe("a session", () => {
  test("ends when its person signs out, and no other session of hers with it", async () => {
    const [here, there] = [someone(), someone()];
    await here.signIn("assistant");
    await there.signIn("assistant");
    expect((await here.call("signOut")).ok).toEqual({ done: true });
    expect((await here.call("getSession")).problem).toBe("not-signed-in");
    expect((await there.call("getSession")).status).toBe(200);
  });

  test("ends after twelve hours without a request", async () => {
    const person = someone();
    await person.signIn("assistant");
    it.clock.set("2026-06-15T19:59:59.000Z");
    expect((await person.call("getSession")).status).toBe(200);
    it.clock.set("2026-06-16T07:59:58.000Z");
    expect((await person.call("getSession")).status).toBe(200);
    it.clock.set("2026-06-16T20:00:00.000Z");
    expect((await person.call("getSession")).problem).toBe("not-signed-in");
  });

  test("ends after seven days, however often it is used", async () => {
    const person = someone();
    await person.signIn("assistant");
    for (let hour = 10; hour < 7 * 24; hour += 10) {
      it.clock.set(new Date(Date.parse(start) + hour * 3_600_000).toISOString());
      expect((await person.call("getSession")).status).toBe(200);
    }
    it.clock.set("2026-06-22T08:00:00.000Z");
    expect((await person.call("getSession")).problem).toBe("not-signed-in");
  });
});

describe("people", () => {
  test("a new one is listed and signs in with the roles given, each once", async () => {
    const { id, signInName, person } = await hire(["office", "dentist", "office"]);
    const { people } = (await it.practice.office.call("listPeople")).ok;
    expect(people.find((each) => each.id === id)).toEqual({
      id,
      displayName: expect.stringMatching(/^Person /),
      signInName,
      roles: ["dentist", "office"],
      active: true,
      hasPin: false,
    });
    expect((await person.signIn(signInName)).ok.person.roles).toEqual(["dentist", "office"]);
  });

  test("a sign-in name is taken once, in small or capital letters", async () => {
    const body = {
      displayName: "Twin",
      signInName: "DENTIST",
      password,
      roles: ["office" as const],
    };
    expect((await it.practice.owner.call("addPerson", { body })).problem).toBe("name-taken");
  });

  test.each([
    ["a password of seven characters", { password: "1234567" }],
    ["a sign-in name with a space", { signInName: "two words" }],
    ["no role", { roles: [] }],
    ["an unknown role", { roles: ["admin" as "owner"] }],
    ["an empty name", { displayName: "   " }],
  ])("%s is refused", async (_what, wrong) => {
    const usual = { displayName: "P", signInName: "p-1", password, roles: ["office" as const] };
    const answer = await it.practice.owner.call("addPerson", { body: { ...usual, ...wrong } });
    expect(answer.problem).toBe("invalid-request");
  });

  test("no answer to anybody holds a hash", async () => {
    const { owner, office } = it.practice;
    await owner.call("setPin", { body: { password, pin: "9753" } });
    for (const answer of [
      await office.call("listPeople"),
      await owner.call("getSession"),
      await office.call("listAudit", { query: { limit: 500 } }),
      await office.call("listDevices"),
    ]) {
      expect(answer.text).not.toMatch(/argon2|hash":"\$|"9753"/);
    }
  });
});

describe("a PIN", () => {
  test("is set with one's password, and only with that", async () => {
    const { person, signInName } = await hire();
    await person.signIn(signInName);
    const wrong = { body: { password: "not the right one", pin: "2468" } };
    expect((await person.call("setPin", wrong)).problem).toBe("wrong-credentials");
    expect((await person.call("getSession")).ok.person.hasPin).toBe(false);
    expect((await person.call("setPin", { body: { password, pin: "2468" } })).ok.done).toBe(true);
    expect((await person.call("getSession")).ok.person.hasPin).toBe(true);
  });

  test("is locked after ten wrong passwords", async () => {
    const { person, signInName } = await hire();
    await person.signIn(signInName);
    const wrong = { body: { password: "not the right one", pin: "2468" } };
    for (let n = 0; n < 10; n += 1) await person.call("setPin", wrong);
    const right = { body: { password, pin: "2468" } };
    expect((await person.call("setPin", right)).problem).toBe("locked-out");
  });

  test.each(["123", "123456789", "12a4", "１２３４", ""])(
    "of the form '%s' is refused",
    async (pin) => {
      const answer = await it.practice.dentist.call("setPin", { body: { password, pin } });
      expect(answer.problem).toBe("invalid-request");
    },
  );
});

describe("a registered tablet", () => {
  /** A tablet that the office has registered and left, and somebody with a PIN. */
  async function tabletWith(pin: string) {
    const tablet = someone();
    await tablet.signIn("office");
    const device = (await tablet.call("registerDevice", { body: { name: "Tablet" } })).ok;
    const { id, signInName, person } = await hire(["assistant"]);
    await person.signIn(signInName);
    await person.call("setPin", { body: { password, pin } });
    await tablet.call("signOut");
    return { tablet, device, id };
  }

  test("offers those who have a PIN, before anybody is signed in", async () => {
    const { tablet, device, id } = await tabletWith("2468");
    const { ok } = await tablet.call("listDevicePeople");
    expect(ok.device).toEqual({ id: device.id, name: "Tablet" });
    expect(ok.people.map((each) => each.id)).toContain(id);
    expect(ok.people.map((each) => each.id)).not.toContain(it.practice.assistant.id);
    expect((await someone().call("listDevicePeople")).ok).toEqual({ device: null, people: [] });
  });

  test("is taken over by a PIN, and by no other", async () => {
    const { tablet, device, id } = await tabletWith("2468");
    const wrong = await tablet.call("switchPerson", { body: { personId: id, pin: "2469" } });
    expect(wrong.problem).toBe("wrong-credentials");
    const { ok } = await tablet.call("switchPerson", { body: { personId: id, pin: "2468" } });
    expect(ok.person).toMatchObject({ id, roles: ["assistant"], hasPin: true });
    expect(ok.device).toEqual({ id: device.id, name: "Tablet" });
    expect((await tablet.call("getSession")).ok.person.id).toBe(id);
  });

  test("a PIN opens nothing on a device that is not registered, nor for one who has none", async () => {
    const { tablet, id } = await tabletWith("2468");
    const right = { body: { personId: id, pin: "2468" } };
    expect((await someone().call("switchPerson", right)).problem).toBe("wrong-credentials");
    const none = { body: { personId: it.practice.assistant.id, pin: "2468" } };
    expect((await tablet.call("switchPerson", none)).problem).toBe("wrong-credentials");
    const nobody = { body: { personId: newId(), pin: "2468" } };
    expect((await tablet.call("switchPerson", nobody)).problem).toBe("wrong-credentials");
  });

  test("is locked for a person after ten wrong PINs", async () => {
    const { tablet, id } = await tabletWith("2468");
    const wrong = { body: { personId: id, pin: "0000" } };
    for (let n = 0; n < 10; n += 1) {
      expect((await tablet.call("switchPerson", wrong)).problem).toBe("wrong-credentials");
    }
    const right = { body: { personId: id, pin: "2468" } };
    expect((await tablet.call("switchPerson", right)).problem).toBe("locked-out");
  });

  test("is noted at a sign-in by password, too, and in the audit trail", async () => {
    const { tablet, device } = await tabletWith("2468");
    expect((await tablet.signIn("dentist")).ok.device?.id).toBe(device.id);
    await it.practice.office.call("signOut");
    await it.practice.office.signIn("office");
    const { entries } = (await it.practice.office.call("listAudit")).ok;
    expect(entries.map(({ action }) => action)).toContain("signed-in");
  });

  test("that is taken away signs everybody out of it, and opens no more", async () => {
    const { tablet, device, id } = await tabletWith("2468");
    await tablet.call("switchPerson", { body: { personId: id, pin: "2468" } });
    const params = { deviceId: device.id };
    expect((await it.practice.office.call("revokeDevice", { params })).ok.done).toBe(true);
    expect((await tablet.call("getSession")).problem).toBe("not-signed-in");
    const right = { body: { personId: id, pin: "2468" } };
    expect((await tablet.call("switchPerson", right)).problem).toBe("wrong-credentials");
    expect((await tablet.call("listDevicePeople")).ok.device).toBeNull();
    const { devices } = (await it.practice.office.call("listDevices")).ok;
    expect(devices.find((each) => each.id === device.id)?.revoked).toBe(true);
  });

  test("that does not exist cannot be taken away", async () => {
    const params = { deviceId: newId() };
    const answer = await it.practice.office.call("revokeDevice", { params });
    expect(answer.problem).toBe("not-found");
  });
});

describe("places", () => {
  test("a new one is listed among the others, those outside the practice last", async () => {
    const body = { name: "Operatory 2", kind: "operatory" as const };
    const { ok } = await it.practice.office.call("addLocation", { body });
    expect(ok).toMatchObject({ ...body, outside: false });
    const { locations } = (await it.practice.assistant.call("listLocations")).ok;
    expect(locations.find(({ id }) => id === ok.id)).toEqual(ok);
    const outside = locations.map((each) => Number(each.outside));
    expect(outside).toEqual([...outside].sort((a, b) => a - b));
    expect(locations.filter((each) => each.outside).map(({ kind }) => kind)).toHaveLength(6);
  });

  test("two have not one name, and none is outside the practice", async () => {
    const { owner } = it.practice;
    const twin = { body: { name: "Store", kind: "store" as const } };
    expect((await owner.call("addLocation", twin)).problem).toBe("name-taken");
    const outside = { body: { name: "Elsewhere", kind: "supplier" as "store" } };
    expect((await owner.call("addLocation", outside)).problem).toBe("invalid-request");
  });
});

/** Who took a sealed tooth off the list of those that wait: said for good, and in turn. */
import { afterAll, beforeAll, describe, expect, test } from "@jest/globals";
import {
  act,
  addRecord,
  addTray,
  asAssistant,
  asDentist,
  count,
  refusalOf,
  sign,
  type ScenePractice,
} from "./acts.ts";
import { openScene, type Scene } from "./scene.ts";

let it: Scene;
beforeAll(async () => {
  it = await openScene();
});
afterAll(() => it.close());

interface Told {
  sequence: number;
  waits: boolean;
  reason?: string | null;
  note?: string;
  tooth?: string;
}
const usual = { false: "tooth-lost", true: null };
const say = (tray: string, told: Told, of: ScenePractice = it.here) => {
  const { sequence, waits, note = "", tooth = "16" } = told;
  const reason = told.reason === undefined ? usual[`${waits}`] : told.reason;
  const values = [of.id, tray, tooth, sequence, waits, reason, note, of.assistant];
  return refusalOf(
    act(it.app, asAssistant(it.here), (client) =>
      client.query("insert into waiting_change values ($1, $2, $3, $4, $5, $6, $7, $8, now())", [
        ...values,
      ]),
    ),
  );
};

async function sealedTray(told: { signed: boolean; visit?: string }): Promise<string> {
  return act(it.app, asDentist(it.here), async (client) => {
    const tray = await addTray(client, it.here);
    const { visit = "sealing" } = told;
    const record = await addRecord(client, it.here, { tray, visit });
    if (told.signed) await sign(client, it.here, { record });
    return tray;
  });
}

describe("an entry about a tooth that waits", () => {
  test("is about a tooth whose sealing is signed", async () => {
    const away = { sequence: 1, waits: false };
    const refused = "waiting_change_of_seal";
    expect(await say(await sealedTray({ signed: false }), away)).toBe(refused);
    expect(await say(await sealedTray({ signed: true, visit: "bonding" }), away)).toBe(refused);
    const tray = await sealedTray({ signed: true });
    expect(await say(tray, { ...away, tooth: "17" })).toBe(refused);
    expect(await say(tray, away)).toBe("not refused");
  });

  test("takes turns: off, on, off; each follows the one before it, also when two come at once", async () => {
    const tray = await sealedTray({ signed: true });
    expect(await say(tray, { sequence: 1, waits: true })).toBe("waiting_change_alternates");
    expect(await say(tray, { sequence: 2, waits: true })).toBe("waiting_change_follows");
    expect(await say(tray, { sequence: 3, waits: false })).toBe("waiting_change_follows");
    expect(await say(tray, { sequence: 0, waits: true })).toBe("waiting_change_sequence_positive");
    expect(await say(tray, { sequence: 1, waits: false })).toBe("not refused");
    expect(await say(tray, { sequence: 2, waits: false })).toBe("waiting_change_alternates");
    const clients = await Promise.all([1, 2, 3, 4].map(() => it.connect()));
    const text = `insert into waiting_change values ($1, $2, '16', 2, true, null, '', $3, now())`;
    const answers = await Promise.all(
      clients.map((client) =>
        refusalOf(
          act(client, asAssistant(it.here), (each) =>
            each.query(text, [it.here.id, tray, it.here.assistant]),
          ),
        ),
      ),
    );
    expect(answers.sort()).toEqual(["not refused", ...Array(3).fill("waiting_change_pk")]);
    expect(await say(tray, { sequence: 3, waits: false })).toBe("not refused");
    expect(await count(it.owner, "waiting_change where tray_id = $1", [tray])).toBe(3);
  });

  test("says why a tooth goes off the list, in words where it is nothing named", async () => {
    const tray = await sealedTray({ signed: true });
    const off = { sequence: 1, waits: false };
    expect(await say(tray, { ...off, reason: null })).toBe("waiting_change_reason_given");
    expect(await say(tray, { ...off, reason: "forgotten" })).toBe("waiting_change_reason_known");
    expect(await say(tray, { ...off, reason: "other", note: " a  " })).toBe(
      "waiting_change_other_said",
    );
    expect(await say(tray, { ...off, note: "x".repeat(2001) })).toBe("waiting_change_note_length");
    expect(await say(tray, { ...off, reason: "other", note: "went abroad" })).toBe("not refused");
    const back = { sequence: 2, waits: true };
    expect(await say(tray, { ...back, reason: "other", note: "is back" })).toBe(
      "waiting_change_reason_given",
    );
    expect(await say(tray, back)).toBe("not refused");
  });

  test("is of one's own practice", async () => {
    const there = it.there;
    expect(await say(there.tray, { sequence: 2, waits: true }, there)).toBe("42501");
    expect(await say(there.tray, { sequence: 1, waits: false })).toMatch(
      /^waiting_change_(of_seal|tooth_fk)$/,
    );
  });
});

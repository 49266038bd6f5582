import type { INestApplicationContext } from "@nestjs/common";
import { DataSource } from "typeorm";
import { civilDateAt, type Role } from "#domain";
import demo from "../../../../shared/demo-practice.json" with { type: "json" };
import { insertTechnique, listTechniques } from "../catalogue/catalogue.store.ts";
import { poolOf } from "../db/data-source.ts";
import { inCommand, inRead } from "../db/transaction.ts";
import { LocationRow } from "../db/tables.ts";
import { newId } from "../db/uuid.ts";
import { actorOf } from "../people/begin-session.ts";
import {
  completePractice,
  findSignIn,
  insertPerson,
  listPeople,
  updatePin,
} from "../people/people.store.ts";
import { hashSecret } from "../people/secrets.ts";
import { foundPractice, inLanguage, type Bilingual } from "../practice/found-practice.ts";
import { readLights } from "./demo-lights.ts";
import type { DemoScene } from "./demo-scene.ts";
import { discardBroken, fillCatalogue, openBottles, receiveDeliveries } from "./demo-stock.ts";
import { playPastVisits, putAway, setTodaysTrays } from "./demo-visits.ts";
import { getTimeZone, listContainersByAge, listTraysLeft } from "./demo.store.ts";
import { listTraysOn } from "../trays/tray-facts.store.ts";

/** The accounts of the demonstration; its published passwords open it on this machine alone. */
export const demoAccounts = demo.people.map(({ signInName, password, roles }) => ({
  signInName,
  password,
  roles,
}));

/**
 * Makes the fictional practice, through the same services that serve requests. False where a
 * practice is already there.
 */
export async function seedDemo(
  app: INestApplicationContext,
  told: { now: Date; timeZone: string },
): Promise<boolean> {
  const scene = await foundDemo(app, told);
  if (!scene) return false;
  await fillCatalogue(scene);
  await receiveDeliveries(scene);
  await openBottles(scene);
  await readLights(scene);
  await playPastVisits(scene);
  await discardBroken(scene);
  await setTodaysTrays(scene);
  const { actor } = scene;
  await inCommand(app.get(DataSource), { actor, at: told.now, submission: null }, async (tx) => {
    await completePractice(tx);
    tx.audit("demonstration-made", `practice:${actor.practiceId}`, {});
    return null;
  });
  return true;
}

/**
 * Sets the demonstration's trays for a new day, so that its stories can be told on any day; puts
 * away what was left of the day before. Does nothing in a practice of anybody's own.
 */
export async function renewDemo(app: INestApplicationContext, now: Date): Promise<void> {
  const db = app.get(DataSource);
  const found = await findSignIn(poolOf(db), "assistant");
  if (!found?.demonstration) return;
  const reader = actorOf({
    practiceId: found.practice_id,
    organisationId: found.organisation_id,
    personId: found.person_id,
    deviceId: null,
  });
  const read = await inRead(db, { actor: reader, at: now }, async (tx) => ({
    timeZone: await getTimeZone(tx),
    left: await listTraysLeft(tx),
    containers: await listContainersByAge(tx),
    people: await listPeople(tx),
    techniques: await listTechniques(tx),
    // Of two rooms the one with the first name comes last, and so is the one that is known.
    places: await tx.manager.find(LocationRow, {
      where: { practiceId: reader.practiceId },
      order: { name: "DESC" },
    }),
  }));
  const actor = { ...reader, timeZone: read.timeZone };
  const today = civilDateAt(now.toISOString(), read.timeZone);
  const planned = await inRead(db, { actor, at: now }, (tx) => listTraysOn(tx, today));
  if (planned.length > 0) return;
  const scene: DemoScene = {
    app,
    now,
    actor,
    people: new Map(read.people.map((each) => [each.sign_in_name, each.id])),
    places: new Map(read.places.map((each) => [each.kind, each.id])),
    techniques: new Map(read.techniques.map((each) => [each.key, each.id])),
    products: new Map(),
    containers: new Map(),
  };
  for (const { lot, id, code } of read.containers) {
    scene.containers.set(lot, [...(scene.containers.get(lot) ?? []), { id, code }]);
  }
  await putAway(
    scene,
    read.left.map(({ id }) => id),
  );
  await setTodaysTrays(scene);
}

async function foundDemo(
  app: INestApplicationContext,
  told: { now: Date; timeZone: string },
): Promise<DemoScene | undefined> {
  const db = app.get(DataSource);
  const owner = demo.people.find(({ roles }) => roles.includes("owner"))!;
  const founded = new Date(told.now.getTime() - 102 * 86_400_000);
  const actor = await foundPractice(db, founded, {
    practiceName: demo.practiceName,
    timeZone: told.timeZone,
    language: "en",
    demonstration: true,
    displayName: owner.displayName,
    signInName: owner.signInName,
    passwordHash: await hashSecret(owner.password),
    roles: owner.roles as Role[],
  });
  if (!actor) return undefined;
  const scene: DemoScene = {
    app,
    now: told.now,
    actor,
    people: new Map([[owner.signInName, actor.personId]]),
    places: new Map(),
    techniques: new Map(),
    products: new Map(),
    containers: new Map(),
  };
  await inCommand(db, { actor, at: founded, submission: null }, async (tx) => {
    await updatePin(tx, await hashSecret(owner.pin));
    for (const person of demo.people.filter((each) => each !== owner)) {
      const id = newId();
      const { displayName, signInName, roles } = person;
      const [passwordHash, pinHash] = await Promise.all([
        hashSecret(person.password),
        hashSecret(person.pin),
      ]);
      const facts = { id, displayName, signInName, passwordHash, pinHash, roles: roles as Role[] };
      await insertPerson(tx, facts);
      tx.audit("person-added", `person:${id}`, { displayName, signInName, roles });
      scene.people.set(signInName, id);
    }
    for (const technique of demo.techniques as Bilingual[]) {
      await insertTechnique(tx, { id: newId(), ...inLanguage(technique, "en"), starter: false });
    }
    for (const each of await listTechniques(tx)) scene.techniques.set(each.key, each.id);
    const places = await tx.manager.findBy(LocationRow, { practiceId: actor.practiceId });
    for (const place of places) scene.places.set(place.kind, place.id);
    return null;
  });
  return scene;
}

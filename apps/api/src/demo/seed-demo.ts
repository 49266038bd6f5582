import type { INestApplicationContext } from "@nestjs/common";
import { DataSource } from "typeorm";
import type { Role } from "#domain";
import demo from "../../../../shared/demo-practice.json" with { type: "json" };
import { insertTechnique, listTechniques } from "../catalogue/catalogue.store.ts";
import { inCommand } from "../db/transaction.ts";
import { LocationRow } from "../db/tables.ts";
import { newId } from "../db/uuid.ts";
import { completePractice, insertPerson, updatePin } from "../people/people.store.ts";
import { hashSecret } from "../people/secrets.ts";
import { foundPractice, inLanguage, type Bilingual } from "../practice/found-practice.ts";
import type { DemoScene } from "./demo-scene.ts";
import { discardBroken, fillCatalogue, openBottles, receiveDeliveries } from "./demo-stock.ts";
import { playPastVisits, setTodaysTrays } from "./demo-visits.ts";

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

import type { INestApplicationContext } from "@nestjs/common";
import { addDays, civilDateAt, instantAt, type LocationKind, type Role } from "#domain";
import { encodeElementString, hibcCheckCharacter } from "#labels";
import type { BodyOf, ParamsOf } from "#contracts/operations";
import type { RouteName } from "#contracts/routes";
import demo from "../../../../shared/demo-practice.json" with { type: "json" };
import type { Actor } from "../http/actor.ts";
import type { Call } from "../http/operation.ts";

/** The demonstration being built: who is who, and what has been made so far. */
export interface DemoScene {
  app: INestApplicationContext;
  now: Date;
  actor: Actor;
  /** Person ids by sign-in name. */
  people: Map<string, string>;
  /** Ids of places by kind, of techniques by key, of products by key. */
  places: Map<LocationKind, string>;
  techniques: Map<string, string>;
  products: Map<string, string>;
  /** Container ids and codes by lot, in the order received. */
  containers: Map<string, { id: string; code: string }[]>;
}

/** A request as the services take it, by one of the people at one moment; never repeated. */
export function callAs<N extends RouteName>(
  scene: DemoScene,
  who: { signInName: string; at: Date },
  given: { params?: ParamsOf<N>; body?: BodyOf<N> },
): Call<N> {
  const person = demo.people.find((each) => each.signInName === who.signInName)!;
  const actor: Actor = {
    ...scene.actor,
    personId: scene.people.get(who.signInName)!,
    roles: person.roles as Role[],
  };
  return { actor, at: who.at, submission: null, params: {}, ...given } as unknown as Call<N>;
}

/** The day `days` from now at an hour of the practice's clock. */
export function momentOf(scene: DemoScene, days: number, hour: number): Date {
  const { timeZone } = scene.actor;
  const today = civilDateAt(scene.now.toISOString(), timeZone);
  return new Date(instantAt(addDays(today, days), hour, timeZone));
}

export function dayOf(scene: DemoScene, days: number): string {
  return addDays(civilDateAt(scene.now.toISOString(), scene.actor.timeZone), days);
}

/** What the scanner would send for a pack: GS1 with lot and use-by date, or HIBC with both. */
export function labelOf(productKey: string, pack: string, told: { lot: string; useBy: string }) {
  const product = demo.products.find((each) => each.key === productKey)!;
  const identifier =
    product.identifiers.find((each) => each.packLevel === pack) ?? product.identifiers[0]!;
  const yymmdd = told.useBy.slice(2).replaceAll("-", "");
  if (identifier.scheme === "hibc") {
    const text = `+${identifier.value}/$$3${yymmdd}${told.lot}`;
    return text + hibcCheckCharacter(text);
  }
  return encodeElementString([
    { ai: "01", value: identifier.value },
    { ai: "17", value: yymmdd },
    { ai: "10", value: told.lot },
  ]);
}

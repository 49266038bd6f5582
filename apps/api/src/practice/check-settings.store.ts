import {
  fillCheckSettings,
  type CheckSettings,
  type ToldCheckSettings,
  type ToothNotation,
} from "#domain";
import { statement, type Tx } from "../db/transaction.ts";

interface SettingsRow {
  settings: ToldCheckSettings;
}
const text = "select settings from practice where practice_id = $1";
const settings = statement<SettingsRow>("check-settings", text);
export async function getCheckSettings(tx: Tx): Promise<CheckSettings> {
  return fillCheckSettings((await tx.rows(settings, [tx.actor.practiceId]))[0]!.settings);
}

const lock = statement<SettingsRow>("lock-check-settings", `${text} for update`);
/** What is set now, held against other changes until the transaction ends. */
export async function lockCheckSettings(tx: Tx): Promise<CheckSettings> {
  return fillCheckSettings((await tx.rows(lock, [tx.actor.practiceId]))[0]!.settings);
}

// What else the practice has set stays.
const change = statement(
  "change-check-settings",
  "update practice set settings = settings || $2::jsonb where practice_id = $1",
);
export const updateCheckSettings = (tx: Tx, changed: CheckSettings) =>
  tx.rows(change, [tx.actor.practiceId, JSON.stringify(changed)]);

const notation = statement<{ before: ToothNotation }>(
  "change-tooth-notation",
  `update practice p set tooth_notation = $2
   from (select tooth_notation from practice where practice_id = $1 for update) old
   where p.practice_id = $1 returning old.tooth_notation as before`,
);
/** What it was before. */
export const updateToothNotation = async (tx: Tx, next: ToothNotation) =>
  (await tx.rows(notation, [tx.actor.practiceId, next]))[0]!.before;

import { makeApp } from "../../api/src/app.ts";
import { demoAccounts, seedDemo } from "../../api/src/demo/seed-demo.ts";
import type { OpenDatabase } from "../../api/src/db/open-database.ts";
import { onDatabase } from "./on-database.ts";
import { Refused } from "./usage.ts";

export async function seed(options: { json?: boolean }): Promise<void> {
  await onDatabase(seedInto, { make: true });
  async function seedInto({ db }: OpenDatabase): Promise<void> {
    const app = await makeApp({ db });
    const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
    if (!(await seedDemo(app, { now: new Date(), timeZone }))) {
      throw new Refused("There is a practice already. Seed an empty data folder (DATA_DIR).");
    }
    const lines = demoAccounts.map(({ signInName, password }) => `${signInName}: ${password}`);
    process.stdout.write(
      options.json
        ? `${JSON.stringify({ seeded: true, accounts: demoAccounts })}\n`
        : `The demonstration is ready. Sign in as\n${lines.join("\n")}\n`,
    );
  }
}

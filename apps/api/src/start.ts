import { mkdir, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import { makeApp } from "./app.ts";
import type { Config } from "./config.ts";
import { poolOf } from "./db/data-source.ts";
import { clearSchema } from "./db/migrate.ts";
import { openDatabase, type OpenDatabase } from "./db/open-database.ts";
import { demoAccounts, renewDemo, seedDemo } from "./demo/seed-demo.ts";
import { listenNear, portOf } from "./listen.ts";
import { findInstallation } from "./people/people.store.ts";
import { makeSetUpCode } from "./people/secrets.ts";
import { inAddress, listPlaces, thisMachine } from "./tls/machine-names.ts";
import { SecureSide } from "./tls/secure-side.ts";
import { saySecure, startSecure } from "./tls/start-secure.ts";

export interface StartOptions {
  config: Config;
  /** No demonstration: the installation waits for its owner. */
  empty: boolean;
  webFolder: string;
  migrationsFolder: string;
  say: (line: string) => void;
}

export interface Running {
  address: string;
  stop(): Promise<void>;
}

/** From nothing to a served practice. What it says is for the person at the console. */
export async function startServer(options: StartOptions): Promise<Running> {
  const { config, say } = options;
  const database = await openWhole(options);
  try {
    const { db } = database;
    const fresh = !(await findInstallation(poolOf(db))).founded;
    const setUpCode = fresh && options.empty ? makeSetUpCode() : null;
    const side = new SecureSide();
    const app = await makeApp({ db, setUpCode, webFolder: options.webFolder, secure: side });
    if (fresh && !options.empty) {
      say("Making the demonstration: a fictional practice");
      const { timeZone } = Intl.DateTimeFormat().resolvedOptions();
      await seedDemo(app, { now: new Date(), timeZone });
    }
    await renewDemo(app, new Date());
    const port = await listenNear(config.port, async (next) => {
      await app.listen(next, config.host);
      return portOf(app.getHttpServer());
    });
    if (port !== config.port && config.port !== 0) {
      say(`Port ${config.port} belongs to another program; using ${port} instead`);
    }
    const secure = await startSecure({ app, config, plainPort: port, side, say });
    const [place = "localhost"] = listPlaces(thisMachine(), config.host);
    const address = `http://${inAddress(place)}:${port}`;
    await database.announce(address);
    for (const note of database.notes) say(note);
    say(`Tubule is ready at ${address}`);
    saySecure({ side, config, say });
    if (setUpCode !== null) await handOut(setUpCode, { ...options, address });
    else if ((await findInstallation(poolOf(db))).demonstration)
      sayAccounts(`http://localhost:${port}`, say);
    return {
      address,
      stop: async () => {
        await secure.stop();
        await app.close();
        await database.close();
      },
    };
  } catch (error) {
    await database.close();
    throw error;
  }
}

/** The database; without what a start that was cut short left of a demonstration. */
async function openWhole({ config, migrationsFolder, say }: StartOptions): Promise<OpenDatabase> {
  const { databaseUrl, dataFolder } = config;
  const told = { databaseUrl, dataFolder, migrationsFolder, serving: true, log: say };
  const database = await openDatabase(told);
  try {
    if (!(await findInstallation(poolOf(database.db))).half_made) return database;
    say("The making of the demonstration was cut short");
    await clearSchema(database.ownerUrl);
  } catch (error) {
    await database.close();
    throw error;
  }
  await database.close();
  return openDatabase(told);
}

/** The one-time code, on the console and in a file that only its owner reads. */
async function handOut(code: string, told: StartOptions & { address: string }): Promise<void> {
  const file = path.join(told.config.dataFolder, "set-up-code");
  await mkdir(told.config.dataFolder, { recursive: true });
  await rm(file, { force: true });
  await writeFile(file, `${code}\n`, { mode: 0o600 });
  told.say(`Open ${told.address}/set-up and enter this code once: ${code}`);
}

function sayAccounts(address: string, say: (line: string) => void): void {
  say(`Sign in to the demonstration, on this machine only (${address}), as`);
  for (const { signInName, password } of demoAccounts) {
    say(`  ${signInName.padEnd(10)} password ${password}`);
  }
}

import type { NestFastifyApplication } from "@nestjs/platform-fastify";
import { isLoopback, type Config } from "../config.ts";
import { listenNear, listenOn } from "../listen.ts";
import { NoCertificate, openAuthority, type Authority } from "./authority.ts";
import { CertificateKeeper, isNamed, readAuthorityNote } from "./keep-certificate.ts";
import { inAddress, listNames, listPlaces, thisMachine, type Machine } from "./machine-names.ts";
import type { SecureSide } from "./secure-side.ts";
import { makeSecureServer } from "./serve-secure.ts";

interface SecureOptions {
  app: NestFastifyApplication;
  config: Config;
  /** The port of the plain side. */
  plainPort: number;
  side: SecureSide;
  say: (line: string) => void;
  /** A test has its own. */
  machine?: () => Machine;
  now?: () => Date;
  everyMs?: number;
}

export interface RunningSecure {
  stop(): Promise<void>;
}

const usualEveryMs = 180_000;

/** Serves https beside http. Where it cannot be, says why, and the plain side goes on alone. */
export async function startSecure(options: SecureOptions): Promise<RunningSecure> {
  const { config, say } = options;
  const { machine = thisMachine, now = () => new Date() } = options;
  if (config.httpsPort === null) return { stop: async () => undefined };
  try {
    const at = now();
    const authority = await openAuthority({
      dataFolder: config.dataFolder,
      machine: machine(),
      at,
    });
    const note = readAuthorityNote(authority, at);
    if (note !== null) say(note);
    return await serve({ ...options, machine, now }, authority, config.httpsPort);
  } catch (error) {
    if (!(error instanceof NoCertificate)) throw error;
    say(`No https, and so no camera on tablets: ${error.message}`);
    return { stop: async () => undefined };
  }
}

type Told = SecureOptions & Required<Pick<SecureOptions, "machine" | "now">>;

async function serve(told: Told, authority: Authority, asked: number): Promise<RunningSecure> {
  const { app, config, side, say, machine, now } = told;
  const { host } = config;
  const keeper = new CertificateKeeper(authority, say);
  const refresh = () => keeper.refresh(listNames(machine(), host), now());
  await refresh();
  const secure = makeSecureServer(app, keeper.served);
  // Where the usual port went to the plain side, nobody needs to hear of it.
  const wanted = asked === told.plainPort && asked !== 0 ? asked + 1 : asked;
  const port = await listenNear(wanted, (next) => listenOn(secure.server, { port: next, host }));
  if (port !== wanted && wanted !== 0) {
    say(`Port ${wanted} belongs to another program; https uses ${port} instead`);
  }
  const tell = () => {
    const { certificate } = keeper.served;
    const places = listPlaces(machine(), host).filter((place) => isNamed(certificate, place));
    side.opened(authority.certificate, { port, places });
    side.plainAddresses = listPlain(told);
  };
  tell();
  let known = side.addresses[0];
  async function look(): Promise<void> {
    if (await refresh()) secure.use(keeper.served);
    tell();
    const [address] = side.addresses;
    // Without a network there is nothing to tell; back in it, often nothing new.
    if (address === undefined || address === known || isLoopback(new URL(address).hostname)) return;
    known = address;
    say(`Tablets now find Tubule at ${address}`);
  }
  const stopLooking = repeat(told.everyMs ?? usualEveryMs, () =>
    look().catch((error: unknown) => say(`The certificate was not renewed: ${String(error)}`)),
  );
  return {
    stop: async () => {
      stopLooking();
      await secure.close();
    },
  };
}

const listPlain = ({ config, plainPort, machine }: Told): string[] =>
  listPlaces(machine(), config.host).map((place) => `http://${inAddress(place)}:${plainPort}`);

/** Again and again, never twice at once; gives what ends it. */
function repeat(everyMs: number, act: () => Promise<void>): () => void {
  let timer: NodeJS.Timeout | undefined;
  function plan(): void {
    timer = setTimeout(() => {
      void act().finally(() => {
        if (timer !== undefined) plan();
      });
    }, everyMs);
    timer.unref();
  }
  plan();
  return () => {
    clearTimeout(timer);
    timer = undefined;
  };
}

/** Where tablets go, and what makes them trust it, for the person at the console. */
export function saySecure({ side, config, say }: Pick<SecureOptions, "side" | "config" | "say">) {
  const [address] = side.addresses;
  if (address === undefined || side.authority === undefined) return;
  if (isLoopback(config.host)) {
    say(`On this PC also at ${address}. HOST=0.0.0.0 lets tablets in, with the camera`);
    return;
  }
  const [plain] = side.plainAddresses;
  say(`Tablets and the camera: ${address} (first open ${plain}/trust on the tablet)`);
  say(`There, compare the fingerprint: ${side.authority.fingerprint256}`);
}

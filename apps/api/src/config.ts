import { z } from "zod";
import { StartRefused } from "./refused.ts";

const Port = z.coerce.number().int().min(0).max(65535);

const Environment = z.object({
  PORT: Port.optional(),
  HOST: z.string().min(1).optional(),
  HTTPS_PORT: z
    .union([z.literal("off"), Port], "must be a port from 0 to 65535, or off")
    .optional(),
  DATA_DIR: z.string().min(1).default("./data"),
  DATABASE_URL: z.url({ protocol: /^postgres(ql)?$/ }).optional(),
});

export interface Config {
  port: number;
  /** Someone asked for this very port. */
  portAsked: boolean;
  host: string;
  /** Null: no https. */
  httpsPort: number | null;
  dataFolder: string;
  databaseUrl: string | undefined;
}

export const usualPort = 4330;
const usualHttpsPort = 4331;

/** The settings of the environment. An empty variable counts as absent, as shells leave them. */
export function readConfig(environment: NodeJS.ProcessEnv): Config {
  const filled = Object.fromEntries(
    Object.entries(environment).filter(([, value]) => value !== ""),
  );
  const read = Environment.safeParse(filled);
  if (!read.success) {
    const said = read.error.issues.map((issue) => `${issue.path.join(".")}: ${issue.message}`);
    throw new StartRefused(`The environment is not right. ${said.join("; ")}`);
  }
  return {
    port: read.data.PORT ?? usualPort,
    portAsked: read.data.PORT !== undefined,
    host: read.data.HOST ?? "127.0.0.1",
    httpsPort: readHttpsPort(read.data),
    dataFolder: read.data.DATA_DIR,
    databaseUrl: read.data.DATABASE_URL,
  };
}

/** Whoever takes any port for http does not care about the one of https either. */
function readHttpsPort({ PORT, HTTPS_PORT }: z.infer<typeof Environment>): number | null {
  if (HTTPS_PORT === "off") return null;
  return HTTPS_PORT ?? (PORT === 0 ? 0 : usualHttpsPort);
}

export function isLoopback(address: string): boolean {
  return (
    address === "localhost" ||
    address === "::1" ||
    address.startsWith("127.") ||
    address.startsWith("::ffff:127.")
  );
}

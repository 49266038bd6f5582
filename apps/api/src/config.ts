import { z } from "zod";
import { StartRefused } from "./refused.ts";

const Environment = z.object({
  PORT: z.coerce.number().int().min(0).max(65535).optional(),
  HOST: z.string().min(1).optional(),
  DATA_DIR: z.string().min(1).default("./data"),
  DATABASE_URL: z.url({ protocol: /^postgres(ql)?$/ }).optional(),
});

export interface Config {
  port: number;
  /** Someone asked for this very port. */
  portAsked: boolean;
  host: string;
  dataFolder: string;
  databaseUrl: string | undefined;
}

export const usualPort = 4330;

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
    dataFolder: read.data.DATA_DIR,
    databaseUrl: read.data.DATABASE_URL,
  };
}

export function isLoopback(address: string): boolean {
  return (
    address === "localhost" ||
    address === "::1" ||
    address.startsWith("127.") ||
    address.startsWith("::ffff:127.")
  );
}

import { DataSource, type DataSourceOptions } from "typeorm";
import pg from "pg";
import { entities } from "./tables.ts";

const asText = (text: string): string => text;
const ownParsers = new Map<number, (text: string) => unknown>([
  // A civil date stays the text that it is: pg would make it an instant at local midnight.
  ...[1082, 1114, 1115, 1182].map((oid) => [oid, asText] as const),
  // bigint and numeric arrive as text; ours stay far below 2^53.
  [20, Number],
  [1700, Number],
]);
const types = {
  getTypeParser: (oid: number, format?: "text" | "binary") =>
    ownParsers.get(oid) ?? (pg.types.getTypeParser(oid, format) as (text: string) => unknown),
};

export function dataSourceOptions(url: string, poolSize = 10): DataSourceOptions {
  return {
    type: "postgres",
    url,
    entities,
    logging: false,
    synchronize: false,
    extra: {
      types,
      max: poolSize,
      // Several statements may be under way on one connection: fewer waits in a transaction.
      pipeline: true,
      connectionTimeoutMillis: 5_000,
      statement_timeout: 15_000,
      lock_timeout: 8_000,
      idle_in_transaction_session_timeout: 20_000,
      keepAlive: true,
      application_name: "tubule",
    },
  };
}

export async function connect(url: string, poolSize?: number): Promise<DataSource> {
  const source = new DataSource(dataSourceOptions(url, poolSize));
  return source.initialize();
}

/** TypeORM's own pool, for the named statements of the hot paths. */
export function poolOf(source: DataSource): pg.Pool {
  return (source.driver as unknown as { master: pg.Pool }).master;
}

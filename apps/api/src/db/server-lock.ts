import pg from "pg";

// One server a database of our own: the lock goes with the connection, however the process ends.
const lockNumber = 7_284_118;
const servingName = "tubule server";

export interface ServerLock {
  /** Shown to whoever starts a second server. */
  announce(address: string): Promise<void>;
  /** Called once when the connection is lost without having been released. */
  onLost(act: () => void): void;
  release(): Promise<void>;
}

/** The lock, or the address of the server that has it. */
export async function takeServerLock(
  ownerUrl: string,
): Promise<{ lock: ServerLock } | { heldBy: string }> {
  const client = new pg.Client({ connectionString: ownerUrl, application_name: servingName });
  let lost: (() => void) | undefined;
  let released = false;
  client.on("error", () => undefined);
  client.on("end", () => {
    if (!released) lost?.();
  });
  await client.connect();
  const { rows } = await client.query<{ taken: boolean }>(
    "select pg_try_advisory_lock($1) as taken",
    [lockNumber],
  );
  const release = async () => {
    released = true;
    await client.end();
  };
  if (!rows[0]!.taken) {
    const holder = await client.query<{ application_name: string }>(
      `select application_name from pg_stat_activity
       where application_name like $1 and pid <> pg_backend_pid() order by backend_start limit 1`,
      [`${servingName} at %`],
    );
    await release();
    const name = holder.rows[0]?.application_name ?? "";
    return { heldBy: name.replace(`${servingName} at `, "") || "an address not yet known" };
  }
  return {
    lock: {
      // A name of a connection is cut at 63 bytes; an address is shorter.
      announce: async (address) => {
        await client.query("select set_config('application_name', $1, false)", [
          `${servingName} at ${address}`,
        ]);
      },
      onLost: (act) => {
        lost = act;
      },
      release,
    },
  };
}

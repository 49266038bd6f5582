/** The baseline of the scan bench: the same SQL as one named function, behind a bare handler. */
import { createHash } from "node:crypto";
import fastifyCookie from "@fastify/cookie";
import fastify, { type FastifyInstance } from "fastify";
import pg from "pg";
import { newId } from "../../apps/api/src/db/uuid.ts";
import { readSessionCookie, tokenHash } from "../../apps/api/src/http/cookies.ts";
import { stockStatements } from "../../apps/api/src/stock/stock.store.ts";
import { ledgerStatements } from "../../apps/api/src/stock/movements.store.ts";
import { trayStatements } from "../../apps/api/src/trays/tray-facts.store.ts";
import { scanStatements } from "../../apps/api/src/trays/trays.store.ts";

// A read as a function that gives its rows as JSON; a write as it stands.
const reading = (name: string, parameters: string, text: string) =>
  `create function bench_${name}(${parameters}) returns json language sql as $body$
     select json_agg(q) from (${text}) q $body$;`;
const writing = (name: string, parameters: string, text: string) =>
  `create function bench_${name}(${parameters}) returns void language sql as $body$
     ${text} $body$;`;

/** Makes the function: everything the server's transaction does, in one call. */
export const makeBareFunction = (): string => `
${reading("lock", "uuid, uuid", trayStatements.lock.text)}
${reading("container", "uuid, text", stockStatements.byCode.text)}
${reading("facts", "uuid, uuid, date, text", trayStatements.facts.text)}
${writing("state", "uuid, uuid, text", scanStatements.state.text)}
${writing(
  "item",
  "uuid, uuid, uuid, uuid, uuid, text, text, jsonb, uuid, timestamptz, timestamptz",
  scanStatements.item.text,
)}
${writing(
  "movement",
  `uuid, uuid, uuid, uuid, uuid, uuid, integer, text, text, timestamptz, timestamptz, uuid, uuid,
   uuid`,
  ledgerStatements.insert.text,
)}
create function bench_scan(practice uuid, token bytea, wanted_tray uuid, wanted_code text,
    key text, fingerprint bytea, at timestamptz, item uuid, movement uuid)
  returns json language plpgsql as $body$
declare s record; tray json; c json; facts json;
begin
  select * into s from find_session(practice, token);
  perform begin_command(practice, s.organisation_id, s.person_id, null, key, 'scanIntoTray',
    fingerprint, at);
  tray := bench_lock(practice, wanted_tray) -> 0;
  c := bench_container(practice, wanted_code) -> 0;
  perform bench_item(practice, item, wanted_tray, (c->>'id')::uuid, (c->>'product_id')::uuid, null,
    wanted_code, '{"ok":true,"warnings":[]}', s.person_id, at, null);
  if (c->>'location_id') <> (tray->>'location_id') then
    perform bench_movement(practice, movement, (c->>'lot_id')::uuid, (c->>'id')::uuid,
      (c->>'location_id')::uuid, (tray->>'location_id')::uuid, 1, 'tray', '', at, at, s.person_id,
      null, null);
  end if;
  if tray->>'state' = 'planned' then perform bench_state(practice, wanted_tray, 'setting'); end if;
  facts := bench_facts(practice, wanted_tray, at::date, s.time_zone);
  perform finish_command(practice, s.person_id, null, at, jsonb_build_array(jsonb_build_object(
    'action', 'placed-on-tray', 'subject', 'tray:' || wanted_tray, 'change', '{}')),
    key, 201, item::text);
  return facts;
end $body$;
grant execute on all functions in schema public to tubule_app;`;

export async function makeBareServer(url: string): Promise<FastifyInstance> {
  const pool = new pg.Pool({ connectionString: url, max: 10 });
  const server = fastify();
  await server.register(fastifyCookie);
  server.post("/api/v1/trays/:trayId/items", async (request, reply) => {
    const cookie = readSessionCookie(request)!;
    const { trayId } = request.params as { trayId: string };
    const [code] = (request.body as { barcodes: string[] }).barcodes;
    const key = String(request.headers["idempotency-key"]);
    const fingerprint = createHash("sha256").update(JSON.stringify(request.body)).digest();
    const ids = [newId(), newId()];
    const { rows } = await pool.query<{ facts: object }>({
      name: "bench-scan",
      text: "select bench_scan($1, $2, $3, $4, $5, $6, $7, $8, $9) as facts",
      values: [
        cookie.practiceId,
        tokenHash(cookie.token),
        trayId,
        code,
        key,
        fingerprint,
        new Date(),
        ...ids,
      ],
    });
    return reply.code(201).send({ item: ids[0], facts: rows[0]!.facts });
  });
  return server;
}

/**
 * The schema of a database as text, in one fixed order: `migrations/schema.sql` is this dump of a
 * database that all migrations have made. It is there to be read and compared, not to be run.
 */

interface Queryable {
  query(text: string): Promise<{ rows: unknown[] }>;
}

const inPublic = "'public'::regnamespace";
const app = "tubule_app";

/** Each part is one query that gives a column `line`. */
const parts: readonly (readonly [title: string, text: string])[] = [
  [
    "Tables",
    `select format(E'create table %I (\\n%s\\n);', c.relname, string_agg('  ' || told, E',\\n'
              order by part, place, told collate "C")) as line
     from pg_class c cross join lateral (
       select 1 as part, a.attnum::int as place,
              format('%I %s', a.attname, format_type(a.atttypid, a.atttypmod))
              || case when a.attnotnull then ' not null' else '' end
              || case when a.attgenerated <> '' then
                   format(' generated always as (%s) stored', pg_get_expr(d.adbin, d.adrelid))
                 when d.adbin is not null then ' default ' || pg_get_expr(d.adbin, d.adrelid)
                 else '' end as told
         from pg_attribute a
         left join pg_attrdef d on d.adrelid = a.attrelid and d.adnum = a.attnum
         where a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped
       union all
       select 2, strpos('pufxc', k.contype::text),
              format('constraint %I %s', k.conname, pg_get_constraintdef(k.oid))
         from pg_constraint k where k.conrelid = c.oid and k.contype in ('p', 'u', 'f', 'x', 'c')
     ) each
     where c.relnamespace = ${inPublic} and c.relkind in ('r', 'p')
     group by c.relname order by c.relname collate "C"`,
  ],
  [
    "Indexes that are no constraint's own",
    `select pg_get_indexdef(i.indexrelid) || ';' as line
     from pg_index i join pg_class c on c.oid = i.indexrelid
     where c.relnamespace = ${inPublic}
       and not exists (select 1 from pg_constraint k
                       where k.conindid = i.indexrelid and k.contype in ('p', 'u', 'x'))
     order by c.relname collate "C"`,
  ],
  [
    "Views",
    `select format(E'create view %I%s as\\n%s', c.relname,
              ' with (' || array_to_string(c.reloptions, ', ') || ')',
              pg_get_viewdef(c.oid)) as line
     from pg_class c where c.relnamespace = ${inPublic} and c.relkind = 'v'
     order by c.relname collate "C"`,
  ],
  [
    "Functions",
    `select rtrim(pg_get_functiondef(p.oid), E'\\n') || ';' as line from pg_proc p
     where p.pronamespace = ${inPublic} order by p.oid::regprocedure::text collate "C"`,
  ],
  [
    "Triggers",
    `select pg_get_triggerdef(t.oid) || ';'
              || case t.tgenabled when 'O' then '' else ' -- enabled: ' || t.tgenabled::text
                end as line
     from pg_trigger t join pg_class c on c.oid = t.tgrelid
     where c.relnamespace = ${inPublic} and not t.tgisinternal
     order by c.relname collate "C", t.tgname collate "C"`,
  ],
  [
    "Row security",
    `select format('alter table %I enable row level security;', c.relname)
              || case when c.relforcerowsecurity then ' -- forced' else '' end as line
     from pg_class c where c.relnamespace = ${inPublic} and c.relrowsecurity
     order by c.relname collate "C"`,
  ],
  [
    "Policies",
    `select format('create policy %I on %I as %s for %s to %s using (%s)%s;', policyname, tablename,
              lower(permissive), lower(cmd), array_to_string(roles, ', '), qual,
              ' with check (' || with_check || ')') as line
     from pg_policies where schemaname = 'public'
     order by tablename collate "C", policyname collate "C"`,
  ],
  [
    "Privileges of the application",
    `select format('grant %s on %s to ${app};', told, object) as line from (
       select 1 as part, 'schema public' as object,
              string_agg(lower(a.privilege_type), ', ' order by a.privilege_type) as told
         from pg_namespace n, aclexplode(n.nspacl) a
         where n.oid = ${inPublic} and a.grantee = '${app}'::regrole group by n.oid
       union all
       select 2, format('%I', c.relname),
              string_agg(lower(a.privilege_type), ', ' order by a.privilege_type)
         from pg_class c, aclexplode(c.relacl) a
         where c.relnamespace = ${inPublic} and a.grantee = '${app}'::regrole group by c.relname
       union all
       select 3, format('%I', c.relname),
              lower(a.privilege_type) || ' (' || string_agg(t.attname, ', ' order by t.attnum)
                || ')'
         from pg_attribute t join pg_class c on c.oid = t.attrelid, aclexplode(t.attacl) a
         where c.relnamespace = ${inPublic} and a.grantee = '${app}'::regrole
         group by c.relname, a.privilege_type
       union all
       select 4, 'function ' || p.oid::regprocedure::text, lower(a.privilege_type)
         from pg_proc p, aclexplode(p.proacl) a
         where p.pronamespace = ${inPublic} and a.grantee = '${app}'::regrole
     ) granted order by part, object collate "C", told collate "C"`,
  ],
];

const head = `-- The schema that all migrations together make, as the database itself tells it.
-- Made by a test; written anew by: UPDATE_SCHEMA=1 npm test -- tests/db/migrations.test.ts
`;

/** The dump; the same text for the same schema, whatever way it came about. */
export async function dumpSchema(client: Queryable): Promise<string> {
  const sections: string[] = [head];
  for (const [title, text] of parts) {
    const rows = (await client.query(text)).rows as { line: string }[];
    const lines = rows.map(({ line }) => line.trimEnd());
    // What takes several lines is set apart by an empty one.
    const apart = lines.some((line) => line.includes("\n")) ? "\n\n" : "\n";
    sections.push(`-- ${title}\n\n${lines.join(apart)}\n`);
  }
  return sections.join("\n");
}

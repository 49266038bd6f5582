-- Practices, the people who work in them, how they sign in, and who may see what.
-- New tables only: no lock that anybody waits for.
set local citus.multi_shard_modify_mode = 'sequential';
set local citus.enable_unsafe_triggers = 'on';

-- The application signs in as a member of this role. It owns nothing and has no BYPASSRLS.
do $$ begin
  if not exists (select 1 from pg_roles where rolname = 'tubule_app') then
    create role tubule_app nologin;
  end if;
end $$;
revoke all on schema public from public;
grant usage on schema public to tubule_app;

-- Who acts, for one transaction. SET LOCAL (not set_config) so that a cluster's shards see it too.
create function set_actor(practice uuid, organisation uuid, person uuid, device uuid) returns void
language plpgsql set search_path = pg_catalog as $$
begin
  execute format('set local app.practice_id = %L', coalesce(practice::text, ''));
  execute format('set local app.organisation_id = %L', coalesce(organisation::text, ''));
  execute format('set local app.person_id = %L', coalesce(person::text, ''));
  execute format('set local app.device_id = %L', coalesce(device::text, ''));
end $$;

create table organisation (
  id uuid constraint organisation_pk primary key,
  name text not null
    constraint organisation_name_filled check (length(trim(name)) between 1 and 200)
);

create table person (
  id uuid constraint person_pk primary key,
  organisation_id uuid not null constraint person_organisation_fk references organisation,
  display_name text not null
    constraint person_display_name_filled check (length(trim(display_name)) between 1 and 200),
  sign_in_name text not null constraint person_sign_in_name_taken unique
    constraint person_sign_in_name_form check (sign_in_name ~ '^[a-z0-9][a-z0-9._-]{1,63}$'),
  password_hash text not null,
  pin_hash text,
  active boolean not null default true,
  created_at timestamptz not null
);

create table practice (
  practice_id uuid constraint practice_pk primary key,
  organisation_id uuid not null,
  name text not null constraint practice_name_filled check (length(trim(name)) between 1 and 200),
  time_zone text not null,
  language text not null default 'en'
    constraint practice_language_known check (language in ('en', 'de')),
  -- The published passwords of the demonstration open it from this machine alone.
  demonstration boolean not null default false,
  -- False while the demonstration is being made: cut short, it is made anew.
  complete boolean not null default true,
  settings jsonb not null default '{}',
  container_counter bigint not null default 1,
  created_at timestamptz not null
);

create table membership (
  practice_id uuid not null,
  person_id uuid not null,
  role text not null
    constraint membership_role_known check (role in ('assistant', 'dentist', 'office', 'owner')),
  constraint membership_pk primary key (practice_id, person_id, role)
);

create table device (
  practice_id uuid not null,
  id uuid not null,
  name text not null constraint device_name_filled check (length(trim(name)) between 1 and 100),
  token_hash bytea not null,
  registered_by uuid not null,
  registered_at timestamptz not null,
  revoked_at timestamptz,
  constraint device_pk primary key (practice_id, id),
  constraint device_token_unique unique (practice_id, token_hash)
);

create table session (
  practice_id uuid not null,
  id uuid not null,
  person_id uuid not null,
  device_id uuid,
  token_hash bytea not null,
  created_at timestamptz not null,
  last_seen_at timestamptz not null,
  expires_at timestamptz not null,
  ended_at timestamptz,
  constraint session_pk primary key (practice_id, id),
  constraint session_token_unique unique (practice_id, token_hash)
);

-- Counted in the database, so that a restart does not forgive a guesser.
create table sign_in_failure (
  subject text not null,
  at timestamptz not null,
  id uuid not null,
  constraint sign_in_failure_pk primary key (subject, at, id)
);

do $$ declare t text; begin
  if exists (select 1 from pg_extension where extname = 'citus') then
    perform create_reference_table('organisation');
    perform create_reference_table('person');
    perform create_distributed_table('practice', 'practice_id', colocate_with => 'none');
    foreach t in array array['membership', 'device', 'session'] loop
      perform create_distributed_table(t::regclass, 'practice_id', colocate_with => 'practice');
    end loop;
  end if;
end $$;

alter table practice add constraint practice_organisation_fk
  foreign key (organisation_id) references organisation;
alter table membership add constraint membership_practice_fk
  foreign key (practice_id) references practice;
alter table membership add constraint membership_person_fk
  foreign key (person_id) references person;
alter table device add constraint device_practice_fk foreign key (practice_id) references practice;
alter table session add constraint session_practice_fk
  foreign key (practice_id) references practice;
alter table session add constraint session_person_fk foreign key (person_id) references person;
alter table session add constraint session_device_fk
  foreign key (practice_id, device_id) references device;

-- Row security. The setting is '' after a transaction that set it, hence nullif.
create function actor_practice() returns uuid language sql stable parallel safe
  as $$ select nullif(current_setting('app.practice_id', true), '')::uuid $$;
create function actor_organisation() returns uuid language sql stable parallel safe
  as $$ select nullif(current_setting('app.organisation_id', true), '')::uuid $$;

alter table organisation enable row level security;
alter table person enable row level security;
alter table practice enable row level security;
alter table membership enable row level security;
alter table device enable row level security;
alter table session enable row level security;
alter table sign_in_failure enable row level security;
create policy organisation_own on organisation using (id = actor_organisation());
create policy person_own on person using (organisation_id = actor_organisation());
create policy practice_own on practice using (practice_id = actor_practice());
create policy membership_own on membership using (practice_id = actor_practice());
create policy device_own on device using (practice_id = actor_practice());
create policy session_own on session using (practice_id = actor_practice());
-- Failures are counted before anybody is known; they hold no more than a name that was tried.
create policy sign_in_failure_any on sign_in_failure using (true);

grant select on organisation, practice to tubule_app;
grant update (name, time_zone, language, complete, settings, container_counter) on practice
  to tubule_app;
grant select, insert on person, membership, device, session to tubule_app;
grant update (display_name, password_hash, pin_hash, active) on person to tubule_app;
grant delete on membership to tubule_app;
grant update (revoked_at) on device to tubule_app;
grant update (last_seen_at, ended_at) on session to tubule_app;
grant select, insert, delete on sign_in_failure to tubule_app;

-- The questions that are asked before the practice is known. Each answers only to somebody
-- who already holds a name, a token or nothing but the wish to set up.
-- Every function that runs with its owner's rights names pg_temp, last: left out, it is searched
-- first, and a temporary table of the caller's would be read in place of ours.
create function find_sign_in(wanted text)
  returns table (practice_id uuid, organisation_id uuid, person_id uuid, password_hash text,
                 demonstration boolean)
language sql stable security definer set search_path = pg_catalog, public, pg_temp as $$
  select m.practice_id, p.organisation_id, p.id, p.password_hash, pr.demonstration
  from person p
  join membership m on m.person_id = p.id
  join practice pr on pr.practice_id = m.practice_id
  where p.sign_in_name = lower(wanted) and p.active
  order by pr.created_at, m.practice_id limit 1
$$;

create function find_session(practice uuid, token bytea)
  returns table (session_id uuid, organisation_id uuid, person_id uuid, device_id uuid,
                 roles text[], last_seen_at timestamptz, expires_at timestamptz, time_zone text,
                 language text)
language sql stable security definer set search_path = pg_catalog, public, pg_temp as $$
  select s.id, p.organisation_id, p.id, s.device_id,
         array(select m.role from membership m
               where m.practice_id = practice and m.person_id = p.id order by m.role),
         s.last_seen_at, s.expires_at, pr.time_zone, pr.language
  from session s
  join person p on p.id = s.person_id and p.active
  join practice pr on pr.practice_id = s.practice_id
  left join device d on d.practice_id = s.practice_id and d.id = s.device_id
  where s.practice_id = practice and s.token_hash = token and s.ended_at is null
    and d.revoked_at is null
$$;

create function find_device(practice uuid, token bytea)
  returns table (device_id uuid, organisation_id uuid, demonstration boolean)
language sql stable security definer set search_path = pg_catalog, public, pg_temp as $$
  select d.id, pr.organisation_id, pr.demonstration
  from device d join practice pr on pr.practice_id = d.practice_id
  where d.practice_id = practice and d.token_hash = token and d.revoked_at is null
$$;

create function note_session_seen(practice uuid, seen_session uuid, at timestamptz) returns void
language sql security definer set search_path = pg_catalog, public, pg_temp as $$
  update session set last_seen_at = at where practice_id = practice and id = seen_session
$$;

create function find_installation()
  returns table (founded boolean, demonstration boolean, half_made boolean)
language sql stable security definer set search_path = pg_catalog, public, pg_temp as $$
  select count(*) > 0, coalesce(bool_or(demonstration), false),
         coalesce(bool_and(demonstration and not complete), false) from practice
$$;

-- The first owner. One winner under an advisory lock; afterwards it refuses for ever.
create function create_first_practice(facts jsonb) returns boolean
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
begin
  perform pg_advisory_xact_lock(hashtext('tubule first practice'));
  if exists (select 1 from practice) then return false; end if;
  insert into organisation (id, name)
    values ((facts->>'organisationId')::uuid, facts->>'practiceName');
  insert into practice (practice_id, organisation_id, name, time_zone, language, demonstration,
                        complete, created_at)
    values ((facts->>'practiceId')::uuid, (facts->>'organisationId')::uuid, facts->>'practiceName',
            facts->>'timeZone', facts->>'language', (facts->>'demonstration')::boolean,
            not (facts->>'demonstration')::boolean, (facts->>'at')::timestamptz);
  insert into person (id, organisation_id, display_name, sign_in_name, password_hash, created_at)
    values ((facts->>'personId')::uuid, (facts->>'organisationId')::uuid, facts->>'displayName',
            lower(facts->>'signInName'), facts->>'passwordHash', (facts->>'at')::timestamptz);
  insert into membership (practice_id, person_id, role)
    select (facts->>'practiceId')::uuid, (facts->>'personId')::uuid, r
    from jsonb_array_elements_text(facts->'roles') r;
  return true;
end $$;

revoke all on all functions in schema public from public;
grant execute on function set_actor, actor_practice, actor_organisation, find_sign_in, find_session,
  find_device, note_session_seen, find_installation, create_first_practice to tubule_app;

-- The hash chain of every change, and the answers kept for a repeated submission.
-- New tables only: no lock that anybody waits for.
set local citus.multi_shard_modify_mode = 'sequential';
set local citus.enable_unsafe_triggers = 'on';

create table audit_head (
  practice_id uuid constraint audit_head_pk primary key,
  sequence bigint not null,
  hash bytea not null
);

create table audit_entry (
  practice_id uuid not null,
  sequence bigint not null constraint audit_entry_sequence_positive check (sequence > 0),
  -- As precise as what is hashed: a finer part could be changed unnoticed.
  at timestamptz(3) not null,
  person_id uuid,
  device_id uuid,
  action text not null,
  subject text not null,
  -- Canonical JSON (RFC 8785) exactly as hashed.
  change text not null,
  previous_hash bytea not null,
  hash bytea not null constraint audit_entry_hash_length check (length(hash) = 32),
  constraint audit_entry_pk primary key (practice_id, sequence),
  -- One field a line is hashed: a line break could move from one field to the next unnoticed.
  constraint audit_entry_one_line check (action || subject || change !~ '[\n\r]')
);

create table idempotency_key (
  practice_id uuid not null,
  person_id uuid not null,
  key text not null constraint idempotency_key_form check (length(key) between 8 and 128),
  operation text not null,
  fingerprint bytea not null,
  status integer,
  answer text,
  created_at timestamptz not null,
  constraint idempotency_key_pk primary key (practice_id, person_id, key)
);
create index idempotency_key_age on idempotency_key (practice_id, created_at);

do $$ declare t text; begin
  if exists (select 1 from pg_extension where extname = 'citus') then
    foreach t in array array['audit_head', 'audit_entry', 'idempotency_key'] loop
      perform create_distributed_table(t::regclass, 'practice_id', colocate_with => 'practice');
    end loop;
  end if;
end $$;

alter table audit_head add constraint audit_head_practice_fk
  foreign key (practice_id) references practice;
alter table audit_entry add constraint audit_entry_practice_fk
  foreign key (practice_id) references practice;
alter table idempotency_key add constraint idempotency_key_practice_fk
  foreign key (practice_id) references practice;

create function refuse_change() returns trigger language plpgsql set search_path = pg_catalog as $$
begin
  raise exception '% of % is refused: it is append-only', tg_op, tg_table_name
    using errcode = 'TB001', hint = 'Enter a correction instead.';
end $$;
create trigger audit_entry_append_only before update or delete on audit_entry
  for each row execute function refuse_change();
create trigger audit_entry_no_truncate before truncate on audit_entry
  for each statement execute function refuse_change();

-- The text that is hashed: one field a line, in this order.
create function audit_text(e audit_entry) returns text
language sql immutable set search_path = pg_catalog as $$
  select e.practice_id::text || E'\n' || e.sequence::text || E'\n'
    || to_char(e.at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') || E'\n'
    || coalesce(e.person_id::text, '') || E'\n' || coalesce(e.device_id::text, '') || E'\n'
    || e.action || E'\n' || e.subject || E'\n' || e.change
$$;

-- Appends one entry. The head row is locked, so that the sequence has no gap and no fork.
create function append_audit(practice uuid, person uuid, device uuid, at timestamptz,
                             action text, subject text, change text) returns void
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
declare e audit_entry;
begin
  if practice is distinct from actor_practice()
     or person::text is distinct from nullif(current_setting('app.person_id', true), '') then
    raise exception 'an audit entry is written by the actor' using errcode = '42501';
  end if;
  select h.sequence, h.hash into e.sequence, e.previous_hash
    from audit_head h where h.practice_id = practice for update;
  if not found then
    insert into audit_head (practice_id, sequence, hash)
      values (practice, 0, decode(repeat('00', 32), 'hex')) on conflict do nothing;
    select h.sequence, h.hash into e.sequence, e.previous_hash
      from audit_head h where h.practice_id = practice for update;
  end if;
  e.practice_id := practice; e.sequence := e.sequence + 1;
  e.at := date_trunc('milliseconds', at); e.person_id := person; e.device_id := device;
  e.action := action; e.subject := subject; e.change := change;
  e.hash := sha256(e.previous_hash || convert_to(audit_text(e), 'UTF8'));
  insert into audit_entry values (e.*);
  update audit_head h set sequence = e.sequence, hash = e.hash where h.practice_id = practice;
end $$;

-- Starts a submission: sets the actor and claims the key. Gives back the earlier answer, if any.
-- A twin that is still running holds the key's row; this waits for it.
create function begin_command(practice uuid, organisation uuid, person uuid, device uuid,
                              key text, operation text, fingerprint bytea, at timestamptz)
  returns table (known boolean, same boolean, status integer, answer text)
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
begin
  perform set_actor(practice, organisation, person, device);
  insert into idempotency_key as k (practice_id, person_id, key, operation, fingerprint, created_at)
    values (practice, person, begin_command.key, begin_command.operation,
            begin_command.fingerprint, at)
    on conflict do nothing;
  if found then
    return query select false, true, null::integer, null::text;
  else
    return query select true,
        k.operation = begin_command.operation and k.fingerprint = begin_command.fingerprint,
        k.status, k.answer
      from idempotency_key k
      where k.practice_id = practice and k.person_id = person and k.key = begin_command.key;
  end if;
end $$;

-- Ends a submission: its audit entries, then the answer for whoever asks again with this key.
create function finish_command(practice uuid, person uuid, device uuid, at timestamptz,
                               entries jsonb, key text, status integer, answer text) returns void
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
declare entry jsonb;
begin
  if practice is distinct from actor_practice() then
    raise exception 'a submission is ended by its actor' using errcode = '42501';
  end if;
  for entry in select value from jsonb_array_elements(entries) loop
    perform append_audit(practice, person, device, at,
                         entry->>'action', entry->>'subject', entry->>'change');
  end loop;
  update idempotency_key k set status = finish_command.status, answer = finish_command.answer
    where k.practice_id = practice and k.person_id = person and k.key = finish_command.key
      and k.status is null;
end $$;

alter table audit_head enable row level security;
alter table audit_entry enable row level security;
alter table idempotency_key enable row level security;
create policy audit_head_own on audit_head using (practice_id = actor_practice());
create policy audit_entry_own on audit_entry using (practice_id = actor_practice());
create policy idempotency_key_own on idempotency_key using (practice_id = actor_practice());
grant select on audit_head, audit_entry to tubule_app;

revoke all on function refuse_change, audit_text, append_audit, begin_command, finish_command
  from public;
grant execute on function append_audit, begin_command, finish_command, audit_text to tubule_app;

-- Sealed teeth that wait for their restoration: what finds them, and who took one off the list and
-- why. All versions of a record share tray and tooth, so these two name a seal.
-- One new table. A share lock on `record` and `tray` while their indexes are built: seconds at a
-- million rows.
set local citus.multi_shard_modify_mode = 'sequential';
set local citus.enable_unsafe_triggers = 'on';

create table waiting_change (
  practice_id uuid not null,
  tray_id uuid not null,
  tooth text not null,
  sequence integer not null constraint waiting_change_sequence_positive check (sequence > 0),
  waits boolean not null,
  reason text constraint waiting_change_reason_known
    check (reason in ('moved-away', 'tooth-lost', 'bonded-elsewhere', 'other')),
  note text not null constraint waiting_change_note_length check (length(note) <= 2000),
  person_id uuid not null,
  at timestamptz not null,
  constraint waiting_change_pk primary key (practice_id, tray_id, tooth, sequence),
  -- Off the list, back onto it, off again: who says what is so already says nothing.
  constraint waiting_change_alternates check (waits = (sequence % 2 = 0)),
  constraint waiting_change_reason_given check (waits = (reason is null)),
  constraint waiting_change_other_said
    check (reason is distinct from 'other' or length(trim(note)) >= 3)
);

do $$ begin
  if exists (select 1 from pg_extension where extname = 'citus') then
    perform create_distributed_table('waiting_change', 'practice_id', colocate_with => 'practice');
  end if;
end $$;

alter table waiting_change add constraint waiting_change_tooth_fk
  foreign key (practice_id, tray_id, tooth) references tray_tooth;

-- Of all versions of a record at most one stands.
create unique index record_signed_once on record (practice_id, tray_id, tooth)
  where state = 'signed';
-- Who waits is read from these two alone: seals beside what was built on them.
create index record_sealed on record (practice_id, id)
  include (tray_id, tooth, version, started_at, patient_id)
  where visit = 'sealing' and state = 'signed';
create index record_bonded on record (practice_id, seal_id)
  where state = 'signed' and seal_id is not null;
create index tray_open_by_patient on tray (practice_id, patient_id) where state <> 'cleared';

-- A bonding record begins on the newest version of a seal; a later version of it keeps the seal,
-- also where that was amended meanwhile.
create or replace function check_record_start() returns trigger
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
begin
  if new.state <> 'draft' then
    raise exception 'a record starts as a draft'
      using errcode = '23514', constraint = 'record_starts_as_draft';
  end if;
  if not exists (select 1 from tray t
                 join tray_tooth o on o.practice_id = t.practice_id and o.tray_id = t.id
                 where t.practice_id = new.practice_id and t.id = new.tray_id
                 and t.patient_id = new.patient_id and o.tooth = new.tooth
                 and t.technique_id = new.technique_id) then
    raise exception 'the tray is for another patient, tooth or technique'
      using errcode = '23514', constraint = 'record_as_its_tray';
  end if;
  if new.supersedes_id is not null and not exists (
      select 1 from record r where r.practice_id = new.practice_id and r.id = new.supersedes_id
      and r.tray_id = new.tray_id and r.tooth = new.tooth and r.version = new.version - 1
      and r.state = 'signed') then
    raise exception 'a later version follows the signed one before it'
      using errcode = '23514', constraint = 'record_follows_signed';
  end if;
  if new.seal_id is not null and not exists (
      select 1 from record r where r.practice_id = new.practice_id and r.id = new.seal_id
      and r.patient_id = new.patient_id and r.tooth = new.tooth and r.visit = 'sealing'
      and (r.state = 'signed' or r.state = 'superseded' and new.version > 1)) then
    raise exception 'the seal is of another tooth, or not signed'
      using errcode = '23514', constraint = 'record_seal_signed';
  end if;
  return new;
end $$;

-- Each entry follows the one before it, and is about a tooth whose sealing is signed.
create function check_waiting_change() returns trigger
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
begin
  if new.sequence > 1 and not exists (
      select 1 from waiting_change c where c.practice_id = new.practice_id
      and c.tray_id = new.tray_id and c.tooth = new.tooth and c.sequence = new.sequence - 1) then
    raise exception 'an entry follows the one before it'
      using errcode = '23514', constraint = 'waiting_change_follows';
  end if;
  if not exists (select 1 from record r where r.practice_id = new.practice_id
                 and r.tray_id = new.tray_id and r.tooth = new.tooth and r.visit = 'sealing'
                 and r.state = 'signed') then
    raise exception 'no signed sealing of this tooth'
      using errcode = '23514', constraint = 'waiting_change_of_seal';
  end if;
  return new;
end $$;
create trigger waiting_change_follows before insert on waiting_change
  for each row execute function check_waiting_change();
create trigger waiting_change_append_only before update or delete on waiting_change
  for each row execute function refuse_change();
create trigger waiting_change_no_truncate before truncate on waiting_change
  for each statement execute function refuse_change();

alter table waiting_change enable row level security;
create policy waiting_change_own on waiting_change using (practice_id = actor_practice());
grant select, insert on waiting_change to tubule_app;
revoke all on function check_waiting_change from public;

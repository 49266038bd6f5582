-- A visit has several teeth, each with its mode, provisional and record; a record can be amended,
-- told late and built on a seal; and products say more of light, warming, drops and fillers.
-- New columns that may stay empty and one new table. An exclusive lock on `product`, `tray`, `record`
-- and `record_event` for as long as it takes to read them once: seconds at a million rows.
set local citus.multi_shard_modify_mode = 'sequential';
set local citus.enable_unsafe_triggers = 'on';

alter table product
  add column warm_up_minutes integer
    constraint product_warm_up_range check (warm_up_minutes between 1 and 1440),
  add column drop_life_seconds integer
    constraint product_drop_life_range check (drop_life_seconds between 1 and 3600),
  add column filler_percent numeric(4, 1)
    constraint product_filler_range check (filler_percent between 0 and 100),
  add column modulus_gpa numeric(4, 1)
    constraint product_modulus_positive check (modulus_gpa > 0),
  add column excursion_level text not null default 'caution'
    constraint product_excursion_level_known check (excursion_level in ('caution', 'stop'));

alter table tray add column bonding_on date;

create table tray_tooth (
  practice_id uuid not null,
  tray_id uuid not null,
  -- ISO 3950
  tooth text not null constraint tray_tooth_known check (tooth ~ '^([1-4][1-8]|[5-8][1-5])$'),
  place integer not null constraint tray_tooth_place_range check (place between 1 and 32),
  mode text constraint tray_tooth_mode_known
    check (mode in ('self-etch', 'selective-enamel-etch', 'etch-and-rinse')),
  provisional text not null default 'none' constraint tray_tooth_provisional_known
    check (provisional in ('none', 'resin', 'other')),
  undercut boolean not null default false,
  -- In the usual order, such as MOD.
  surfaces text not null default ''
    constraint tray_tooth_surfaces_form check (surfaces ~ '^M?[OI]?D?[BF]?L?$'),
  restoration text constraint tray_tooth_restoration_known check (restoration in (
    'inlay', 'onlay', 'overlay', 'partial-crown', 'full-crown', 'veneer', 'endocrown')),
  constraint tray_tooth_pk primary key (practice_id, tray_id, tooth),
  constraint tray_tooth_place_once unique (practice_id, tray_id, place)
);

do $$ begin
  if exists (select 1 from pg_extension where extname = 'citus') then
    perform create_distributed_table('tray_tooth', 'practice_id', colocate_with => 'practice');
  end if;
end $$;

alter table tray_tooth add constraint tray_tooth_tray_fk
  foreign key (practice_id, tray_id) references tray;

insert into tray_tooth (practice_id, tray_id, tooth, place)
  select practice_id, id, tooth, 1 from tray;

alter table record
  add column mode text constraint record_mode_known
    check (mode in ('self-etch', 'selective-enamel-etch', 'etch-and-rinse')),
  add column surfaces text not null default '',
  -- At a bonding visit, the seal it builds on.
  add column seal_id uuid,
  -- Why there is a later version: something to add, or the earlier one is declared wrong.
  add column amends text
    constraint record_amends_known check (amends in ('addition', 'correction')),
  add column amend_reason text constraint record_amend_reason_given
    check (length(trim(amend_reason)) between 5 and 2000),
  -- When it was told, where that was later than it happened.
  add column told_at timestamptz,
  add constraint record_amendment_whole check (
    (version = 1) = (supersedes_id is null) and (version = 1) = (amends is null)
    and (version = 1) = (amend_reason is null)),
  add constraint record_seal_of_bonding check (seal_id is null or visit = 'bonding'),
  add constraint record_told_after check (told_at is null or told_at > started_at);
alter table record drop constraint record_tray_version_once;
alter table record add constraint record_tray_version_once
  unique (practice_id, tray_id, tooth, version);
alter table record add constraint record_seal_fk
  foreign key (practice_id, seal_id) references record;
create index record_by_seal on record (practice_id, seal_id) where seal_id is not null;

alter table record_event drop constraint record_event_kind_known;
alter table record_event add constraint record_event_kind_known check (kind in (
  'step-started', 'part-started', 'step-done', 'step-left-out', 'dispensed', 'cure', 'thickness',
  'material', 'not-scanned', 'deviation', 'note'));

-- Teeth are chosen until priming starts.
create function check_tray_open() returns trigger
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
declare
  tooth_row tray_tooth := case when tg_op = 'DELETE' then old else new end;
begin
  if not exists (select 1 from tray t where t.practice_id = tooth_row.practice_id
                 and t.id = tooth_row.tray_id and t.state in ('planned', 'setting', 'ready')) then
    raise exception 'the tray is in use or cleared'
      using errcode = '23514', constraint = 'tray_tooth_before_priming';
  end if;
  return tooth_row;
end $$;
create trigger tray_tooth_before_priming before insert or update or delete on tray_tooth
  for each row execute function check_tray_open();
create trigger tray_tooth_no_truncate before truncate on tray_tooth
  for each statement execute function refuse_change();

-- A record starts as a draft, for the patient, one of the teeth and the technique of its tray. A
-- later version follows the signed one before it, and a bonding record builds on a signed seal of
-- the same tooth.
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
      and r.state = 'signed') then
    raise exception 'the seal is of another tooth, or not signed'
      using errcode = '23514', constraint = 'record_seal_signed';
  end if;
  return new;
end $$;

-- What a signature seals. What a record of before has not, is not in it: its seal stays true.
create or replace function record_rows(practice uuid, wanted uuid) returns text
language sql stable set search_path = pg_catalog, public, pg_temp as $$
  select string_agg(line::text, E'\n' order by part, place collate "C") from (
    select 1 as part, '' as place,
           jsonb_build_array(r.practice_id, r.id, r.tray_id, r.patient_id, r.tooth, r.technique_id,
                             r.visit, r.version, r.supersedes_id, r.verdict, r.started_by,
                             extract(epoch from r.started_at))
           || case when r.mode is null and r.surfaces = '' and r.seal_id is null
                        and r.amends is null and r.told_at is null then '[]'::jsonb
                   else jsonb_build_array(r.mode, r.surfaces, r.seal_id, r.amends, r.amend_reason,
                                          extract(epoch from r.told_at)) end as line
      from record r where r.practice_id = practice and r.id = wanted
    union all
    select 2, to_char(v.sequence, '0000000000'),
           jsonb_build_array(v.sequence, v.kind, v.step_key, v.facts,
                             extract(epoch from v.occurred_at), extract(epoch from v.recorded_at),
                             v.person_id)
      from record_event v where v.practice_id = practice and v.record_id = wanted
    union all
    select 3, m.id::text,
           jsonb_build_array(m.id, m.step_key, m.product_id, m.lot_id, m.container_id,
                             m.not_scanned_reason, m.patient_id, m.tooth,
                             extract(epoch from m.used_at), m.person_id)
      from step_material m where m.practice_id = practice and m.record_id = wanted
  ) lines
$$;

alter table tray_tooth enable row level security;
create policy tray_tooth_own on tray_tooth using (practice_id = actor_practice());
grant select, insert, delete on tray_tooth to tubule_app;
grant update (place, mode, provisional, undercut, surfaces, restoration) on tray_tooth
  to tubule_app;
grant update (bonding_on) on tray to tubule_app;
revoke all on function check_tray_open from public;

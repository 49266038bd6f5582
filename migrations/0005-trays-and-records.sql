-- From the appointment to the signed record: which container and lot served which step of a tooth.
-- New tables only: no lock that anybody waits for.
set local citus.multi_shard_modify_mode = 'sequential';
set local citus.enable_unsafe_triggers = 'on';

create table patient (
  practice_id uuid not null,
  id uuid not null,
  chart_number text not null
    constraint patient_chart_number_length check (length(trim(chart_number)) between 1 and 40),
  created_at timestamptz not null,
  -- A trace reads the chart number from the key's own index.
  constraint patient_pk primary key (practice_id, id) include (chart_number),
  constraint patient_chart_number_taken unique (practice_id, chart_number)
);

create table tray (
  practice_id uuid not null,
  id uuid not null,
  patient_id uuid not null,
  -- ISO 3950
  tooth text not null constraint tray_tooth_form check (tooth ~ '^([1-4][1-8]|[5-8][1-5])$'),
  technique_id uuid not null,
  location_id uuid not null,
  appointment_at timestamptz not null,
  state text not null constraint tray_state_known
    check (state in ('planned', 'setting', 'ready', 'in-use', 'cleared')),
  created_by uuid not null,
  created_at timestamptz not null,
  constraint tray_pk primary key (practice_id, id)
);
create index tray_by_time on tray (practice_id, appointment_at);

create table tray_item (
  practice_id uuid not null,
  id uuid not null,
  tray_id uuid not null,
  container_id uuid,
  product_id uuid,
  step_key text,
  -- What the scanner sent, byte for byte, and what the label said.
  barcode text not null,
  scanned jsonb not null,
  placed_by uuid not null,
  placed_at timestamptz not null,
  -- The tablet's own time, where the scan was made without the network and sent later.
  scanned_at timestamptz,
  removed_by uuid,
  removed_at timestamptz,
  constraint tray_item_pk primary key (practice_id, id),
  constraint tray_item_removed_whole check ((removed_by is null) = (removed_at is null))
);
create unique index tray_item_container_once on tray_item (practice_id, tray_id, container_id)
  where removed_at is null and container_id is not null;
create index tray_item_by_tray on tray_item (practice_id, tray_id) where removed_at is null;
create index tray_item_by_container on tray_item (practice_id, container_id)
  where removed_at is null;

create table finding_override (
  practice_id uuid not null,
  id uuid not null,
  tray_id uuid not null,
  code text not null,
  subject text not null,
  finding jsonb not null,
  reason text not null
    constraint finding_override_reason_given check (length(trim(reason)) between 5 and 2000),
  person_id uuid not null,
  at timestamptz not null,
  constraint finding_override_pk primary key (practice_id, id),
  constraint finding_override_once unique (practice_id, tray_id, code, subject)
);

create table record (
  practice_id uuid not null,
  id uuid not null,
  tray_id uuid not null,
  patient_id uuid not null,
  tooth text not null,
  technique_id uuid not null,
  visit text not null constraint record_visit_known check (visit in ('sealing', 'bonding')),
  state text not null
    constraint record_state_known check (state in ('draft', 'signed', 'superseded')),
  version integer not null default 1 constraint record_version_positive check (version > 0),
  supersedes_id uuid,
  -- Verdict and findings at the tap that started priming.
  verdict jsonb not null,
  started_by uuid not null,
  started_at timestamptz not null,
  signed_by uuid,
  signed_at timestamptz,
  canonical text,
  hash bytea,
  constraint record_pk primary key (practice_id, id) include (state, visit),
  constraint record_tray_version_once unique (practice_id, tray_id, version),
  constraint record_signature_whole check (
    (state = 'draft') = (signed_by is null) and (state = 'draft') = (signed_at is null)
    and (state = 'draft') = (canonical is null) and (state = 'draft') = (hash is null)),
  constraint record_hash_true check (hash is null or hash = sha256(convert_to(canonical, 'UTF8')))
);
create index record_by_patient on record (practice_id, patient_id, tooth);
create index record_by_start on record (practice_id, started_at);

create table record_event (
  practice_id uuid not null,
  record_id uuid not null,
  sequence integer not null,
  kind text not null constraint record_event_kind_known check (kind in (
    'step-started', 'step-done', 'material', 'not-scanned', 'deviation', 'note')),
  step_key text,
  facts jsonb not null default '{}',
  occurred_at timestamptz not null,
  recorded_at timestamptz not null,
  person_id uuid not null,
  constraint record_event_pk primary key (practice_id, record_id, sequence)
);

create table step_material (
  practice_id uuid not null,
  id uuid not null,
  record_id uuid not null,
  step_key text not null,
  product_id uuid not null,
  -- Null only where the scan was missed; the possible lots are then found when asked.
  lot_id uuid,
  container_id uuid,
  not_scanned_reason text,
  patient_id uuid not null,
  tooth text not null,
  used_at timestamptz not null,
  person_id uuid not null,
  constraint step_material_pk primary key (practice_id, id),
  constraint step_material_scanned_or_reason check (
    (container_id is null) = (not_scanned_reason is not null)
    and (container_id is null) = (lot_id is null))
);
create unique index step_material_once
  on step_material (practice_id, record_id, step_key, container_id)
  where container_id is not null;
-- The trace of a lot, answered from the index alone.
create index step_material_by_lot on step_material (practice_id, lot_id)
  include (patient_id, record_id, container_id, tooth, step_key, used_at, id)
  where lot_id is not null;
create index step_material_by_patient on step_material (practice_id, patient_id)
  include (record_id, lot_id, container_id, tooth, step_key, used_at);
-- The few whose scan was missed: their possible lots are found when asked.
create index step_material_unscanned on step_material (practice_id, product_id)
  where lot_id is null;
create index step_material_by_record on step_material (practice_id, record_id);

do $$ declare t text; begin
  if exists (select 1 from pg_extension where extname = 'citus') then
    foreach t in array array['patient', 'tray', 'tray_item', 'finding_override', 'record',
                             'record_event', 'step_material'] loop
      perform create_distributed_table(t::regclass, 'practice_id', colocate_with => 'practice');
    end loop;
  end if;
end $$;

alter table patient add constraint patient_practice_fk
  foreign key (practice_id) references practice;
alter table tray add constraint tray_patient_fk
  foreign key (practice_id, patient_id) references patient;
alter table tray add constraint tray_technique_fk foreign key (technique_id) references technique;
alter table tray add constraint tray_location_fk
  foreign key (practice_id, location_id) references location;
alter table tray_item add constraint tray_item_tray_fk
  foreign key (practice_id, tray_id) references tray;
alter table tray_item add constraint tray_item_container_fk
  foreign key (practice_id, container_id) references container;
alter table tray_item add constraint tray_item_product_fk
  foreign key (product_id) references product;
alter table finding_override add constraint finding_override_tray_fk
  foreign key (practice_id, tray_id) references tray;
alter table record add constraint record_tray_fk foreign key (practice_id, tray_id) references tray;
alter table record add constraint record_patient_fk
  foreign key (practice_id, patient_id) references patient;
alter table record add constraint record_technique_fk
  foreign key (technique_id) references technique;
alter table record add constraint record_supersedes_fk
  foreign key (practice_id, supersedes_id) references record;
alter table record_event add constraint record_event_record_fk
  foreign key (practice_id, record_id) references record;
alter table step_material add constraint step_material_record_fk
  foreign key (practice_id, record_id) references record;
alter table step_material add constraint step_material_container_fk
  foreign key (practice_id, container_id, lot_id) references container (practice_id, id, lot_id);
alter table step_material add constraint step_material_patient_fk
  foreign key (practice_id, patient_id) references patient;

-- Only a dentist passes a stop, and only in his or her own name.
create function check_override() returns trigger
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
begin
  if new.person_id::text is distinct from current_setting('app.person_id', true)
     or not exists (select 1 from membership m where m.practice_id = new.practice_id
                    and m.person_id = new.person_id and m.role = 'dentist') then
    raise exception 'a stop is passed by a dentist in person'
      using errcode = '23514', constraint = 'finding_override_by_dentist';
  end if;
  return new;
end $$;
create trigger finding_override_by_dentist before insert on finding_override
  for each row execute function check_override();
create trigger finding_override_append_only before update or delete on finding_override
  for each row execute function refuse_change();
create trigger finding_override_no_truncate before truncate on finding_override
  for each statement execute function refuse_change();

-- A record starts as a draft, for the patient, tooth and technique of its tray.
create function check_record_start() returns trigger
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
begin
  if new.state <> 'draft' then
    raise exception 'a record starts as a draft'
      using errcode = '23514', constraint = 'record_starts_as_draft';
  end if;
  if not exists (select 1 from tray t where t.practice_id = new.practice_id and t.id = new.tray_id
                 and t.patient_id = new.patient_id and t.tooth = new.tooth
                 and t.technique_id = new.technique_id) then
    raise exception 'the tray is for another patient, tooth or technique'
      using errcode = '23514', constraint = 'record_as_its_tray';
  end if;
  return new;
end $$;
create trigger record_start before insert on record
  for each row execute function check_record_start();

-- A draft is signed once, by a dentist in person; a signed record only ever becomes superseded, and
-- nothing in it changes.
create function check_record_change() returns trigger
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
declare rest record;
begin
  if tg_op = 'DELETE' then
    raise exception 'a record is never deleted' using errcode = 'TB001';
  end if;
  rest := new;
  rest.state := old.state;
  if old.state = 'signed' and new.state = 'superseded' and rest is not distinct from old then
    return new;
  end if;
  rest.signed_by := null; rest.signed_at := null; rest.canonical := null; rest.hash := null;
  if old.state = 'draft' and new.state = 'draft' and rest is not distinct from old then
    return new;
  end if;
  if old.state = 'draft' and new.state = 'signed' and rest is not distinct from old then
    if new.signed_by::text is distinct from current_setting('app.person_id', true)
       or not exists (select 1 from membership m where m.practice_id = new.practice_id
                      and m.person_id = new.signed_by and m.role = 'dentist') then
      raise exception 'a record is signed by a dentist in person'
        using errcode = '23514', constraint = 'record_signed_by_dentist';
    end if;
    return new;
  end if;
  raise exception 'a signed record does not change'
    using errcode = 'TB001', hint = 'Enter an amendment instead.';
end $$;
create trigger record_frozen before update or delete on record
  for each row execute function check_record_change();
create trigger record_no_truncate before truncate on record
  for each statement execute function refuse_change();

create function check_record_draft() returns trigger
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
declare record_state text;
begin
  select r.state into record_state from record r
    where r.practice_id = new.practice_id and r.id = new.record_id for share;
  if record_state is distinct from 'draft' then
    raise exception 'the record is already signed'
      using errcode = '23514', constraint = 'record_is_draft';
  end if;
  return new;
end $$;

-- The trace answers from the material alone, so it must name the record's own patient and tooth.
create function check_material() returns trigger
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
begin
  if not exists (select 1 from record r where r.practice_id = new.practice_id
                 and r.id = new.record_id and r.patient_id = new.patient_id
                 and r.tooth = new.tooth) then
    raise exception 'the record is for another patient or tooth'
      using errcode = '23514', constraint = 'step_material_as_its_record';
  end if;
  return new;
end $$;

create trigger record_event_draft before insert on record_event
  for each row execute function check_record_draft();
create trigger record_event_append_only before update or delete on record_event
  for each row execute function refuse_change();
create trigger record_event_no_truncate before truncate on record_event
  for each statement execute function refuse_change();
create trigger step_material_draft before insert on step_material
  for each row execute function check_record_draft();
create trigger step_material_of_record before insert on step_material
  for each row execute function check_material();
create trigger step_material_append_only before update or delete on step_material
  for each row execute function refuse_change();
create trigger step_material_no_truncate before truncate on step_material
  for each statement execute function refuse_change();

-- All that the rows of a record hold, apart from its signature: what a signature seals.
create function record_rows(practice uuid, wanted uuid) returns text
language sql stable set search_path = pg_catalog, public, pg_temp as $$
  select string_agg(line::text, E'\n' order by part, place collate "C") from (
    select 1 as part, '' as place,
           jsonb_build_array(r.practice_id, r.id, r.tray_id, r.patient_id, r.tooth, r.technique_id,
                             r.visit, r.version, r.supersedes_id, r.verdict, r.started_by,
                             extract(epoch from r.started_at)) as line
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

alter table patient enable row level security;
alter table tray enable row level security;
alter table tray_item enable row level security;
alter table finding_override enable row level security;
alter table record enable row level security;
alter table record_event enable row level security;
alter table step_material enable row level security;
create policy patient_own on patient using (practice_id = actor_practice());
create policy tray_own on tray using (practice_id = actor_practice());
create policy tray_item_own on tray_item using (practice_id = actor_practice());
create policy finding_override_own on finding_override using (practice_id = actor_practice());
create policy record_own on record using (practice_id = actor_practice());
create policy record_event_own on record_event using (practice_id = actor_practice());
create policy step_material_own on step_material using (practice_id = actor_practice());

grant select, insert on patient, tray, tray_item, finding_override, record, record_event,
  step_material to tubule_app;
grant update (state) on tray to tubule_app;
grant update (removed_by, removed_at) on tray_item to tubule_app;
grant update (state, signed_by, signed_at, canonical, hash) on record to tubule_app;
revoke all on function check_override, check_record_start, check_record_change, check_record_draft,
  check_material, record_rows from public;
grant execute on function record_rows to tubule_app;

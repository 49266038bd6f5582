-- What was kept too warm or too cold, when a product is ordered again, and the curing lights with
-- their readings: what the check before priming asks of storage, stock and light.
-- New tables only: no lock that anybody waits for.
set local citus.multi_shard_modify_mode = 'sequential';
set local citus.enable_unsafe_triggers = 'on';

create table storage_excursion (
  practice_id uuid not null,
  id uuid not null,
  location_id uuid not null,
  from_at timestamptz not null,
  to_at timestamptz not null,
  lowest_c numeric(4, 1),
  highest_c numeric(4, 1),
  note text not null default '',
  opened_by uuid not null,
  opened_at timestamptz not null,
  resolved_by uuid,
  resolved_at timestamptz,
  resolution text constraint storage_excursion_resolution_given
    check (length(trim(resolution)) between 5 and 2000),
  constraint storage_excursion_pk primary key (practice_id, id),
  constraint storage_excursion_order check (from_at < to_at),
  constraint storage_excursion_measured check (lowest_c is not null or highest_c is not null),
  constraint storage_excursion_range check (lowest_c <= highest_c),
  constraint storage_excursion_resolved_whole check (
    (resolved_by is null) = (resolved_at is null) and (resolved_by is null) = (resolution is null))
);
create index storage_excursion_open on storage_excursion (practice_id, location_id)
  where resolved_at is null;

create table product_stock_rule (
  practice_id uuid not null,
  product_id uuid not null,
  reorder_uses integer not null
    constraint product_stock_rule_range check (reorder_uses between 1 and 100000),
  constraint product_stock_rule_pk primary key (practice_id, product_id)
);

create table curing_light (
  practice_id uuid not null,
  id uuid not null,
  name text not null
    constraint curing_light_name_filled check (length(trim(name)) between 1 and 100),
  serial text not null default '',
  -- Of a round tip; an exitance can be reckoned from a power.
  tip_tenth_mm integer constraint curing_light_tip_range check (tip_tenth_mm between 10 and 300),
  -- The operatory it belongs to.
  location_id uuid,
  retired boolean not null default false,
  created_at timestamptz not null,
  constraint curing_light_pk primary key (practice_id, id),
  constraint curing_light_name_taken unique (practice_id, name)
);

-- A mode's output over time: stretches with the share of the measured output, in percent.
create table curing_light_mode (
  practice_id uuid not null,
  light_id uuid not null,
  place integer not null,
  name text not null
    constraint curing_light_mode_name_filled check (length(trim(name)) between 1 and 60),
  phases jsonb not null default '[]'
    constraint curing_light_mode_phases_listed check (jsonb_typeof(phases) = 'array'),
  constraint curing_light_mode_pk primary key (practice_id, light_id, name),
  constraint curing_light_mode_place_once unique (practice_id, light_id, place)
);

create table light_reading (
  practice_id uuid not null,
  id uuid not null,
  light_id uuid not null,
  mode text not null,
  distance_tenth_mm integer not null
    constraint light_reading_distance_range check (distance_tenth_mm between 0 and 300),
  irradiance_mw_cm2 integer not null
    constraint light_reading_irradiance_range check (irradiance_mw_cm2 between 0 and 20000),
  radiometer text not null default '',
  note text not null default '',
  read_at timestamptz not null,
  -- A wrong reading is not changed: a later one takes its place.
  replaces_id uuid,
  person_id uuid not null,
  recorded_at timestamptz not null,
  constraint light_reading_pk primary key (practice_id, id),
  constraint light_reading_replaced_once unique (practice_id, replaces_id),
  constraint light_reading_not_ahead check (read_at <= recorded_at + interval '1 minute')
);
create index light_reading_by_light on light_reading (practice_id, light_id, mode, read_at);

do $$ declare t text; begin
  if exists (select 1 from pg_extension where extname = 'citus') then
    foreach t in array array['storage_excursion', 'product_stock_rule', 'curing_light',
                             'curing_light_mode', 'light_reading'] loop
      perform create_distributed_table(t::regclass, 'practice_id', colocate_with => 'practice');
    end loop;
  end if;
end $$;

alter table storage_excursion add constraint storage_excursion_location_fk
  foreign key (practice_id, location_id) references location;
alter table product_stock_rule add constraint product_stock_rule_practice_fk
  foreign key (practice_id) references practice;
alter table product_stock_rule add constraint product_stock_rule_product_fk
  foreign key (product_id) references product;
alter table curing_light add constraint curing_light_location_fk
  foreign key (practice_id, location_id) references location;
alter table curing_light_mode add constraint curing_light_mode_light_fk
  foreign key (practice_id, light_id) references curing_light;
alter table light_reading add constraint light_reading_mode_fk
  foreign key (practice_id, light_id, mode) references curing_light_mode;
alter table light_reading add constraint light_reading_replaces_fk
  foreign key (practice_id, replaces_id) references light_reading;

-- An excursion is settled once; nothing else of it changes.
create function check_excursion_change() returns trigger
language plpgsql set search_path = pg_catalog, public, pg_temp as $$
declare rest storage_excursion := new;
begin
  rest.resolved_by := old.resolved_by;
  rest.resolved_at := old.resolved_at;
  rest.resolution := old.resolution;
  if old.resolved_at is not null or rest is distinct from old then
    raise exception 'an excursion that is settled stays' using errcode = 'TB001';
  end if;
  return new;
end $$;
create trigger storage_excursion_settled_once before update on storage_excursion
  for each row execute function check_excursion_change();

create trigger storage_excursion_kept before delete on storage_excursion
  for each row execute function refuse_change();
create trigger storage_excursion_no_truncate before truncate on storage_excursion
  for each statement execute function refuse_change();
create trigger light_reading_append_only before update or delete on light_reading
  for each row execute function refuse_change();
create trigger light_reading_no_truncate before truncate on light_reading
  for each statement execute function refuse_change();

alter table storage_excursion enable row level security;
alter table product_stock_rule enable row level security;
alter table curing_light enable row level security;
alter table curing_light_mode enable row level security;
alter table light_reading enable row level security;
create policy storage_excursion_own on storage_excursion using (practice_id = actor_practice());
create policy product_stock_rule_own on product_stock_rule using (practice_id = actor_practice());
create policy curing_light_own on curing_light using (practice_id = actor_practice());
create policy curing_light_mode_own on curing_light_mode using (practice_id = actor_practice());
create policy light_reading_own on light_reading using (practice_id = actor_practice());

grant select, insert on storage_excursion, product_stock_rule, curing_light, curing_light_mode,
  light_reading to tubule_app;
grant update (resolved_by, resolved_at, resolution) on storage_excursion to tubule_app;
grant update (reorder_uses) on product_stock_rule to tubule_app;
grant delete on product_stock_rule to tubule_app;
grant update (name, serial, tip_tenth_mm, location_id, retired) on curing_light to tubule_app;
revoke all on function check_excursion_change from public;

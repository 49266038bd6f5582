-- What a product is, the systems its parts belong to, and the techniques that use them.
-- Group-wide tables: guarded by privilege, since a cluster allows no trigger on them.
-- New tables only: no lock that anybody waits for.
set local citus.multi_shard_modify_mode = 'sequential';

create table bonding_system (
  id uuid constraint bonding_system_pk primary key,
  organisation_id uuid not null,
  name text not null
    constraint bonding_system_name_filled check (length(trim(name)) between 1 and 200),
  constraint bonding_system_name_taken unique (organisation_id, name)
);

create table product (
  id uuid constraint product_pk primary key,
  organisation_id uuid not null,
  name text not null constraint product_name_filled check (length(trim(name)) between 1 and 200),
  labeler text not null default '',
  kind text not null constraint product_kind_known check (kind in (
    'etchant', 'primer', 'adhesive', 'universal-adhesive', 'activator', 'flowable', 'composite',
    'glycerin-gel', 'other-barrier', 'separating-agent', 'provisional-cement', 'bonding-cement',
    'surface-cleaner')),
  -- null: not stated; {}: solvent-free
  solvents text[] constraint product_solvents_known
    check (solvents <@ array['acetone', 'ethanol', 'tert-butanol', 'water']),
  strategy text constraint product_strategy_known
    check (strategy in ('etch-and-rinse', 'self-etch', 'universal')),
  system_id uuid,
  contents text[] not null default '{}',
  in_use_count integer constraint product_in_use_positive check (in_use_count > 0),
  in_use_unit text constraint product_in_use_unit_known check (in_use_unit in ('day', 'month')),
  application_seconds integer
    constraint product_application_range check (application_seconds between 0 and 3600),
  air_dry_seconds integer
    constraint product_air_dry_range check (air_dry_seconds between 0 and 3600),
  cure_seconds integer constraint product_cure_range check (cure_seconds between 0 and 3600),
  radiant_exposure_j_cm2 numeric(6, 2)
    constraint product_exposure_positive check (radiant_exposure_j_cm2 > 0),
  storage_min_c numeric(4, 1),
  storage_max_c numeric(4, 1),
  single_use boolean not null default false,
  uses_per_container integer constraint product_uses_positive check (uses_per_container > 0),
  ifu_version text not null default '',
  version integer not null default 1,
  confirmed_version integer,
  confirmed_by uuid,
  confirmed_at timestamptz,
  created_at timestamptz not null,
  constraint product_name_taken unique (organisation_id, name),
  constraint product_in_use_whole check ((in_use_count is null) = (in_use_unit is null)),
  constraint product_confirmed_whole
    check ((confirmed_version is null) = (confirmed_by is null)
       and (confirmed_version is null) = (confirmed_at is null)),
  constraint product_storage_order check (storage_min_c <= storage_max_c)
);

create table product_identifier (
  organisation_id uuid not null,
  scheme text not null
    constraint product_identifier_scheme_known check (scheme in ('gs1-gtin', 'hibc', 'ppn')),
  value text not null constraint product_identifier_filled check (length(value) between 1 and 40),
  product_id uuid not null,
  pack_level text not null default 'unit'
    constraint product_identifier_level_known check (pack_level in ('unit', 'box', 'case')),
  containers integer not null default 1
    constraint product_identifier_containers_range check (containers between 1 and 10000),
  constraint product_identifier_taken primary key (organisation_id, scheme, value),
  constraint product_identifier_gtin_form check (scheme <> 'gs1-gtin' or value ~ '^[0-9]{14}$')
);
create index product_identifier_product on product_identifier (product_id);

-- A technique never changes: an edit is a new version, and old trays keep the one they used.
create table technique (
  id uuid constraint technique_pk primary key,
  organisation_id uuid not null,
  key text not null,
  version integer not null constraint technique_version_positive check (version > 0),
  name text not null,
  visit text not null constraint technique_visit_known check (visit in ('sealing', 'bonding')),
  steps jsonb not null constraint technique_steps_listed check (jsonb_typeof(steps) = 'array'),
  -- The common-practice default the practice has not yet made its own.
  starter boolean not null default false,
  retired boolean not null default false,
  created_at timestamptz not null,
  constraint technique_version_taken unique (organisation_id, key, version)
);

do $$ begin
  if exists (select 1 from pg_extension where extname = 'citus') then
    perform create_reference_table('bonding_system');
    perform create_reference_table('product');
    perform create_reference_table('product_identifier');
    perform create_reference_table('technique');
  end if;
end $$;

alter table bonding_system add constraint bonding_system_organisation_fk
  foreign key (organisation_id) references organisation;
alter table product add constraint product_organisation_fk
  foreign key (organisation_id) references organisation;
alter table product add constraint product_system_fk
  foreign key (system_id) references bonding_system;
alter table product add constraint product_confirmed_by_fk
  foreign key (confirmed_by) references person;
alter table product_identifier add constraint product_identifier_product_fk
  foreign key (product_id) references product;
alter table technique add constraint technique_organisation_fk
  foreign key (organisation_id) references organisation;

alter table bonding_system enable row level security;
alter table product enable row level security;
alter table product_identifier enable row level security;
alter table technique enable row level security;
create policy bonding_system_own on bonding_system using (organisation_id = actor_organisation());
create policy product_own on product using (organisation_id = actor_organisation());
create policy product_identifier_own on product_identifier
  using (organisation_id = actor_organisation());
create policy technique_own on technique using (organisation_id = actor_organisation());

grant select, insert on bonding_system, product, product_identifier, technique to tubule_app;
grant update on product to tubule_app;
grant update (retired) on technique to tubule_app;

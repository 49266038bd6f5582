-- Templates of trays: what a practice sets out time and again, with the products that usually go in
-- each step. A tray keeps what its template preferred when it was planned.
-- Two new tables, and a column with a constant default: an exclusive lock on `tray` for a moment.
set local citus.multi_shard_modify_mode = 'sequential';

create table tray_template (
  practice_id uuid not null,
  id uuid not null,
  name text not null
    constraint tray_template_name_length check (length(trim(name)) between 1 and 100),
  technique_id uuid not null,
  location_id uuid not null,
  mode text constraint tray_template_mode_known
    check (mode in ('self-etch', 'selective-enamel-etch', 'etch-and-rinse')),
  provisional text not null constraint tray_template_provisional_known
    check (provisional in ('none', 'resin', 'other')),
  undercut boolean not null,
  created_by uuid not null,
  created_at timestamptz not null,
  constraint tray_template_pk primary key (practice_id, id),
  constraint tray_template_name_taken unique (practice_id, name)
);

create table tray_template_product (
  practice_id uuid not null,
  template_id uuid not null,
  step_key text not null,
  product_id uuid not null,
  -- Which is preferred to which.
  place integer not null
    constraint tray_template_product_place_range check (place between 1 and 20),
  constraint tray_template_product_pk
    primary key (practice_id, template_id, step_key, product_id),
  constraint tray_template_product_place_once
    unique (practice_id, template_id, step_key, place)
);

do $$ declare t text; begin
  if exists (select 1 from pg_extension where extname = 'citus') then
    foreach t in array array['tray_template', 'tray_template_product'] loop
      perform create_distributed_table(t::regclass, 'practice_id', colocate_with => 'practice');
    end loop;
  end if;
end $$;

alter table tray_template add constraint tray_template_practice_fk
  foreign key (practice_id) references practice;
alter table tray_template add constraint tray_template_technique_fk
  foreign key (technique_id) references technique;
alter table tray_template add constraint tray_template_location_fk
  foreign key (practice_id, location_id) references location;
alter table tray_template_product add constraint tray_template_product_template_fk
  foreign key (practice_id, template_id) references tray_template on delete cascade;
alter table tray_template_product add constraint tray_template_product_product_fk
  foreign key (product_id) references product;

-- By step key, the products that are suggested first. They are a wish: no check heeds them.
alter table tray add column preferred jsonb not null default '{}'
  constraint tray_preferred_by_step check (jsonb_typeof(preferred) = 'object');

alter table tray_template enable row level security;
alter table tray_template_product enable row level security;
create policy tray_template_own on tray_template using (practice_id = actor_practice());
create policy tray_template_product_own on tray_template_product
  using (practice_id = actor_practice());
grant select, insert, delete on tray_template, tray_template_product to tubule_app;
grant update (name, technique_id, location_id, mode, provisional, undercut) on tray_template
  to tubule_app;

-- Stock is the sum of movements. Nothing edits a number of stock; the database keeps the balances.
-- New tables only: no lock that anybody waits for.
set local citus.multi_shard_modify_mode = 'sequential';
set local citus.enable_unsafe_triggers = 'on';

create table location (
  practice_id uuid not null,
  id uuid not null,
  name text not null constraint location_name_filled check (length(trim(name)) between 1 and 100),
  kind text not null constraint location_kind_known check (kind in (
    'store', 'refrigerator', 'operatory', 'quarantine',
    'supplier', 'used', 'discarded', 'returned', 'lost', 'count-difference')),
  outside boolean not null generated always as (kind in (
    'supplier', 'used', 'discarded', 'returned', 'lost', 'count-difference')) stored,
  constraint location_pk primary key (practice_id, id),
  constraint location_name_taken unique (practice_id, name),
  constraint location_outside_key unique (practice_id, id, outside)
);
-- One place of each outside kind, so that a kind names a place.
create unique index location_outside_kind_once on location (practice_id, kind) where outside;

create table lot (
  practice_id uuid not null,
  id uuid not null,
  product_id uuid not null,
  -- As on the label, byte for byte; two lots that only look alike are two lots.
  lot text not null constraint lot_text_length check (length(lot) between 1 and 40),
  -- The same in the forms by which look-alikes are offered, never matched.
  lot_plain text not null,
  lot_look text not null,
  use_by date,
  use_by_precision text constraint lot_precision_known check (use_by_precision in ('day', 'month')),
  created_at timestamptz not null,
  constraint lot_pk primary key (practice_id, id),
  constraint lot_taken unique (practice_id, product_id, lot),
  constraint lot_use_by_whole check ((use_by is null) = (use_by_precision is null))
);
create index lot_by_text on lot (practice_id, lot);
create index lot_by_look on lot (practice_id, lot_look);

create table delivery (
  practice_id uuid not null,
  id uuid not null,
  supplier text not null default '',
  note text not null default '',
  received_by uuid not null,
  received_at timestamptz not null,
  constraint delivery_pk primary key (practice_id, id)
);

create table delivery_line (
  practice_id uuid not null,
  id uuid not null,
  delivery_id uuid not null,
  lot_id uuid not null,
  containers integer not null
    constraint delivery_line_containers_range check (containers between 1 and 10000),
  serial text,
  barcode text not null,
  received_at timestamptz not null,
  constraint delivery_line_pk primary key (practice_id, id)
);

create table container (
  practice_id uuid not null,
  id uuid not null,
  code text not null constraint container_code_form check (code ~ '^[A-Z0-9]{4,12}$'),
  lot_id uuid not null,
  product_id uuid not null,
  delivery_line_id uuid,
  serial text,
  opened_on date,
  -- Where it is: moved by movements alone.
  location_id uuid not null,
  created_at timestamptz not null,
  constraint container_pk primary key (practice_id, id) include (code),
  constraint container_code_taken unique (practice_id, code),
  constraint container_lot_key unique (practice_id, id, lot_id)
);
create unique index container_serial_taken on container (practice_id, product_id, serial)
  where serial is not null;
create index container_by_lot on container (practice_id, lot_id);
create index container_by_location on container (practice_id, location_id);

create table movement (
  practice_id uuid not null,
  id uuid not null,
  lot_id uuid not null,
  container_id uuid,
  from_location_id uuid not null,
  to_location_id uuid not null,
  quantity integer not null
    constraint movement_quantity_positive check (quantity between 1 and 1000000),
  reason text not null constraint movement_reason_known check (reason in (
    'received', 'put-away', 'moved', 'tray', 'quarantined', 'released', 'used-up', 'discarded',
    'returned', 'lost', 'counted', 'reversed')),
  note text not null default '',
  -- When it happened, and when it was told.
  occurred_at timestamptz not null,
  recorded_at timestamptz not null,
  person_id uuid not null,
  device_id uuid,
  reverses_id uuid,
  constraint movement_pk primary key (practice_id, id),
  constraint movement_between_places check (from_location_id <> to_location_id),
  constraint movement_container_single check (container_id is null or quantity = 1),
  constraint movement_not_before_told check (occurred_at <= recorded_at + interval '5 minutes'),
  constraint movement_reversed_once unique (practice_id, reverses_id),
  constraint movement_reversal_named check ((reason = 'reversed') = (reverses_id is not null))
);
create index movement_by_lot on movement (practice_id, lot_id, recorded_at);
create index movement_by_container on movement (practice_id, container_id, recorded_at)
  where container_id is not null;

create table balance (
  practice_id uuid not null,
  lot_id uuid not null,
  location_id uuid not null,
  outside boolean not null,
  quantity integer not null,
  constraint balance_pk primary key (practice_id, lot_id, location_id),
  constraint balance_not_below_zero check (outside or quantity >= 0)
);
create index balance_by_location on balance (practice_id, location_id) where quantity <> 0;

do $$ declare t text; begin
  if exists (select 1 from pg_extension where extname = 'citus') then
    foreach t in array array['location', 'lot', 'delivery', 'delivery_line', 'container',
                             'movement', 'balance'] loop
      perform create_distributed_table(t::regclass, 'practice_id', colocate_with => 'practice');
    end loop;
  end if;
end $$;

alter table location add constraint location_practice_fk
  foreign key (practice_id) references practice;
alter table lot add constraint lot_practice_fk foreign key (practice_id) references practice;
alter table lot add constraint lot_product_fk foreign key (product_id) references product;
alter table delivery add constraint delivery_practice_fk
  foreign key (practice_id) references practice;
alter table delivery_line add constraint delivery_line_delivery_fk
  foreign key (practice_id, delivery_id) references delivery;
alter table delivery_line add constraint delivery_line_lot_fk
  foreign key (practice_id, lot_id) references lot;
alter table container add constraint container_lot_fk
  foreign key (practice_id, lot_id) references lot;
alter table container add constraint container_product_fk
  foreign key (product_id) references product;
alter table container add constraint container_location_fk
  foreign key (practice_id, location_id) references location;
alter table container add constraint container_delivery_line_fk
  foreign key (practice_id, delivery_line_id) references delivery_line;
alter table movement add constraint movement_lot_fk
  foreign key (practice_id, lot_id) references lot;
alter table movement add constraint movement_container_fk
  foreign key (practice_id, container_id, lot_id) references container (practice_id, id, lot_id);
alter table movement add constraint movement_from_fk
  foreign key (practice_id, from_location_id) references location;
alter table movement add constraint movement_to_fk
  foreign key (practice_id, to_location_id) references location;
alter table movement add constraint movement_reverses_fk
  foreign key (practice_id, reverses_id) references movement;
alter table balance add constraint balance_lot_fk foreign key (practice_id, lot_id) references lot;
alter table balance add constraint balance_location_fk
  foreign key (practice_id, location_id, outside) references location (practice_id, id, outside);

-- Rows first, then locks in one order, then the sums: crossing movements cannot deadlock, and the
-- check sees the balance and not the offered row.
create function keep_balance() returns trigger
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
begin
  insert into balance (practice_id, lot_id, location_id, outside, quantity)
    select new.practice_id, new.lot_id, l.id, l.outside, 0 from location l
    where l.practice_id = new.practice_id and l.id in (new.from_location_id, new.to_location_id)
    order by l.id
    on conflict do nothing;
  perform 1 from balance b
    where b.practice_id = new.practice_id and b.lot_id = new.lot_id
      and b.location_id in (new.from_location_id, new.to_location_id)
    order by b.location_id for update;
  update balance b set quantity = b.quantity - new.quantity
    where b.practice_id = new.practice_id and b.lot_id = new.lot_id
      and b.location_id = new.from_location_id;
  update balance b set quantity = b.quantity + new.quantity
    where b.practice_id = new.practice_id and b.lot_id = new.lot_id
      and b.location_id = new.to_location_id;
  if new.container_id is not null then
    update container c set location_id = new.to_location_id
      where c.practice_id = new.practice_id and c.id = new.container_id
        and c.location_id = new.from_location_id;
    if not found then
      raise exception 'the container is not at the place it is moved from'
        using errcode = '23514', constraint = 'container_not_there';
    end if;
  elsif exists (
    select 1 from balance b
    where b.practice_id = new.practice_id and b.lot_id = new.lot_id
      and b.location_id = new.from_location_id and not b.outside
      and b.quantity < (select count(*) from container c where c.practice_id = new.practice_id
                        and c.lot_id = new.lot_id and c.location_id = new.from_location_id)
  ) then
    raise exception 'the rest of this lot at that place is tracked container by container'
      using errcode = '23514', constraint = 'balance_covers_containers';
  end if;
  return null;
end $$;
create trigger movement_keeps_balance after insert on movement
  for each row execute function keep_balance();

-- A reversal is the mirror of the movement it names, which is not itself a reversal.
create function check_reversal() returns trigger
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
begin
  if not exists (
    select 1 from movement m
    where m.practice_id = new.practice_id and m.id = new.reverses_id and m.reverses_id is null
      and m.lot_id = new.lot_id and m.container_id is not distinct from new.container_id
      and m.quantity = new.quantity
      and m.from_location_id = new.to_location_id and m.to_location_id = new.from_location_id
  ) then
    raise exception 'a reversal mirrors the movement it names'
      using errcode = '23514', constraint = 'movement_reversal_mirrors';
  end if;
  return new;
end $$;
create trigger movement_reversal before insert on movement
  for each row when (new.reverses_id is not null) execute function check_reversal();

create trigger movement_append_only before update or delete on movement
  for each row execute function refuse_change();
create trigger movement_no_truncate before truncate on movement
  for each statement execute function refuse_change();

-- A container comes from outside by a movement, as a piece of a lot of its own product.
create function check_new_container() returns trigger
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
begin
  if not exists (select 1 from location l where l.practice_id = new.practice_id
                 and l.id = new.location_id and l.kind = 'supplier') then
    raise exception 'a container starts at the supplier'
      using errcode = '23514', constraint = 'container_starts_outside';
  end if;
  if not exists (select 1 from lot l where l.practice_id = new.practice_id
                 and l.id = new.lot_id and l.product_id = new.product_id) then
    raise exception 'the lot belongs to another product'
      using errcode = '23514', constraint = 'container_of_lots_product';
  end if;
  return new;
end $$;
create trigger container_new before insert on container
  for each row execute function check_new_container();

-- The opening date starts the in-use clock: it is set once.
create function check_opening() returns trigger language plpgsql set search_path = pg_catalog as $$
begin
  if old.opened_on is not null and new.opened_on is distinct from old.opened_on then
    raise exception 'the opening date is already set'
      using errcode = '23514', constraint = 'container_opened_once';
  end if;
  return new;
end $$;
create trigger container_opening before update of opened_on on container
  for each row execute function check_opening();

alter table location enable row level security;
alter table lot enable row level security;
alter table delivery enable row level security;
alter table delivery_line enable row level security;
alter table container enable row level security;
alter table movement enable row level security;
alter table balance enable row level security;
create policy location_own on location using (practice_id = actor_practice());
create policy lot_own on lot using (practice_id = actor_practice());
create policy delivery_own on delivery using (practice_id = actor_practice());
create policy delivery_line_own on delivery_line using (practice_id = actor_practice());
create policy container_own on container using (practice_id = actor_practice());
create policy movement_own on movement using (practice_id = actor_practice());
create policy balance_own on balance using (practice_id = actor_practice());

grant select, insert on location, lot, delivery, delivery_line, container, movement to tubule_app;
grant select on balance to tubule_app;
grant update (name) on location to tubule_app;
grant update (opened_on) on container to tubule_app;
revoke all on function keep_balance, check_reversal, check_new_container, check_opening from public;

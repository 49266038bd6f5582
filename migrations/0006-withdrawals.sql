-- A notice that names lots, and what it covers here.
-- New tables only: no lock that anybody waits for.
set local citus.multi_shard_modify_mode = 'sequential';

create table withdrawal (
  practice_id uuid not null,
  id uuid not null,
  reference text not null
    constraint withdrawal_reference_filled check (length(trim(reference)) between 1 and 200),
  note text not null default '',
  state text not null constraint withdrawal_state_known
    check (state in ('received', 'tracing', 'segregated', 'contacting', 'closed')),
  received_by uuid not null,
  received_at timestamptz not null,
  closed_by uuid,
  closed_at timestamptz,
  summary text,
  constraint withdrawal_pk primary key (practice_id, id),
  constraint withdrawal_reference_taken unique (practice_id, reference),
  constraint withdrawal_closed_whole check ((state = 'closed') = (closed_at is not null)
    and (closed_at is null) = (closed_by is null))
);

create table withdrawal_scope (
  practice_id uuid not null,
  withdrawal_id uuid not null,
  product_id uuid not null,
  -- The lot as the notice and the label print it; empty covers every lot of the product.
  lot text not null,
  constraint withdrawal_scope_pk primary key (practice_id, withdrawal_id, product_id, lot)
);
create index withdrawal_scope_by_product on withdrawal_scope (practice_id, product_id, lot);

do $$ declare t text; begin
  if exists (select 1 from pg_extension where extname = 'citus') then
    foreach t in array array['withdrawal', 'withdrawal_scope'] loop
      perform create_distributed_table(t::regclass, 'practice_id', colocate_with => 'practice');
    end loop;
  end if;
end $$;

alter table withdrawal add constraint withdrawal_practice_fk
  foreign key (practice_id) references practice;
alter table withdrawal_scope add constraint withdrawal_scope_withdrawal_fk
  foreign key (practice_id, withdrawal_id) references withdrawal;
alter table withdrawal_scope add constraint withdrawal_scope_product_fk
  foreign key (product_id) references product;

alter table withdrawal enable row level security;
alter table withdrawal_scope enable row level security;
create policy withdrawal_own on withdrawal using (practice_id = actor_practice());
create policy withdrawal_scope_own on withdrawal_scope using (practice_id = actor_practice());

grant select, insert on withdrawal, withdrawal_scope to tubule_app;
grant update (state, closed_by, closed_at, summary) on withdrawal to tubule_app;

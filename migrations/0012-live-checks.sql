-- What the check last said of each tray, what changed by itself and why, and what it found at all:
-- so that a withdrawal, an excursion or midnight can say whose verdict changed.
-- New tables and a function only: no lock that anybody waits for.
set local citus.multi_shard_modify_mode = 'sequential';
set local citus.enable_unsafe_triggers = 'on';

create table tray_verdict (
  practice_id uuid not null,
  tray_id uuid not null,
  verdict text not null
    constraint tray_verdict_known check (verdict in ('clear', 'caution', 'stop')),
  codes text[] not null,
  checked_at timestamptz not null,
  constraint tray_verdict_pk primary key (practice_id, tray_id)
);

-- A change that nobody made at the tray itself.
create table verdict_change (
  practice_id uuid not null,
  id uuid not null,
  tray_id uuid not null,
  -- The action that led to it, as in the audit trail, or 'day-begun'.
  cause text not null,
  before text not null
    constraint verdict_change_before_known check (before in ('clear', 'caution', 'stop')),
  after text not null
    constraint verdict_change_after_known check (after in ('clear', 'caution', 'stop')),
  codes text[] not null,
  at timestamptz not null,
  constraint verdict_change_pk primary key (practice_id, id),
  constraint verdict_change_is_one check (before <> after)
);
create index verdict_change_by_time on verdict_change (practice_id, at);

create table finding_seen (
  practice_id uuid not null,
  tray_id uuid not null,
  code text not null,
  level text not null
    constraint finding_seen_level_known check (level in ('caution', 'stop')),
  first_seen_at timestamptz not null,
  constraint finding_seen_pk primary key (practice_id, tray_id, code, level)
);
create index finding_seen_by_time on finding_seen (practice_id, first_seen_at);

do $$ declare t text; begin
  if exists (select 1 from pg_extension where extname = 'citus') then
    foreach t in array array['tray_verdict', 'verdict_change', 'finding_seen'] loop
      perform create_distributed_table(t::regclass, 'practice_id', colocate_with => 'practice');
    end loop;
  end if;
end $$;

alter table tray_verdict add constraint tray_verdict_tray_fk
  foreign key (practice_id, tray_id) references tray;
alter table verdict_change add constraint verdict_change_tray_fk
  foreign key (practice_id, tray_id) references tray;
alter table finding_seen add constraint finding_seen_tray_fk
  foreign key (practice_id, tray_id) references tray;

do $$ declare t text; begin
  foreach t in array array['verdict_change', 'finding_seen'] loop
    execute format('create trigger %I before update or delete on %I
      for each row execute function refuse_change()', t || '_append_only', t);
    execute format('create trigger %I before truncate on %I
      for each statement execute function refuse_change()', t || '_no_truncate', t);
  end loop;
end $$;

-- Whose day begins when: asked by the server itself, for nobody in particular.
create function list_practices()
  returns table (practice_id uuid, organisation_id uuid, time_zone text, language text)
language sql stable security definer set search_path = pg_catalog, public, pg_temp as $$
  select p.practice_id, p.organisation_id, p.time_zone, p.language from practice p where p.complete
$$;

alter table tray_verdict enable row level security;
alter table verdict_change enable row level security;
alter table finding_seen enable row level security;
create policy tray_verdict_own on tray_verdict using (practice_id = actor_practice());
create policy verdict_change_own on verdict_change using (practice_id = actor_practice());
create policy finding_seen_own on finding_seen using (practice_id = actor_practice());

grant select, insert on tray_verdict, verdict_change, finding_seen to tubule_app;
grant update (verdict, codes, checked_at) on tray_verdict to tubule_app;
revoke all on function list_practices from public;
grant execute on function list_practices to tubule_app;

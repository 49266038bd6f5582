-- A later version takes the place of the one before at the moment it is there: what was used counts
-- once at any time, and no signed record vanishes without a successor. An addition leaves nothing
-- out. Functions and a trigger; no table is read. A short exclusive lock on `record`.
set local citus.multi_shard_modify_mode = 'sequential';
set local citus.enable_unsafe_triggers = 'on';

create function supersede_earlier() returns trigger
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
begin
  update record set state = 'superseded'
    where practice_id = new.practice_id and id = new.supersedes_id;
  return null;
end $$;
create trigger record_supersedes after insert on record
  for each row when (new.supersedes_id is not null) execute function supersede_earlier();

-- What of an earlier version a later one lacks: every entry and material, as often as it was told.
create function record_lacks(practice uuid, later uuid, earlier uuid) returns boolean
language sql stable set search_path = pg_catalog, public, pg_temp as $$
  select exists (
      select kind, step_key, facts, occurred_at, recorded_at, person_id
        from record_event where practice_id = practice and record_id = earlier
      except all
      select kind, step_key, facts, occurred_at, recorded_at, person_id
        from record_event where practice_id = practice and record_id = later)
    or exists (
      select step_key, product_id, lot_id, container_id, not_scanned_reason, used_at, person_id
        from step_material where practice_id = practice and record_id = earlier
      except all
      select step_key, product_id, lot_id, container_id, not_scanned_reason, used_at, person_id
        from step_material where practice_id = practice and record_id = later)
    or exists (
      select mode, surfaces, seal_id, started_at, started_by, told_at, verdict
        from record where practice_id = practice and id = earlier
      except
      select mode, surfaces, seal_id, started_at, started_by, told_at, verdict
        from record where practice_id = practice and id = later)
$$;

-- A draft is signed once, by a dentist in person; a signed record only ever becomes superseded, by
-- the version that follows it, and nothing in it changes.
create or replace function check_record_change() returns trigger
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
declare rest record;
begin
  if tg_op = 'DELETE' then
    raise exception 'a record is never deleted' using errcode = 'TB001';
  end if;
  rest := new;
  rest.state := old.state;
  if old.state = 'signed' and new.state = 'superseded' and rest is not distinct from old then
    if not exists (select 1 from record r where r.practice_id = old.practice_id
                   and r.tray_id = old.tray_id and r.tooth = old.tooth
                   and r.supersedes_id = old.id) then
      raise exception 'no later version stands in the place of this one'
        using errcode = '23514', constraint = 'record_superseded_by_later';
    end if;
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
    if new.amends = 'addition' and record_lacks(new.practice_id, new.id, new.supersedes_id) then
      raise exception 'an addition leaves out what stood in the version before'
        using errcode = '23514', constraint = 'record_addition_keeps_all';
    end if;
    return new;
  end if;
  raise exception 'a signed record does not change'
    using errcode = 'TB001', hint = 'Enter an amendment instead.';
end $$;

revoke all on function supersede_earlier, record_lacks from public;

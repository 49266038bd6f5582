-- A planned visit can be changed until priming starts: another time, room, technique or teeth.
-- No data is touched; an exclusive lock on `tray` for the moment that a trigger takes.
set local citus.enable_unsafe_triggers = 'on';

create function check_visit_change() returns trigger
language plpgsql security definer set search_path = pg_catalog, public, pg_temp as $$
begin
  if old.state not in ('planned', 'setting', 'ready')
     and (new.tooth, new.technique_id, new.location_id, new.appointment_at)
       is distinct from (old.tooth, old.technique_id, old.location_id, old.appointment_at) then
    raise exception 'the tray is in use or cleared'
      using errcode = '23514', constraint = 'tray_before_priming';
  end if;
  return new;
end $$;
create trigger tray_before_priming before update on tray
  for each row execute function check_visit_change();

grant update (tooth, technique_id, location_id, appointment_at) on tray to tubule_app;
revoke all on function check_visit_change from public;

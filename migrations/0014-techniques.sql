-- Who made a version of a technique, from what, and which dentist has compared it with the
-- instructions for use of the products it is worked with.
-- New columns that may stay empty: an exclusive lock on `technique` for milliseconds.
set local citus.multi_shard_modify_mode = 'sequential';

alter table technique
  add column created_by uuid,
  -- The version, or the starter, that it was made from.
  add column made_from uuid,
  add column confirmed_by uuid,
  add column confirmed_at timestamptz,
  add constraint technique_confirmed_whole
    check ((confirmed_by is null) = (confirmed_at is null)),
  -- What is common practice is made one's own before it is confirmed.
  add constraint technique_starter_unconfirmed check (not starter or confirmed_at is null);
alter table technique add constraint technique_created_by_fk
  foreign key (created_by) references person;
alter table technique add constraint technique_made_from_fk
  foreign key (made_from) references technique;
alter table technique add constraint technique_confirmed_by_fk
  foreign key (confirmed_by) references person;

grant update (confirmed_by, confirmed_at) on technique to tubule_app;

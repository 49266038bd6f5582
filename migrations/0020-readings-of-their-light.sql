-- A reading takes the place of one of the same light and never of itself; an excursion is told
-- once it is over; clocks are a minute off at times.
-- An exclusive lock on `light_reading` and `storage_excursion` while they are read once.
set local citus.multi_shard_modify_mode = 'sequential';

alter table light_reading
  add constraint light_reading_of_light unique (practice_id, light_id, id),
  add constraint light_reading_not_itself check (replaces_id <> id),
  drop constraint light_reading_replaces_fk;
alter table light_reading add constraint light_reading_replaces_fk
  foreign key (practice_id, light_id, replaces_id)
  references light_reading (practice_id, light_id, id);

alter table storage_excursion add constraint storage_excursion_over
  check (to_at <= opened_at + interval '1 minute');

-- What happens at a step is not told before it happens; tablets are minutes off at times.
-- A share lock on `record_event` while it is read once.
set local citus.multi_shard_modify_mode = 'sequential';

alter table record_event add constraint record_event_not_before_told
  check (occurred_at <= recorded_at + interval '5 minutes');

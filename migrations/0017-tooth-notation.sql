-- How a practice writes teeth; stored are always the codes of ISO 3950, now also those of
-- supernumerary teeth: the code of the tooth beside them and an S.
-- An exclusive lock on `practice`, `tray` and `tray_tooth` while the latter two are read once.
set local citus.multi_shard_modify_mode = 'sequential';

alter table practice add column tooth_notation text not null default 'fdi'
  constraint practice_tooth_notation_known
    check (tooth_notation in ('fdi', 'universal', 'palmer'));
grant update (tooth_notation) on practice to tubule_app;

alter table tray drop constraint tray_tooth_form;
alter table tray add constraint tray_tooth_form
  check (tooth ~ '^([1-4][1-8]|[5-8][1-5])S?$');
alter table tray_tooth drop constraint tray_tooth_known;
alter table tray_tooth add constraint tray_tooth_known
  check (tooth ~ '^([1-4][1-8]|[5-8][1-5])S?$');

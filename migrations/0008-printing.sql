-- The practice's own labels: codes of places and trays, runs of labels, sheets, printers and what
-- was sent to them. New tables, and a column that may stay empty on `location` and `tray`: an
-- exclusive lock on those two while their index is built: milliseconds, as both are small.
set local citus.multi_shard_modify_mode = 'sequential';
set local citus.enable_unsafe_triggers = 'on';

alter table location add column code text;
alter table location add constraint location_code_form check (code ~ '^L[1-9A-HJKMNP-TV-Z]{6}$');
alter table location add constraint location_code_taken unique (practice_id, code);
alter table tray add column code text;
alter table tray add constraint tray_code_form check (code ~ '^T[1-9A-HJKMNP-TV-Z]{6}$');
alter table tray add constraint tray_code_taken unique (practice_id, code);

-- A label that is stuck somewhere stays true.
create function check_code_once() returns trigger
language plpgsql set search_path = pg_catalog as $$
begin
  if old.code is not null and new.code is distinct from old.code then
    raise exception 'a code that is given stays' using errcode = 'TB001';
  end if;
  return new;
end $$;
create trigger location_code_once before update of code on location
  for each row execute function check_code_once();
create trigger tray_code_once before update of code on tray
  for each row execute function check_code_once();

create table label_run (
  practice_id uuid not null,
  id uuid not null,
  copies integer not null constraint label_run_copies_range check (copies between 1 and 10),
  -- The run whose labels were lost or spoiled.
  reprint_of uuid,
  made_by uuid not null,
  made_at timestamptz not null,
  constraint label_run_pk primary key (practice_id, id),
  constraint label_run_not_of_itself check (reprint_of <> id)
);
create index label_run_by_time on label_run (practice_id, made_at);

-- What each label of a run is for, in their order.
create table label_run_subject (
  practice_id uuid not null,
  run_id uuid not null,
  position integer not null
    constraint label_run_subject_position_range check (position between 1 and 500),
  container_id uuid,
  location_id uuid,
  tray_id uuid,
  constraint label_run_subject_pk primary key (practice_id, run_id, position),
  constraint label_run_subject_one check (num_nonnulls(container_id, location_id, tray_id) = 1)
);

-- Lengths are whole micrometres.
create table label_sheet (
  practice_id uuid not null,
  id uuid not null,
  name text not null
    constraint label_sheet_name_filled check (length(trim(name)) between 1 and 100),
  page_width_um integer not null,
  page_height_um integer not null,
  columns integer not null,
  rows integer not null,
  label_width_um integer not null,
  label_height_um integer not null,
  margin_left_um integer not null,
  margin_top_um integer not null,
  pitch_x_um integer not null,
  pitch_y_um integer not null,
  constraint label_sheet_pk primary key (practice_id, id),
  constraint label_sheet_name_taken unique (practice_id, name),
  constraint label_sheet_measures_range check (
    page_width_um between 1000 and 1000000 and page_height_um between 1000 and 1000000
    and label_width_um between 1000 and 1000000 and label_height_um between 1000 and 1000000
    and margin_left_um between 0 and 1000000 and margin_top_um between 0 and 1000000
    and pitch_x_um between 1000 and 1000000 and pitch_y_um between 1000 and 1000000),
  constraint label_sheet_count_range check (
    columns between 1 and 50 and rows between 1 and 100 and columns * rows <= 500),
  constraint label_sheet_labels_apart check (
    (columns = 1 or pitch_x_um >= label_width_um) and (rows = 1 or pitch_y_um >= label_height_um)),
  -- Wide numbers: the range above is not always tried first.
  constraint label_sheet_on_page check (
    margin_left_um + (columns - 1)::bigint * pitch_x_um + label_width_um <= page_width_um
    and margin_top_um + (rows - 1)::bigint * pitch_y_um + label_height_um <= page_height_um)
);

create table label_printer (
  practice_id uuid not null,
  id uuid not null,
  name text not null
    constraint label_printer_name_filled check (length(trim(name)) between 1 and 100),
  host text not null constraint label_printer_host_form
    check (host ~ '^[A-Za-z0-9]([A-Za-z0-9.:-]{0,252}[A-Za-z0-9])?$'),
  port integer not null constraint label_printer_port_range check (port between 1 and 65535),
  dots_per_inch integer not null
    constraint label_printer_resolution_known check (dots_per_inch in (203, 300, 600)),
  label_width_um integer not null,
  label_height_um integer not null,
  constraint label_printer_pk primary key (practice_id, id),
  constraint label_printer_name_taken unique (practice_id, name),
  constraint label_printer_label_range check (
    label_width_um between 1000 and 1000000 and label_height_um between 1000 and 1000000)
);

-- What was to be sent to a printer: written before the first byte leaves, so that it leaves once.
-- The printer is kept by its name and address, since it may be removed.
create table label_print (
  practice_id uuid not null,
  id uuid not null,
  printer text not null,
  host text not null,
  port integer not null,
  -- Empty for a calibration label.
  run_id uuid,
  first_label integer not null,
  labels integer not null,
  asked_by uuid not null,
  asked_at timestamptz not null,
  constraint label_print_pk primary key (practice_id, id),
  constraint label_print_count_range check (first_label >= 1 and labels between 1 and 5000)
);
create index label_print_by_run on label_print (practice_id, run_id) where run_id is not null;

-- How it went, written once it is over. None where the server stopped meanwhile.
create table label_print_outcome (
  practice_id uuid not null,
  print_id uuid not null,
  outcome text not null
    constraint label_print_outcome_known check (outcome in ('sent', 'unreachable', 'broken-off')),
  detail text not null,
  at timestamptz not null,
  constraint label_print_outcome_pk primary key (practice_id, print_id)
);

do $$ declare t text; begin
  if exists (select 1 from pg_extension where extname = 'citus') then
    foreach t in array array['label_run', 'label_run_subject', 'label_sheet', 'label_printer',
                             'label_print', 'label_print_outcome'] loop
      perform create_distributed_table(t::regclass, 'practice_id', colocate_with => 'practice');
    end loop;
  end if;
end $$;

alter table label_run add constraint label_run_practice_fk
  foreign key (practice_id) references practice;
alter table label_run add constraint label_run_reprint_fk
  foreign key (practice_id, reprint_of) references label_run;
alter table label_run_subject add constraint label_run_subject_run_fk
  foreign key (practice_id, run_id) references label_run;
alter table label_run_subject add constraint label_run_subject_container_fk
  foreign key (practice_id, container_id) references container;
alter table label_run_subject add constraint label_run_subject_location_fk
  foreign key (practice_id, location_id) references location;
alter table label_run_subject add constraint label_run_subject_tray_fk
  foreign key (practice_id, tray_id) references tray;
alter table label_sheet add constraint label_sheet_practice_fk
  foreign key (practice_id) references practice;
alter table label_printer add constraint label_printer_practice_fk
  foreign key (practice_id) references practice;
alter table label_print add constraint label_print_run_fk
  foreign key (practice_id, run_id) references label_run;
alter table label_print add constraint label_print_practice_fk
  foreign key (practice_id) references practice;
alter table label_print_outcome add constraint label_print_outcome_print_fk
  foreign key (practice_id, print_id) references label_print;

do $$ declare t text; begin
  foreach t in array array['label_run', 'label_run_subject', 'label_print',
                           'label_print_outcome'] loop
    execute format('create trigger %I before update or delete on %I
      for each row execute function refuse_change()', t || '_append_only', t);
    execute format('create trigger %I before truncate on %I
      for each statement execute function refuse_change()', t || '_no_truncate', t);
  end loop;
end $$;

alter table label_run enable row level security;
alter table label_run_subject enable row level security;
alter table label_sheet enable row level security;
alter table label_printer enable row level security;
alter table label_print enable row level security;
alter table label_print_outcome enable row level security;
create policy label_run_own on label_run using (practice_id = actor_practice());
create policy label_run_subject_own on label_run_subject using (practice_id = actor_practice());
create policy label_sheet_own on label_sheet using (practice_id = actor_practice());
create policy label_printer_own on label_printer using (practice_id = actor_practice());
create policy label_print_own on label_print using (practice_id = actor_practice());
create policy label_print_outcome_own on label_print_outcome using (practice_id = actor_practice());

grant select, insert on label_run, label_run_subject, label_sheet, label_printer, label_print,
  label_print_outcome to tubule_app;
grant delete on label_sheet, label_printer to tubule_app;
grant update (name, page_width_um, page_height_um, columns, rows, label_width_um, label_height_um,
  margin_left_um, margin_top_um, pitch_x_um, pitch_y_um) on label_sheet to tubule_app;
grant update (name, host, port, dots_per_inch, label_width_um, label_height_um) on label_printer
  to tubule_app;
grant update (code) on location, tray to tubule_app;
revoke all on function check_code_once from public;

-- The schema that all migrations together make, as the database itself tells it.
-- Made by a test; written anew by: UPDATE_SCHEMA=1 npm test -- tests/db/migrations.test.ts

-- Tables

create table audit_entry (
  practice_id uuid not null,
  sequence bigint not null,
  at timestamp(3) with time zone not null,
  person_id uuid,
  device_id uuid,
  action text not null,
  subject text not null,
  change text not null,
  previous_hash bytea not null,
  hash bytea not null,
  constraint audit_entry_pk PRIMARY KEY (practice_id, sequence),
  constraint audit_entry_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id),
  constraint audit_entry_hash_length CHECK ((length(hash) = 32)),
  constraint audit_entry_one_line CHECK ((((action || subject) || change) !~ '[\n\r]'::text)),
  constraint audit_entry_sequence_positive CHECK ((sequence > 0))
);

create table audit_head (
  practice_id uuid not null,
  sequence bigint not null,
  hash bytea not null,
  constraint audit_head_pk PRIMARY KEY (practice_id),
  constraint audit_head_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id)
);

create table balance (
  practice_id uuid not null,
  lot_id uuid not null,
  location_id uuid not null,
  outside boolean not null,
  quantity integer not null,
  constraint balance_pk PRIMARY KEY (practice_id, lot_id, location_id),
  constraint balance_location_fk FOREIGN KEY (practice_id, location_id, outside) REFERENCES location(practice_id, id, outside),
  constraint balance_lot_fk FOREIGN KEY (practice_id, lot_id) REFERENCES lot(practice_id, id),
  constraint balance_not_below_zero CHECK ((outside OR (quantity >= 0)))
);

create table bonding_system (
  id uuid not null,
  organisation_id uuid not null,
  name text not null,
  constraint bonding_system_pk PRIMARY KEY (id),
  constraint bonding_system_name_taken UNIQUE (organisation_id, name),
  constraint bonding_system_organisation_fk FOREIGN KEY (organisation_id) REFERENCES organisation(id),
  constraint bonding_system_name_filled CHECK (((length(TRIM(BOTH FROM name)) >= 1) AND (length(TRIM(BOTH FROM name)) <= 200)))
);

create table container (
  practice_id uuid not null,
  id uuid not null,
  code text not null,
  lot_id uuid not null,
  product_id uuid not null,
  delivery_line_id uuid,
  serial text,
  opened_on date,
  location_id uuid not null,
  created_at timestamp with time zone not null,
  constraint container_pk PRIMARY KEY (practice_id, id) INCLUDE (code),
  constraint container_code_taken UNIQUE (practice_id, code),
  constraint container_lot_key UNIQUE (practice_id, id, lot_id),
  constraint container_delivery_line_fk FOREIGN KEY (practice_id, delivery_line_id) REFERENCES delivery_line(practice_id, id),
  constraint container_location_fk FOREIGN KEY (practice_id, location_id) REFERENCES location(practice_id, id),
  constraint container_lot_fk FOREIGN KEY (practice_id, lot_id) REFERENCES lot(practice_id, id),
  constraint container_product_fk FOREIGN KEY (product_id) REFERENCES product(id),
  constraint container_code_form CHECK ((code ~ '^[A-Z0-9]{4,12}$'::text))
);

create table curing_light (
  practice_id uuid not null,
  id uuid not null,
  name text not null,
  serial text not null default ''::text,
  tip_tenth_mm integer,
  location_id uuid,
  retired boolean not null default false,
  created_at timestamp with time zone not null,
  constraint curing_light_pk PRIMARY KEY (practice_id, id),
  constraint curing_light_name_taken UNIQUE (practice_id, name),
  constraint curing_light_location_fk FOREIGN KEY (practice_id, location_id) REFERENCES location(practice_id, id),
  constraint curing_light_name_filled CHECK (((length(TRIM(BOTH FROM name)) >= 1) AND (length(TRIM(BOTH FROM name)) <= 100))),
  constraint curing_light_tip_range CHECK (((tip_tenth_mm >= 10) AND (tip_tenth_mm <= 300)))
);

create table curing_light_mode (
  practice_id uuid not null,
  light_id uuid not null,
  place integer not null,
  name text not null,
  phases jsonb not null default '[]'::jsonb,
  constraint curing_light_mode_pk PRIMARY KEY (practice_id, light_id, name),
  constraint curing_light_mode_place_once UNIQUE (practice_id, light_id, place),
  constraint curing_light_mode_light_fk FOREIGN KEY (practice_id, light_id) REFERENCES curing_light(practice_id, id),
  constraint curing_light_mode_name_filled CHECK (((length(TRIM(BOTH FROM name)) >= 1) AND (length(TRIM(BOTH FROM name)) <= 60))),
  constraint curing_light_mode_phases_listed CHECK ((jsonb_typeof(phases) = 'array'::text))
);

create table delivery (
  practice_id uuid not null,
  id uuid not null,
  supplier text not null default ''::text,
  note text not null default ''::text,
  received_by uuid not null,
  received_at timestamp with time zone not null,
  constraint delivery_pk PRIMARY KEY (practice_id, id),
  constraint delivery_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id)
);

create table delivery_line (
  practice_id uuid not null,
  id uuid not null,
  delivery_id uuid not null,
  lot_id uuid not null,
  containers integer not null,
  serial text,
  barcode text not null,
  received_at timestamp with time zone not null,
  constraint delivery_line_pk PRIMARY KEY (practice_id, id),
  constraint delivery_line_delivery_fk FOREIGN KEY (practice_id, delivery_id) REFERENCES delivery(practice_id, id),
  constraint delivery_line_lot_fk FOREIGN KEY (practice_id, lot_id) REFERENCES lot(practice_id, id),
  constraint delivery_line_containers_range CHECK (((containers >= 1) AND (containers <= 10000)))
);

create table device (
  practice_id uuid not null,
  id uuid not null,
  name text not null,
  token_hash bytea not null,
  registered_by uuid not null,
  registered_at timestamp with time zone not null,
  revoked_at timestamp with time zone,
  scanner_profile jsonb,
  scanner_set_up_at timestamp with time zone,
  constraint device_pk PRIMARY KEY (practice_id, id),
  constraint device_token_unique UNIQUE (practice_id, token_hash),
  constraint device_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id),
  constraint device_name_filled CHECK (((length(TRIM(BOTH FROM name)) >= 1) AND (length(TRIM(BOTH FROM name)) <= 100))),
  constraint device_scanner_profile_form CHECK (((scanner_profile IS NULL) OR (jsonb_path_match(scanner_profile, '(((((((((($."gsTokens".type() == "array" && $."gsTokens".size() <= 4) && !(exists ($."gsTokens"[*]?(@.type() != "string")))) && $."prefix".type() == "string") && $."suffix".type() == "string") && ($."keyboard" == "as-typed" || $."keyboard" == "by-position")) && ((($."endKey" == "Enter" || $."endKey" == "Tab") || $."endKey" == "either") || $."endKey" == "none")) && $."maxGapMs" >= 10) && $."maxGapMs" <= 60) && $."minKeys" >= 4) && $."minKeys" <= 12)'::jsonpath, '{}'::jsonb, true) IS TRUE))),
  constraint device_scanner_set_up_of_profile CHECK (((scanner_set_up_at IS NULL) OR (scanner_profile IS NOT NULL)))
);

create table finding_override (
  practice_id uuid not null,
  id uuid not null,
  tray_id uuid not null,
  code text not null,
  subject text not null,
  finding jsonb not null,
  reason text not null,
  person_id uuid not null,
  at timestamp with time zone not null,
  constraint finding_override_pk PRIMARY KEY (practice_id, id),
  constraint finding_override_once UNIQUE (practice_id, tray_id, code, subject),
  constraint finding_override_tray_fk FOREIGN KEY (practice_id, tray_id) REFERENCES tray(practice_id, id),
  constraint finding_override_reason_given CHECK (((length(TRIM(BOTH FROM reason)) >= 5) AND (length(TRIM(BOTH FROM reason)) <= 2000)))
);

create table finding_seen (
  practice_id uuid not null,
  tray_id uuid not null,
  code text not null,
  level text not null,
  first_seen_at timestamp with time zone not null,
  constraint finding_seen_pk PRIMARY KEY (practice_id, tray_id, code, level),
  constraint finding_seen_tray_fk FOREIGN KEY (practice_id, tray_id) REFERENCES tray(practice_id, id),
  constraint finding_seen_level_known CHECK ((level = ANY (ARRAY['caution'::text, 'stop'::text])))
);

create table idempotency_key (
  practice_id uuid not null,
  person_id uuid not null,
  key text not null,
  operation text not null,
  fingerprint bytea not null,
  status integer,
  answer text,
  created_at timestamp with time zone not null,
  constraint idempotency_key_pk PRIMARY KEY (practice_id, person_id, key),
  constraint idempotency_key_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id),
  constraint idempotency_key_form CHECK (((length(key) >= 8) AND (length(key) <= 128)))
);

create table label_print (
  practice_id uuid not null,
  id uuid not null,
  printer text not null,
  host text not null,
  port integer not null,
  run_id uuid,
  first_label integer not null,
  labels integer not null,
  asked_by uuid not null,
  asked_at timestamp with time zone not null,
  constraint label_print_pk PRIMARY KEY (practice_id, id),
  constraint label_print_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id),
  constraint label_print_run_fk FOREIGN KEY (practice_id, run_id) REFERENCES label_run(practice_id, id),
  constraint label_print_count_range CHECK (((first_label >= 1) AND ((labels >= 1) AND (labels <= 5000))))
);

create table label_print_outcome (
  practice_id uuid not null,
  print_id uuid not null,
  outcome text not null,
  detail text not null,
  at timestamp with time zone not null,
  constraint label_print_outcome_pk PRIMARY KEY (practice_id, print_id),
  constraint label_print_outcome_print_fk FOREIGN KEY (practice_id, print_id) REFERENCES label_print(practice_id, id),
  constraint label_print_outcome_known CHECK ((outcome = ANY (ARRAY['sent'::text, 'unreachable'::text, 'broken-off'::text])))
);

create table label_printer (
  practice_id uuid not null,
  id uuid not null,
  name text not null,
  host text not null,
  port integer not null,
  dots_per_inch integer not null,
  label_width_um integer not null,
  label_height_um integer not null,
  constraint label_printer_pk PRIMARY KEY (practice_id, id),
  constraint label_printer_name_taken UNIQUE (practice_id, name),
  constraint label_printer_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id),
  constraint label_printer_host_form CHECK ((host ~ '^[A-Za-z0-9]([A-Za-z0-9.:-]{0,252}[A-Za-z0-9])?$'::text)),
  constraint label_printer_label_range CHECK ((((label_width_um >= 1000) AND (label_width_um <= 1000000)) AND ((label_height_um >= 1000) AND (label_height_um <= 1000000)))),
  constraint label_printer_name_filled CHECK (((length(TRIM(BOTH FROM name)) >= 1) AND (length(TRIM(BOTH FROM name)) <= 100))),
  constraint label_printer_port_range CHECK (((port >= 1) AND (port <= 65535))),
  constraint label_printer_resolution_known CHECK ((dots_per_inch = ANY (ARRAY[203, 300, 600])))
);

create table label_run (
  practice_id uuid not null,
  id uuid not null,
  copies integer not null,
  reprint_of uuid,
  made_by uuid not null,
  made_at timestamp with time zone not null,
  constraint label_run_pk PRIMARY KEY (practice_id, id),
  constraint label_run_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id),
  constraint label_run_reprint_fk FOREIGN KEY (practice_id, reprint_of) REFERENCES label_run(practice_id, id),
  constraint label_run_copies_range CHECK (((copies >= 1) AND (copies <= 10))),
  constraint label_run_not_of_itself CHECK ((reprint_of <> id))
);

create table label_run_subject (
  practice_id uuid not null,
  run_id uuid not null,
  "position" integer not null,
  container_id uuid,
  location_id uuid,
  tray_id uuid,
  constraint label_run_subject_pk PRIMARY KEY (practice_id, run_id, "position"),
  constraint label_run_subject_container_fk FOREIGN KEY (practice_id, container_id) REFERENCES container(practice_id, id),
  constraint label_run_subject_location_fk FOREIGN KEY (practice_id, location_id) REFERENCES location(practice_id, id),
  constraint label_run_subject_run_fk FOREIGN KEY (practice_id, run_id) REFERENCES label_run(practice_id, id),
  constraint label_run_subject_tray_fk FOREIGN KEY (practice_id, tray_id) REFERENCES tray(practice_id, id),
  constraint label_run_subject_one CHECK ((num_nonnulls(container_id, location_id, tray_id) = 1)),
  constraint label_run_subject_position_range CHECK ((("position" >= 1) AND ("position" <= 500)))
);

create table label_sheet (
  practice_id uuid not null,
  id uuid not null,
  name text not null,
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
  constraint label_sheet_pk PRIMARY KEY (practice_id, id),
  constraint label_sheet_name_taken UNIQUE (practice_id, name),
  constraint label_sheet_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id),
  constraint label_sheet_count_range CHECK ((((columns >= 1) AND (columns <= 50)) AND ((rows >= 1) AND (rows <= 100)) AND ((columns * rows) <= 500))),
  constraint label_sheet_labels_apart CHECK ((((columns = 1) OR (pitch_x_um >= label_width_um)) AND ((rows = 1) OR (pitch_y_um >= label_height_um)))),
  constraint label_sheet_measures_range CHECK ((((page_width_um >= 1000) AND (page_width_um <= 1000000)) AND ((page_height_um >= 1000) AND (page_height_um <= 1000000)) AND ((label_width_um >= 1000) AND (label_width_um <= 1000000)) AND ((label_height_um >= 1000) AND (label_height_um <= 1000000)) AND ((margin_left_um >= 0) AND (margin_left_um <= 1000000)) AND ((margin_top_um >= 0) AND (margin_top_um <= 1000000)) AND ((pitch_x_um >= 1000) AND (pitch_x_um <= 1000000)) AND ((pitch_y_um >= 1000) AND (pitch_y_um <= 1000000)))),
  constraint label_sheet_name_filled CHECK (((length(TRIM(BOTH FROM name)) >= 1) AND (length(TRIM(BOTH FROM name)) <= 100))),
  constraint label_sheet_on_page CHECK (((((margin_left_um + (((columns - 1))::bigint * pitch_x_um)) + label_width_um) <= page_width_um) AND (((margin_top_um + (((rows - 1))::bigint * pitch_y_um)) + label_height_um) <= page_height_um)))
);

create table light_reading (
  practice_id uuid not null,
  id uuid not null,
  light_id uuid not null,
  mode text not null,
  distance_tenth_mm integer not null,
  irradiance_mw_cm2 integer not null,
  radiometer text not null default ''::text,
  note text not null default ''::text,
  read_at timestamp with time zone not null,
  replaces_id uuid,
  person_id uuid not null,
  recorded_at timestamp with time zone not null,
  constraint light_reading_pk PRIMARY KEY (practice_id, id),
  constraint light_reading_of_light UNIQUE (practice_id, light_id, id),
  constraint light_reading_replaced_once UNIQUE (practice_id, replaces_id),
  constraint light_reading_mode_fk FOREIGN KEY (practice_id, light_id, mode) REFERENCES curing_light_mode(practice_id, light_id, name),
  constraint light_reading_replaces_fk FOREIGN KEY (practice_id, light_id, replaces_id) REFERENCES light_reading(practice_id, light_id, id),
  constraint light_reading_distance_range CHECK (((distance_tenth_mm >= 0) AND (distance_tenth_mm <= 300))),
  constraint light_reading_irradiance_range CHECK (((irradiance_mw_cm2 >= 0) AND (irradiance_mw_cm2 <= 20000))),
  constraint light_reading_not_ahead CHECK ((read_at <= (recorded_at + '00:01:00'::interval))),
  constraint light_reading_not_itself CHECK ((replaces_id <> id))
);

create table location (
  practice_id uuid not null,
  id uuid not null,
  name text not null,
  kind text not null,
  outside boolean not null generated always as ((kind = ANY (ARRAY['supplier'::text, 'used'::text, 'discarded'::text, 'returned'::text, 'lost'::text, 'count-difference'::text]))) stored,
  code text,
  constraint location_pk PRIMARY KEY (practice_id, id),
  constraint location_code_taken UNIQUE (practice_id, code),
  constraint location_name_taken UNIQUE (practice_id, name),
  constraint location_outside_key UNIQUE (practice_id, id, outside),
  constraint location_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id),
  constraint location_code_form CHECK ((code ~ '^L[1-9A-HJKMNP-TV-Z]{6}$'::text)),
  constraint location_kind_known CHECK ((kind = ANY (ARRAY['store'::text, 'refrigerator'::text, 'operatory'::text, 'quarantine'::text, 'supplier'::text, 'used'::text, 'discarded'::text, 'returned'::text, 'lost'::text, 'count-difference'::text]))),
  constraint location_name_filled CHECK (((length(TRIM(BOTH FROM name)) >= 1) AND (length(TRIM(BOTH FROM name)) <= 100)))
);

create table lot (
  practice_id uuid not null,
  id uuid not null,
  product_id uuid not null,
  lot text not null,
  lot_plain text not null,
  lot_look text not null,
  use_by date,
  use_by_precision text,
  created_at timestamp with time zone not null,
  constraint lot_pk PRIMARY KEY (practice_id, id),
  constraint lot_taken UNIQUE (practice_id, product_id, lot),
  constraint lot_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id),
  constraint lot_product_fk FOREIGN KEY (product_id) REFERENCES product(id),
  constraint lot_precision_known CHECK ((use_by_precision = ANY (ARRAY['day'::text, 'month'::text]))),
  constraint lot_text_length CHECK (((length(lot) >= 1) AND (length(lot) <= 40))),
  constraint lot_use_by_whole CHECK (((use_by IS NULL) = (use_by_precision IS NULL)))
);

create table membership (
  practice_id uuid not null,
  person_id uuid not null,
  role text not null,
  constraint membership_pk PRIMARY KEY (practice_id, person_id, role),
  constraint membership_person_fk FOREIGN KEY (person_id) REFERENCES person(id),
  constraint membership_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id),
  constraint membership_role_known CHECK ((role = ANY (ARRAY['assistant'::text, 'dentist'::text, 'office'::text, 'owner'::text])))
);

create table movement (
  practice_id uuid not null,
  id uuid not null,
  lot_id uuid not null,
  container_id uuid,
  from_location_id uuid not null,
  to_location_id uuid not null,
  quantity integer not null,
  reason text not null,
  note text not null default ''::text,
  occurred_at timestamp with time zone not null,
  recorded_at timestamp with time zone not null,
  person_id uuid not null,
  device_id uuid,
  reverses_id uuid,
  constraint movement_pk PRIMARY KEY (practice_id, id),
  constraint movement_reversed_once UNIQUE (practice_id, reverses_id),
  constraint movement_container_fk FOREIGN KEY (practice_id, container_id, lot_id) REFERENCES container(practice_id, id, lot_id),
  constraint movement_from_fk FOREIGN KEY (practice_id, from_location_id) REFERENCES location(practice_id, id),
  constraint movement_lot_fk FOREIGN KEY (practice_id, lot_id) REFERENCES lot(practice_id, id),
  constraint movement_reverses_fk FOREIGN KEY (practice_id, reverses_id) REFERENCES movement(practice_id, id),
  constraint movement_to_fk FOREIGN KEY (practice_id, to_location_id) REFERENCES location(practice_id, id),
  constraint movement_between_places CHECK ((from_location_id <> to_location_id)),
  constraint movement_container_single CHECK (((container_id IS NULL) OR (quantity = 1))),
  constraint movement_not_before_told CHECK ((occurred_at <= (recorded_at + '00:05:00'::interval))),
  constraint movement_quantity_positive CHECK (((quantity >= 1) AND (quantity <= 1000000))),
  constraint movement_reason_known CHECK ((reason = ANY (ARRAY['received'::text, 'put-away'::text, 'moved'::text, 'tray'::text, 'quarantined'::text, 'released'::text, 'used-up'::text, 'discarded'::text, 'returned'::text, 'lost'::text, 'counted'::text, 'reversed'::text]))),
  constraint movement_reversal_named CHECK (((reason = 'reversed'::text) = (reverses_id IS NOT NULL)))
);

create table organisation (
  id uuid not null,
  name text not null,
  constraint organisation_pk PRIMARY KEY (id),
  constraint organisation_name_filled CHECK (((length(TRIM(BOTH FROM name)) >= 1) AND (length(TRIM(BOTH FROM name)) <= 200)))
);

create table patient (
  practice_id uuid not null,
  id uuid not null,
  chart_number text not null,
  created_at timestamp with time zone not null,
  allergies text[] not null default '{}'::text[],
  constraint patient_pk PRIMARY KEY (practice_id, id) INCLUDE (chart_number),
  constraint patient_chart_number_taken UNIQUE (practice_id, chart_number),
  constraint patient_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id),
  constraint patient_allergies_known CHECK ((allergies <@ ARRAY['hema'::text, 'bis-gma'::text, 'udma'::text, 'tegdma'::text, 'mdp'::text, 'other-methacrylate'::text, 'eugenol'::text, 'silane'::text])),
  constraint patient_chart_number_length CHECK (((length(TRIM(BOTH FROM chart_number)) >= 1) AND (length(TRIM(BOTH FROM chart_number)) <= 40)))
);

create table person (
  id uuid not null,
  organisation_id uuid not null,
  display_name text not null,
  sign_in_name text not null,
  password_hash text not null,
  pin_hash text,
  active boolean not null default true,
  created_at timestamp with time zone not null,
  constraint person_pk PRIMARY KEY (id),
  constraint person_sign_in_name_taken UNIQUE (sign_in_name),
  constraint person_organisation_fk FOREIGN KEY (organisation_id) REFERENCES organisation(id),
  constraint person_display_name_filled CHECK (((length(TRIM(BOTH FROM display_name)) >= 1) AND (length(TRIM(BOTH FROM display_name)) <= 200))),
  constraint person_sign_in_name_form CHECK ((sign_in_name ~ '^[a-z0-9][a-z0-9._-]{1,63}$'::text))
);

create table practice (
  practice_id uuid not null,
  organisation_id uuid not null,
  name text not null,
  time_zone text not null,
  language text not null default 'en'::text,
  demonstration boolean not null default false,
  complete boolean not null default true,
  settings jsonb not null default '{}'::jsonb,
  container_counter bigint not null default 1,
  created_at timestamp with time zone not null,
  tooth_notation text not null default 'fdi'::text,
  constraint practice_pk PRIMARY KEY (practice_id),
  constraint practice_organisation_fk FOREIGN KEY (organisation_id) REFERENCES organisation(id),
  constraint practice_language_known CHECK ((language = ANY (ARRAY['en'::text, 'de'::text]))),
  constraint practice_name_filled CHECK (((length(TRIM(BOTH FROM name)) >= 1) AND (length(TRIM(BOTH FROM name)) <= 200))),
  constraint practice_tooth_notation_known CHECK ((tooth_notation = ANY (ARRAY['fdi'::text, 'universal'::text, 'palmer'::text])))
);

create table product (
  id uuid not null,
  organisation_id uuid not null,
  name text not null,
  labeler text not null default ''::text,
  kind text not null,
  solvents text[],
  strategy text,
  system_id uuid,
  contents text[] not null default '{}'::text[],
  in_use_count integer,
  in_use_unit text,
  application_seconds integer,
  air_dry_seconds integer,
  cure_seconds integer,
  radiant_exposure_j_cm2 numeric(6,2),
  storage_min_c numeric(4,1),
  storage_max_c numeric(4,1),
  single_use boolean not null default false,
  uses_per_container integer,
  ifu_version text not null default ''::text,
  version integer not null default 1,
  confirmed_version integer,
  confirmed_by uuid,
  confirmed_at timestamp with time zone,
  created_at timestamp with time zone not null,
  warm_up_minutes integer,
  drop_life_seconds integer,
  filler_percent numeric(4,1),
  modulus_gpa numeric(4,1),
  excursion_level text not null default 'caution'::text,
  constraint product_pk PRIMARY KEY (id),
  constraint product_name_taken UNIQUE (organisation_id, name),
  constraint product_confirmed_by_fk FOREIGN KEY (confirmed_by) REFERENCES person(id),
  constraint product_organisation_fk FOREIGN KEY (organisation_id) REFERENCES organisation(id),
  constraint product_system_fk FOREIGN KEY (system_id) REFERENCES bonding_system(id),
  constraint product_air_dry_range CHECK (((air_dry_seconds >= 0) AND (air_dry_seconds <= 3600))),
  constraint product_application_range CHECK (((application_seconds >= 0) AND (application_seconds <= 3600))),
  constraint product_confirmed_whole CHECK ((((confirmed_version IS NULL) = (confirmed_by IS NULL)) AND ((confirmed_version IS NULL) = (confirmed_at IS NULL)))),
  constraint product_cure_range CHECK (((cure_seconds >= 0) AND (cure_seconds <= 3600))),
  constraint product_drop_life_range CHECK (((drop_life_seconds >= 1) AND (drop_life_seconds <= 3600))),
  constraint product_excursion_level_known CHECK ((excursion_level = ANY (ARRAY['caution'::text, 'stop'::text]))),
  constraint product_exposure_positive CHECK ((radiant_exposure_j_cm2 > (0)::numeric)),
  constraint product_filler_range CHECK (((filler_percent >= (0)::numeric) AND (filler_percent <= (100)::numeric))),
  constraint product_in_use_positive CHECK ((in_use_count > 0)),
  constraint product_in_use_unit_known CHECK ((in_use_unit = ANY (ARRAY['day'::text, 'month'::text]))),
  constraint product_in_use_whole CHECK (((in_use_count IS NULL) = (in_use_unit IS NULL))),
  constraint product_kind_known CHECK ((kind = ANY (ARRAY['etchant'::text, 'primer'::text, 'adhesive'::text, 'universal-adhesive'::text, 'activator'::text, 'flowable'::text, 'composite'::text, 'glycerin-gel'::text, 'other-barrier'::text, 'separating-agent'::text, 'provisional-cement'::text, 'bonding-cement'::text, 'surface-cleaner'::text]))),
  constraint product_modulus_positive CHECK ((modulus_gpa > (0)::numeric)),
  constraint product_name_filled CHECK (((length(TRIM(BOTH FROM name)) >= 1) AND (length(TRIM(BOTH FROM name)) <= 200))),
  constraint product_solvents_known CHECK ((solvents <@ ARRAY['acetone'::text, 'ethanol'::text, 'tert-butanol'::text, 'water'::text])),
  constraint product_storage_order CHECK ((storage_min_c <= storage_max_c)),
  constraint product_strategy_known CHECK ((strategy = ANY (ARRAY['etch-and-rinse'::text, 'self-etch'::text, 'universal'::text]))),
  constraint product_uses_positive CHECK ((uses_per_container > 0)),
  constraint product_warm_up_range CHECK (((warm_up_minutes >= 1) AND (warm_up_minutes <= 1440)))
);

create table product_identifier (
  organisation_id uuid not null,
  scheme text not null,
  value text not null,
  product_id uuid not null,
  pack_level text not null default 'unit'::text,
  containers integer not null default 1,
  constraint product_identifier_taken PRIMARY KEY (organisation_id, scheme, value),
  constraint product_identifier_product_fk FOREIGN KEY (product_id) REFERENCES product(id),
  constraint product_identifier_containers_range CHECK (((containers >= 1) AND (containers <= 10000))),
  constraint product_identifier_filled CHECK (((length(value) >= 1) AND (length(value) <= 40))),
  constraint product_identifier_gtin_form CHECK (((scheme <> 'gs1-gtin'::text) OR (value ~ '^[0-9]{14}$'::text))),
  constraint product_identifier_level_known CHECK ((pack_level = ANY (ARRAY['unit'::text, 'box'::text, 'case'::text]))),
  constraint product_identifier_scheme_known CHECK ((scheme = ANY (ARRAY['gs1-gtin'::text, 'hibc'::text, 'ppn'::text])))
);

create table product_stock_rule (
  practice_id uuid not null,
  product_id uuid not null,
  reorder_uses integer not null,
  constraint product_stock_rule_pk PRIMARY KEY (practice_id, product_id),
  constraint product_stock_rule_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id),
  constraint product_stock_rule_product_fk FOREIGN KEY (product_id) REFERENCES product(id),
  constraint product_stock_rule_range CHECK (((reorder_uses >= 1) AND (reorder_uses <= 100000)))
);

create table record (
  practice_id uuid not null,
  id uuid not null,
  tray_id uuid not null,
  patient_id uuid not null,
  tooth text not null,
  technique_id uuid not null,
  visit text not null,
  state text not null,
  version integer not null default 1,
  supersedes_id uuid,
  verdict jsonb not null,
  started_by uuid not null,
  started_at timestamp with time zone not null,
  signed_by uuid,
  signed_at timestamp with time zone,
  canonical text,
  hash bytea,
  mode text,
  surfaces text not null default ''::text,
  seal_id uuid,
  amends text,
  amend_reason text,
  told_at timestamp with time zone,
  constraint record_pk PRIMARY KEY (practice_id, id) INCLUDE (state, visit),
  constraint record_tray_version_once UNIQUE (practice_id, tray_id, tooth, version),
  constraint record_patient_fk FOREIGN KEY (practice_id, patient_id) REFERENCES patient(practice_id, id),
  constraint record_seal_fk FOREIGN KEY (practice_id, seal_id) REFERENCES record(practice_id, id),
  constraint record_supersedes_fk FOREIGN KEY (practice_id, supersedes_id) REFERENCES record(practice_id, id),
  constraint record_technique_fk FOREIGN KEY (technique_id) REFERENCES technique(id),
  constraint record_tray_fk FOREIGN KEY (practice_id, tray_id) REFERENCES tray(practice_id, id),
  constraint record_amend_reason_given CHECK (((length(TRIM(BOTH FROM amend_reason)) >= 5) AND (length(TRIM(BOTH FROM amend_reason)) <= 2000))),
  constraint record_amendment_whole CHECK ((((version = 1) = (supersedes_id IS NULL)) AND ((version = 1) = (amends IS NULL)) AND ((version = 1) = (amend_reason IS NULL)))),
  constraint record_amends_known CHECK ((amends = ANY (ARRAY['addition'::text, 'correction'::text]))),
  constraint record_hash_true CHECK (((hash IS NULL) OR (hash = sha256(convert_to(canonical, 'UTF8'::name))))),
  constraint record_mode_known CHECK ((mode = ANY (ARRAY['self-etch'::text, 'selective-enamel-etch'::text, 'etch-and-rinse'::text]))),
  constraint record_seal_of_bonding CHECK (((seal_id IS NULL) OR (visit = 'bonding'::text))),
  constraint record_signature_whole CHECK ((((state = 'draft'::text) = (signed_by IS NULL)) AND ((state = 'draft'::text) = (signed_at IS NULL)) AND ((state = 'draft'::text) = (canonical IS NULL)) AND ((state = 'draft'::text) = (hash IS NULL)))),
  constraint record_state_known CHECK ((state = ANY (ARRAY['draft'::text, 'signed'::text, 'superseded'::text]))),
  constraint record_told_after CHECK (((told_at IS NULL) OR (told_at > started_at))),
  constraint record_version_positive CHECK ((version > 0)),
  constraint record_visit_known CHECK ((visit = ANY (ARRAY['sealing'::text, 'bonding'::text])))
);

create table record_event (
  practice_id uuid not null,
  record_id uuid not null,
  sequence integer not null,
  kind text not null,
  step_key text,
  facts jsonb not null default '{}'::jsonb,
  occurred_at timestamp with time zone not null,
  recorded_at timestamp with time zone not null,
  person_id uuid not null,
  constraint record_event_pk PRIMARY KEY (practice_id, record_id, sequence),
  constraint record_event_record_fk FOREIGN KEY (practice_id, record_id) REFERENCES record(practice_id, id),
  constraint record_event_kind_known CHECK ((kind = ANY (ARRAY['step-started'::text, 'part-started'::text, 'step-done'::text, 'step-left-out'::text, 'dispensed'::text, 'cure'::text, 'thickness'::text, 'material'::text, 'not-scanned'::text, 'deviation'::text, 'note'::text]))),
  constraint record_event_not_before_told CHECK ((occurred_at <= (recorded_at + '00:05:00'::interval)))
);

create table schema_migration (
  id integer not null default nextval('schema_migration_id_seq'::regclass),
  "timestamp" bigint not null,
  name character varying not null,
  constraint "PK_0edff5015b71cc0389ae0f4b9a1" PRIMARY KEY (id)
);

create table session (
  practice_id uuid not null,
  id uuid not null,
  person_id uuid not null,
  device_id uuid,
  token_hash bytea not null,
  created_at timestamp with time zone not null,
  last_seen_at timestamp with time zone not null,
  expires_at timestamp with time zone not null,
  ended_at timestamp with time zone,
  constraint session_pk PRIMARY KEY (practice_id, id),
  constraint session_token_unique UNIQUE (practice_id, token_hash),
  constraint session_device_fk FOREIGN KEY (practice_id, device_id) REFERENCES device(practice_id, id),
  constraint session_person_fk FOREIGN KEY (person_id) REFERENCES person(id),
  constraint session_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id)
);

create table sign_in_failure (
  subject text not null,
  at timestamp with time zone not null,
  id uuid not null,
  constraint sign_in_failure_pk PRIMARY KEY (subject, at, id)
);

create table step_material (
  practice_id uuid not null,
  id uuid not null,
  record_id uuid not null,
  step_key text not null,
  product_id uuid not null,
  lot_id uuid,
  container_id uuid,
  not_scanned_reason text,
  patient_id uuid not null,
  tooth text not null,
  used_at timestamp with time zone not null,
  person_id uuid not null,
  constraint step_material_pk PRIMARY KEY (practice_id, id),
  constraint step_material_container_fk FOREIGN KEY (practice_id, container_id, lot_id) REFERENCES container(practice_id, id, lot_id),
  constraint step_material_patient_fk FOREIGN KEY (practice_id, patient_id) REFERENCES patient(practice_id, id),
  constraint step_material_record_fk FOREIGN KEY (practice_id, record_id) REFERENCES record(practice_id, id),
  constraint step_material_scanned_or_reason CHECK ((((container_id IS NULL) = (not_scanned_reason IS NOT NULL)) AND ((container_id IS NULL) = (lot_id IS NULL))))
);

create table storage_excursion (
  practice_id uuid not null,
  id uuid not null,
  location_id uuid not null,
  from_at timestamp with time zone not null,
  to_at timestamp with time zone not null,
  lowest_c numeric(4,1),
  highest_c numeric(4,1),
  note text not null default ''::text,
  opened_by uuid not null,
  opened_at timestamp with time zone not null,
  resolved_by uuid,
  resolved_at timestamp with time zone,
  resolution text,
  constraint storage_excursion_pk PRIMARY KEY (practice_id, id),
  constraint storage_excursion_location_fk FOREIGN KEY (practice_id, location_id) REFERENCES location(practice_id, id),
  constraint storage_excursion_measured CHECK (((lowest_c IS NOT NULL) OR (highest_c IS NOT NULL))),
  constraint storage_excursion_order CHECK ((from_at < to_at)),
  constraint storage_excursion_over CHECK ((to_at <= (opened_at + '00:01:00'::interval))),
  constraint storage_excursion_range CHECK ((lowest_c <= highest_c)),
  constraint storage_excursion_resolution_given CHECK (((length(TRIM(BOTH FROM resolution)) >= 5) AND (length(TRIM(BOTH FROM resolution)) <= 2000))),
  constraint storage_excursion_resolved_whole CHECK ((((resolved_by IS NULL) = (resolved_at IS NULL)) AND ((resolved_by IS NULL) = (resolution IS NULL))))
);

create table technique (
  id uuid not null,
  organisation_id uuid not null,
  key text not null,
  version integer not null,
  name text not null,
  visit text not null,
  steps jsonb not null,
  starter boolean not null default false,
  retired boolean not null default false,
  created_at timestamp with time zone not null,
  created_by uuid,
  made_from uuid,
  confirmed_by uuid,
  confirmed_at timestamp with time zone,
  constraint technique_pk PRIMARY KEY (id),
  constraint technique_version_taken UNIQUE (organisation_id, key, version),
  constraint technique_confirmed_by_fk FOREIGN KEY (confirmed_by) REFERENCES person(id),
  constraint technique_created_by_fk FOREIGN KEY (created_by) REFERENCES person(id),
  constraint technique_made_from_fk FOREIGN KEY (made_from) REFERENCES technique(id),
  constraint technique_organisation_fk FOREIGN KEY (organisation_id) REFERENCES organisation(id),
  constraint technique_confirmed_whole CHECK (((confirmed_by IS NULL) = (confirmed_at IS NULL))),
  constraint technique_starter_unconfirmed CHECK (((NOT starter) OR (confirmed_at IS NULL))),
  constraint technique_steps_listed CHECK ((jsonb_typeof(steps) = 'array'::text)),
  constraint technique_version_positive CHECK ((version > 0)),
  constraint technique_visit_known CHECK ((visit = ANY (ARRAY['sealing'::text, 'bonding'::text])))
);

create table tray (
  practice_id uuid not null,
  id uuid not null,
  patient_id uuid not null,
  tooth text not null,
  technique_id uuid not null,
  location_id uuid not null,
  appointment_at timestamp with time zone not null,
  state text not null,
  created_by uuid not null,
  created_at timestamp with time zone not null,
  code text,
  bonding_on date,
  preferred jsonb not null default '{}'::jsonb,
  constraint tray_pk PRIMARY KEY (practice_id, id),
  constraint tray_code_taken UNIQUE (practice_id, code),
  constraint tray_location_fk FOREIGN KEY (practice_id, location_id) REFERENCES location(practice_id, id),
  constraint tray_patient_fk FOREIGN KEY (practice_id, patient_id) REFERENCES patient(practice_id, id),
  constraint tray_technique_fk FOREIGN KEY (technique_id) REFERENCES technique(id),
  constraint tray_code_form CHECK ((code ~ '^T[1-9A-HJKMNP-TV-Z]{6}$'::text)),
  constraint tray_preferred_by_step CHECK ((jsonb_typeof(preferred) = 'object'::text)),
  constraint tray_state_known CHECK ((state = ANY (ARRAY['planned'::text, 'setting'::text, 'ready'::text, 'in-use'::text, 'cleared'::text]))),
  constraint tray_tooth_form CHECK ((tooth ~ '^([1-4][1-8]|[5-8][1-5])S?$'::text))
);

create table tray_item (
  practice_id uuid not null,
  id uuid not null,
  tray_id uuid not null,
  container_id uuid,
  product_id uuid,
  step_key text,
  barcode text not null,
  scanned jsonb not null,
  placed_by uuid not null,
  placed_at timestamp with time zone not null,
  scanned_at timestamp with time zone,
  removed_by uuid,
  removed_at timestamp with time zone,
  constraint tray_item_pk PRIMARY KEY (practice_id, id),
  constraint tray_item_container_fk FOREIGN KEY (practice_id, container_id) REFERENCES container(practice_id, id),
  constraint tray_item_product_fk FOREIGN KEY (product_id) REFERENCES product(id),
  constraint tray_item_tray_fk FOREIGN KEY (practice_id, tray_id) REFERENCES tray(practice_id, id),
  constraint tray_item_removed_whole CHECK (((removed_by IS NULL) = (removed_at IS NULL)))
);

create table tray_template (
  practice_id uuid not null,
  id uuid not null,
  name text not null,
  technique_id uuid not null,
  location_id uuid not null,
  mode text,
  provisional text not null,
  undercut boolean not null,
  created_by uuid not null,
  created_at timestamp with time zone not null,
  constraint tray_template_pk PRIMARY KEY (practice_id, id),
  constraint tray_template_name_taken UNIQUE (practice_id, name),
  constraint tray_template_location_fk FOREIGN KEY (practice_id, location_id) REFERENCES location(practice_id, id),
  constraint tray_template_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id),
  constraint tray_template_technique_fk FOREIGN KEY (technique_id) REFERENCES technique(id),
  constraint tray_template_mode_known CHECK ((mode = ANY (ARRAY['self-etch'::text, 'selective-enamel-etch'::text, 'etch-and-rinse'::text]))),
  constraint tray_template_name_length CHECK (((length(TRIM(BOTH FROM name)) >= 1) AND (length(TRIM(BOTH FROM name)) <= 100))),
  constraint tray_template_provisional_known CHECK ((provisional = ANY (ARRAY['none'::text, 'resin'::text, 'other'::text])))
);

create table tray_template_product (
  practice_id uuid not null,
  template_id uuid not null,
  step_key text not null,
  product_id uuid not null,
  place integer not null,
  constraint tray_template_product_pk PRIMARY KEY (practice_id, template_id, step_key, product_id),
  constraint tray_template_product_place_once UNIQUE (practice_id, template_id, step_key, place),
  constraint tray_template_product_product_fk FOREIGN KEY (product_id) REFERENCES product(id),
  constraint tray_template_product_template_fk FOREIGN KEY (practice_id, template_id) REFERENCES tray_template(practice_id, id) ON DELETE CASCADE,
  constraint tray_template_product_place_range CHECK (((place >= 1) AND (place <= 20)))
);

create table tray_tooth (
  practice_id uuid not null,
  tray_id uuid not null,
  tooth text not null,
  place integer not null,
  mode text,
  provisional text not null default 'none'::text,
  undercut boolean not null default false,
  surfaces text not null default ''::text,
  restoration text,
  constraint tray_tooth_pk PRIMARY KEY (practice_id, tray_id, tooth),
  constraint tray_tooth_place_once UNIQUE (practice_id, tray_id, place),
  constraint tray_tooth_tray_fk FOREIGN KEY (practice_id, tray_id) REFERENCES tray(practice_id, id),
  constraint tray_tooth_known CHECK ((tooth ~ '^([1-4][1-8]|[5-8][1-5])S?$'::text)),
  constraint tray_tooth_mode_known CHECK ((mode = ANY (ARRAY['self-etch'::text, 'selective-enamel-etch'::text, 'etch-and-rinse'::text]))),
  constraint tray_tooth_place_range CHECK (((place >= 1) AND (place <= 32))),
  constraint tray_tooth_provisional_known CHECK ((provisional = ANY (ARRAY['none'::text, 'resin'::text, 'other'::text]))),
  constraint tray_tooth_restoration_known CHECK ((restoration = ANY (ARRAY['inlay'::text, 'onlay'::text, 'overlay'::text, 'partial-crown'::text, 'full-crown'::text, 'veneer'::text, 'endocrown'::text]))),
  constraint tray_tooth_surfaces_form CHECK ((surfaces ~ '^M?[OI]?D?[BF]?L?$'::text))
);

create table tray_verdict (
  practice_id uuid not null,
  tray_id uuid not null,
  verdict text not null,
  codes text[] not null,
  checked_at timestamp with time zone not null,
  constraint tray_verdict_pk PRIMARY KEY (practice_id, tray_id),
  constraint tray_verdict_tray_fk FOREIGN KEY (practice_id, tray_id) REFERENCES tray(practice_id, id),
  constraint tray_verdict_known CHECK ((verdict = ANY (ARRAY['clear'::text, 'caution'::text, 'stop'::text])))
);

create table verdict_change (
  practice_id uuid not null,
  id uuid not null,
  tray_id uuid not null,
  cause text not null,
  before text not null,
  after text not null,
  codes text[] not null,
  at timestamp with time zone not null,
  constraint verdict_change_pk PRIMARY KEY (practice_id, id),
  constraint verdict_change_tray_fk FOREIGN KEY (practice_id, tray_id) REFERENCES tray(practice_id, id),
  constraint verdict_change_after_known CHECK ((after = ANY (ARRAY['clear'::text, 'caution'::text, 'stop'::text]))),
  constraint verdict_change_before_known CHECK ((before = ANY (ARRAY['clear'::text, 'caution'::text, 'stop'::text]))),
  constraint verdict_change_is_one CHECK ((before <> after))
);

create table waiting_change (
  practice_id uuid not null,
  tray_id uuid not null,
  tooth text not null,
  sequence integer not null,
  waits boolean not null,
  reason text,
  note text not null,
  person_id uuid not null,
  at timestamp with time zone not null,
  constraint waiting_change_pk PRIMARY KEY (practice_id, tray_id, tooth, sequence),
  constraint waiting_change_tooth_fk FOREIGN KEY (practice_id, tray_id, tooth) REFERENCES tray_tooth(practice_id, tray_id, tooth),
  constraint waiting_change_alternates CHECK ((waits = ((sequence % 2) = 0))),
  constraint waiting_change_note_length CHECK ((length(note) <= 2000)),
  constraint waiting_change_other_said CHECK (((reason IS DISTINCT FROM 'other'::text) OR (length(TRIM(BOTH FROM note)) >= 3))),
  constraint waiting_change_reason_given CHECK ((waits = (reason IS NULL))),
  constraint waiting_change_reason_known CHECK ((reason = ANY (ARRAY['moved-away'::text, 'tooth-lost'::text, 'bonded-elsewhere'::text, 'other'::text]))),
  constraint waiting_change_sequence_positive CHECK ((sequence > 0))
);

create table withdrawal (
  practice_id uuid not null,
  id uuid not null,
  reference text not null,
  note text not null default ''::text,
  state text not null,
  received_by uuid not null,
  received_at timestamp with time zone not null,
  closed_by uuid,
  closed_at timestamp with time zone,
  summary text,
  constraint withdrawal_pk PRIMARY KEY (practice_id, id),
  constraint withdrawal_reference_taken UNIQUE (practice_id, reference),
  constraint withdrawal_practice_fk FOREIGN KEY (practice_id) REFERENCES practice(practice_id),
  constraint withdrawal_closed_whole CHECK ((((state = 'closed'::text) = (closed_at IS NOT NULL)) AND ((closed_at IS NULL) = (closed_by IS NULL)))),
  constraint withdrawal_reference_filled CHECK (((length(TRIM(BOTH FROM reference)) >= 1) AND (length(TRIM(BOTH FROM reference)) <= 200))),
  constraint withdrawal_state_known CHECK ((state = ANY (ARRAY['received'::text, 'tracing'::text, 'segregated'::text, 'contacting'::text, 'closed'::text])))
);

create table withdrawal_scope (
  practice_id uuid not null,
  withdrawal_id uuid not null,
  product_id uuid not null,
  lot text not null,
  constraint withdrawal_scope_pk PRIMARY KEY (practice_id, withdrawal_id, product_id, lot),
  constraint withdrawal_scope_product_fk FOREIGN KEY (product_id) REFERENCES product(id),
  constraint withdrawal_scope_withdrawal_fk FOREIGN KEY (practice_id, withdrawal_id) REFERENCES withdrawal(practice_id, id)
);

-- Indexes that are no constraint's own

CREATE INDEX balance_by_location ON public.balance USING btree (practice_id, location_id) WHERE (quantity <> 0);
CREATE INDEX container_by_location ON public.container USING btree (practice_id, location_id);
CREATE INDEX container_by_lot ON public.container USING btree (practice_id, lot_id);
CREATE UNIQUE INDEX container_serial_taken ON public.container USING btree (practice_id, product_id, serial) WHERE (serial IS NOT NULL);
CREATE INDEX finding_seen_by_time ON public.finding_seen USING btree (practice_id, first_seen_at);
CREATE INDEX idempotency_key_age ON public.idempotency_key USING btree (practice_id, created_at);
CREATE INDEX label_print_by_run ON public.label_print USING btree (practice_id, run_id) WHERE (run_id IS NOT NULL);
CREATE INDEX label_run_by_time ON public.label_run USING btree (practice_id, made_at);
CREATE INDEX light_reading_by_light ON public.light_reading USING btree (practice_id, light_id, mode, read_at);
CREATE UNIQUE INDEX location_outside_kind_once ON public.location USING btree (practice_id, kind) WHERE outside;
CREATE INDEX lot_by_look ON public.lot USING btree (practice_id, lot_look);
CREATE INDEX lot_by_text ON public.lot USING btree (practice_id, lot);
CREATE INDEX movement_by_container ON public.movement USING btree (practice_id, container_id, recorded_at) WHERE (container_id IS NOT NULL);
CREATE INDEX movement_by_lot ON public.movement USING btree (practice_id, lot_id, recorded_at);
CREATE INDEX product_identifier_product ON public.product_identifier USING btree (product_id);
CREATE INDEX record_bonded ON public.record USING btree (practice_id, seal_id) WHERE ((state = 'signed'::text) AND (seal_id IS NOT NULL));
CREATE INDEX record_by_patient ON public.record USING btree (practice_id, patient_id, tooth);
CREATE INDEX record_by_seal ON public.record USING btree (practice_id, seal_id) WHERE (seal_id IS NOT NULL);
CREATE INDEX record_by_start ON public.record USING btree (practice_id, started_at);
CREATE INDEX record_sealed ON public.record USING btree (practice_id, id) INCLUDE (tray_id, tooth, version, started_at, patient_id) WHERE ((visit = 'sealing'::text) AND (state = 'signed'::text));
CREATE UNIQUE INDEX record_signed_once ON public.record USING btree (practice_id, tray_id, tooth) WHERE (state = 'signed'::text);
CREATE INDEX step_material_by_lot ON public.step_material USING btree (practice_id, lot_id) INCLUDE (patient_id, record_id, container_id, tooth, step_key, used_at, id) WHERE (lot_id IS NOT NULL);
CREATE INDEX step_material_by_patient ON public.step_material USING btree (practice_id, patient_id) INCLUDE (record_id, lot_id, container_id, tooth, step_key, used_at);
CREATE INDEX step_material_by_record ON public.step_material USING btree (practice_id, record_id);
CREATE UNIQUE INDEX step_material_once ON public.step_material USING btree (practice_id, record_id, step_key, container_id) WHERE (container_id IS NOT NULL);
CREATE INDEX step_material_unscanned ON public.step_material USING btree (practice_id, product_id) WHERE (lot_id IS NULL);
CREATE INDEX storage_excursion_open ON public.storage_excursion USING btree (practice_id, location_id) WHERE (resolved_at IS NULL);
CREATE INDEX tray_by_time ON public.tray USING btree (practice_id, appointment_at);
CREATE INDEX tray_item_by_container ON public.tray_item USING btree (practice_id, container_id) WHERE (removed_at IS NULL);
CREATE INDEX tray_item_by_tray ON public.tray_item USING btree (practice_id, tray_id) WHERE (removed_at IS NULL);
CREATE UNIQUE INDEX tray_item_container_once ON public.tray_item USING btree (practice_id, tray_id, container_id) WHERE ((removed_at IS NULL) AND (container_id IS NOT NULL));
CREATE INDEX tray_open_by_patient ON public.tray USING btree (practice_id, patient_id) WHERE (state <> 'cleared'::text);
CREATE INDEX verdict_change_by_time ON public.verdict_change USING btree (practice_id, at);
CREATE INDEX withdrawal_scope_by_product ON public.withdrawal_scope USING btree (practice_id, product_id, lot);

-- Views

create view container_now with (security_invoker=true) as
 SELECT c.practice_id,
    c.id,
    c.code,
    c.serial,
    c.opened_on,
    c.created_at,
    l.id AS lot_id,
    l.lot,
    l.lot_look,
    l.use_by,
    l.use_by_precision,
    p.id AS product_id,
    p.name AS product_name,
    p.kind AS product_kind,
    p.in_use_count,
    p.in_use_unit,
    w.id AS location_id,
    w.name AS location_name,
    w.kind AS location_kind,
    w.outside,
    (LEAST((l.use_by)::timestamp without time zone, (c.opened_on +
        CASE p.in_use_unit
            WHEN 'day'::text THEN make_interval(days => p.in_use_count)
            WHEN 'month'::text THEN make_interval(months => p.in_use_count)
            ELSE NULL::interval
        END)))::date AS ends_on
   FROM (((container c
     JOIN lot l ON (((l.practice_id = c.practice_id) AND (l.id = c.lot_id))))
     JOIN product p ON ((p.id = c.product_id)))
     JOIN location w ON (((w.practice_id = c.practice_id) AND (w.id = c.location_id))));

-- Functions

CREATE OR REPLACE FUNCTION public.actor_organisation()
 RETURNS uuid
 LANGUAGE sql
 STABLE PARALLEL SAFE
AS $function$ select nullif(current_setting('app.organisation_id', true), '')::uuid $function$;

CREATE OR REPLACE FUNCTION public.actor_practice()
 RETURNS uuid
 LANGUAGE sql
 STABLE PARALLEL SAFE
AS $function$ select nullif(current_setting('app.practice_id', true), '')::uuid $function$;

CREATE OR REPLACE FUNCTION public.append_audit(practice uuid, person uuid, device uuid, at timestamp with time zone, action text, subject text, change text)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
declare e audit_entry;
begin
  if practice is distinct from actor_practice()
     or person::text is distinct from nullif(current_setting('app.person_id', true), '') then
    raise exception 'an audit entry is written by the actor' using errcode = '42501';
  end if;
  select h.sequence, h.hash into e.sequence, e.previous_hash
    from audit_head h where h.practice_id = practice for update;
  if not found then
    insert into audit_head (practice_id, sequence, hash)
      values (practice, 0, decode(repeat('00', 32), 'hex')) on conflict do nothing;
    select h.sequence, h.hash into e.sequence, e.previous_hash
      from audit_head h where h.practice_id = practice for update;
  end if;
  e.practice_id := practice; e.sequence := e.sequence + 1;
  e.at := date_trunc('milliseconds', at); e.person_id := person; e.device_id := device;
  e.action := action; e.subject := subject; e.change := change;
  e.hash := sha256(e.previous_hash || convert_to(audit_text(e), 'UTF8'));
  insert into audit_entry values (e.*);
  update audit_head h set sequence = e.sequence, hash = e.hash where h.practice_id = practice;
end $function$;

CREATE OR REPLACE FUNCTION public.audit_text(e audit_entry)
 RETURNS text
 LANGUAGE sql
 IMMUTABLE
 SET search_path TO 'pg_catalog'
AS $function$
  select e.practice_id::text || E'\n' || e.sequence::text || E'\n'
    || to_char(e.at at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') || E'\n'
    || coalesce(e.person_id::text, '') || E'\n' || coalesce(e.device_id::text, '') || E'\n'
    || e.action || E'\n' || e.subject || E'\n' || e.change
$function$;

CREATE OR REPLACE FUNCTION public.begin_command(practice uuid, organisation uuid, person uuid, device uuid, key text, operation text, fingerprint bytea, at timestamp with time zone)
 RETURNS TABLE(known boolean, same boolean, status integer, answer text)
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
begin
  perform set_actor(practice, organisation, person, device);
  insert into idempotency_key as k (practice_id, person_id, key, operation, fingerprint, created_at)
    values (practice, person, begin_command.key, begin_command.operation,
            begin_command.fingerprint, at)
    on conflict do nothing;
  if found then
    return query select false, true, null::integer, null::text;
  else
    return query select true,
        k.operation = begin_command.operation and k.fingerprint = begin_command.fingerprint,
        k.status, k.answer
      from idempotency_key k
      where k.practice_id = practice and k.person_id = person and k.key = begin_command.key;
  end if;
end $function$;

CREATE OR REPLACE FUNCTION public.check_code_once()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog'
AS $function$
begin
  if old.code is not null and new.code is distinct from old.code then
    raise exception 'a code that is given stays' using errcode = 'TB001';
  end if;
  return new;
end $function$;

CREATE OR REPLACE FUNCTION public.check_excursion_change()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
declare rest storage_excursion := new;
begin
  rest.resolved_by := old.resolved_by;
  rest.resolved_at := old.resolved_at;
  rest.resolution := old.resolution;
  if old.resolved_at is not null or rest is distinct from old then
    raise exception 'an excursion that is settled stays' using errcode = 'TB001';
  end if;
  return new;
end $function$;

CREATE OR REPLACE FUNCTION public.check_material()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
begin
  if not exists (select 1 from record r where r.practice_id = new.practice_id
                 and r.id = new.record_id and r.patient_id = new.patient_id
                 and r.tooth = new.tooth) then
    raise exception 'the record is for another patient or tooth'
      using errcode = '23514', constraint = 'step_material_as_its_record';
  end if;
  return new;
end $function$;

CREATE OR REPLACE FUNCTION public.check_new_container()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
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
end $function$;

CREATE OR REPLACE FUNCTION public.check_opening()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog'
AS $function$
begin
  if old.opened_on is not null and new.opened_on is distinct from old.opened_on then
    raise exception 'the opening date is already set'
      using errcode = '23514', constraint = 'container_opened_once';
  end if;
  return new;
end $function$;

CREATE OR REPLACE FUNCTION public.check_override()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
begin
  if new.person_id::text is distinct from current_setting('app.person_id', true)
     or not exists (select 1 from membership m where m.practice_id = new.practice_id
                    and m.person_id = new.person_id and m.role = 'dentist') then
    raise exception 'a stop is passed by a dentist in person'
      using errcode = '23514', constraint = 'finding_override_by_dentist';
  end if;
  return new;
end $function$;

CREATE OR REPLACE FUNCTION public.check_record_change()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
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
end $function$;

CREATE OR REPLACE FUNCTION public.check_record_draft()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
declare record_state text;
begin
  select r.state into record_state from record r
    where r.practice_id = new.practice_id and r.id = new.record_id for share;
  if record_state is distinct from 'draft' then
    raise exception 'the record is already signed'
      using errcode = '23514', constraint = 'record_is_draft';
  end if;
  return new;
end $function$;

CREATE OR REPLACE FUNCTION public.check_record_start()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
begin
  if new.state <> 'draft' then
    raise exception 'a record starts as a draft'
      using errcode = '23514', constraint = 'record_starts_as_draft';
  end if;
  if not exists (select 1 from tray t
                 join tray_tooth o on o.practice_id = t.practice_id and o.tray_id = t.id
                 where t.practice_id = new.practice_id and t.id = new.tray_id
                 and t.patient_id = new.patient_id and o.tooth = new.tooth
                 and t.technique_id = new.technique_id) then
    raise exception 'the tray is for another patient, tooth or technique'
      using errcode = '23514', constraint = 'record_as_its_tray';
  end if;
  if new.supersedes_id is not null and not exists (
      select 1 from record r where r.practice_id = new.practice_id and r.id = new.supersedes_id
      and r.tray_id = new.tray_id and r.tooth = new.tooth and r.version = new.version - 1
      and r.state = 'signed') then
    raise exception 'a later version follows the signed one before it'
      using errcode = '23514', constraint = 'record_follows_signed';
  end if;
  if new.seal_id is not null and not exists (
      select 1 from record r where r.practice_id = new.practice_id and r.id = new.seal_id
      and r.patient_id = new.patient_id and r.tooth = new.tooth and r.visit = 'sealing'
      and (r.state = 'signed' or r.state = 'superseded' and new.version > 1)) then
    raise exception 'the seal is of another tooth, or not signed'
      using errcode = '23514', constraint = 'record_seal_signed';
  end if;
  return new;
end $function$;

CREATE OR REPLACE FUNCTION public.check_reversal()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
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
end $function$;

CREATE OR REPLACE FUNCTION public.check_tray_open()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
declare
  tooth_row tray_tooth := case when tg_op = 'DELETE' then old else new end;
begin
  if not exists (select 1 from tray t where t.practice_id = tooth_row.practice_id
                 and t.id = tooth_row.tray_id and t.state in ('planned', 'setting', 'ready')) then
    raise exception 'the tray is in use or cleared'
      using errcode = '23514', constraint = 'tray_tooth_before_priming';
  end if;
  return tooth_row;
end $function$;

CREATE OR REPLACE FUNCTION public.check_visit_change()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
begin
  if old.state not in ('planned', 'setting', 'ready')
     and (new.tooth, new.technique_id, new.location_id, new.appointment_at)
       is distinct from (old.tooth, old.technique_id, old.location_id, old.appointment_at) then
    raise exception 'the tray is in use or cleared'
      using errcode = '23514', constraint = 'tray_before_priming';
  end if;
  return new;
end $function$;

CREATE OR REPLACE FUNCTION public.check_waiting_change()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
begin
  if new.sequence > 1 and not exists (
      select 1 from waiting_change c where c.practice_id = new.practice_id
      and c.tray_id = new.tray_id and c.tooth = new.tooth and c.sequence = new.sequence - 1) then
    raise exception 'an entry follows the one before it'
      using errcode = '23514', constraint = 'waiting_change_follows';
  end if;
  if not exists (select 1 from record r where r.practice_id = new.practice_id
                 and r.tray_id = new.tray_id and r.tooth = new.tooth and r.visit = 'sealing'
                 and r.state = 'signed') then
    raise exception 'no signed sealing of this tooth'
      using errcode = '23514', constraint = 'waiting_change_of_seal';
  end if;
  return new;
end $function$;

CREATE OR REPLACE FUNCTION public.create_first_practice(facts jsonb)
 RETURNS boolean
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
begin
  perform pg_advisory_xact_lock(hashtext('tubule first practice'));
  if exists (select 1 from practice) then return false; end if;
  insert into organisation (id, name)
    values ((facts->>'organisationId')::uuid, facts->>'practiceName');
  insert into practice (practice_id, organisation_id, name, time_zone, language, demonstration,
                        complete, created_at)
    values ((facts->>'practiceId')::uuid, (facts->>'organisationId')::uuid, facts->>'practiceName',
            facts->>'timeZone', facts->>'language', (facts->>'demonstration')::boolean,
            not (facts->>'demonstration')::boolean, (facts->>'at')::timestamptz);
  insert into person (id, organisation_id, display_name, sign_in_name, password_hash, created_at)
    values ((facts->>'personId')::uuid, (facts->>'organisationId')::uuid, facts->>'displayName',
            lower(facts->>'signInName'), facts->>'passwordHash', (facts->>'at')::timestamptz);
  insert into membership (practice_id, person_id, role)
    select (facts->>'practiceId')::uuid, (facts->>'personId')::uuid, r
    from jsonb_array_elements_text(facts->'roles') r;
  return true;
end $function$;

CREATE OR REPLACE FUNCTION public.find_device(practice uuid, token bytea)
 RETURNS TABLE(device_id uuid, organisation_id uuid, demonstration boolean)
 LANGUAGE sql
 STABLE SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
  select d.id, pr.organisation_id, pr.demonstration
  from device d join practice pr on pr.practice_id = d.practice_id
  where d.practice_id = practice and d.token_hash = token and d.revoked_at is null
$function$;

CREATE OR REPLACE FUNCTION public.find_installation()
 RETURNS TABLE(founded boolean, demonstration boolean, half_made boolean)
 LANGUAGE sql
 STABLE SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
  select count(*) > 0, coalesce(bool_or(demonstration), false),
         coalesce(bool_and(demonstration and not complete), false) from practice
$function$;

CREATE OR REPLACE FUNCTION public.find_session(practice uuid, token bytea)
 RETURNS TABLE(session_id uuid, organisation_id uuid, person_id uuid, device_id uuid, roles text[], last_seen_at timestamp with time zone, expires_at timestamp with time zone, time_zone text, language text)
 LANGUAGE sql
 STABLE SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
  select s.id, p.organisation_id, p.id, s.device_id,
         array(select m.role from membership m
               where m.practice_id = practice and m.person_id = p.id order by m.role),
         s.last_seen_at, s.expires_at, pr.time_zone, pr.language
  from session s
  join person p on p.id = s.person_id and p.active
  join practice pr on pr.practice_id = s.practice_id
  left join device d on d.practice_id = s.practice_id and d.id = s.device_id
  where s.practice_id = practice and s.token_hash = token and s.ended_at is null
    and d.revoked_at is null
$function$;

CREATE OR REPLACE FUNCTION public.find_sign_in(wanted text)
 RETURNS TABLE(practice_id uuid, organisation_id uuid, person_id uuid, password_hash text, demonstration boolean)
 LANGUAGE sql
 STABLE SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
  select m.practice_id, p.organisation_id, p.id, p.password_hash, pr.demonstration
  from person p
  join membership m on m.person_id = p.id
  join practice pr on pr.practice_id = m.practice_id
  where p.sign_in_name = lower(wanted) and p.active
  order by pr.created_at, m.practice_id limit 1
$function$;

CREATE OR REPLACE FUNCTION public.finish_command(practice uuid, person uuid, device uuid, at timestamp with time zone, entries jsonb, key text, status integer, answer text)
 RETURNS void
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
declare entry jsonb;
begin
  if practice is distinct from actor_practice() then
    raise exception 'a submission is ended by its actor' using errcode = '42501';
  end if;
  for entry in select value from jsonb_array_elements(entries) loop
    perform append_audit(practice, person, device, at,
                         entry->>'action', entry->>'subject', entry->>'change');
  end loop;
  update idempotency_key k set status = finish_command.status, answer = finish_command.answer
    where k.practice_id = practice and k.person_id = person and k.key = finish_command.key
      and k.status is null;
end $function$;

CREATE OR REPLACE FUNCTION public.keep_balance()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
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
end $function$;

CREATE OR REPLACE FUNCTION public.list_practices()
 RETURNS TABLE(practice_id uuid, organisation_id uuid, time_zone text, language text)
 LANGUAGE sql
 STABLE SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
  select p.practice_id, p.organisation_id, p.time_zone, p.language from practice p where p.complete
$function$;

CREATE OR REPLACE FUNCTION public.note_session_seen(practice uuid, seen_session uuid, at timestamp with time zone)
 RETURNS void
 LANGUAGE sql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
  update session set last_seen_at = at where practice_id = practice and id = seen_session
$function$;

CREATE OR REPLACE FUNCTION public.record_lacks(practice uuid, later uuid, earlier uuid)
 RETURNS boolean
 LANGUAGE sql
 STABLE
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
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
$function$;

CREATE OR REPLACE FUNCTION public.record_rows(practice uuid, wanted uuid)
 RETURNS text
 LANGUAGE sql
 STABLE
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
  select string_agg(line::text, E'\n' order by part, place collate "C") from (
    select 1 as part, '' as place,
           jsonb_build_array(r.practice_id, r.id, r.tray_id, r.patient_id, r.tooth, r.technique_id,
                             r.visit, r.version, r.supersedes_id, r.verdict, r.started_by,
                             extract(epoch from r.started_at))
           || case when r.mode is null and r.surfaces = '' and r.seal_id is null
                        and r.amends is null and r.told_at is null then '[]'::jsonb
                   else jsonb_build_array(r.mode, r.surfaces, r.seal_id, r.amends, r.amend_reason,
                                          extract(epoch from r.told_at)) end as line
      from record r where r.practice_id = practice and r.id = wanted
    union all
    select 2, to_char(v.sequence, '0000000000'),
           jsonb_build_array(v.sequence, v.kind, v.step_key, v.facts,
                             extract(epoch from v.occurred_at), extract(epoch from v.recorded_at),
                             v.person_id)
      from record_event v where v.practice_id = practice and v.record_id = wanted
    union all
    select 3, m.id::text,
           jsonb_build_array(m.id, m.step_key, m.product_id, m.lot_id, m.container_id,
                             m.not_scanned_reason, m.patient_id, m.tooth,
                             extract(epoch from m.used_at), m.person_id)
      from step_material m where m.practice_id = practice and m.record_id = wanted
  ) lines
$function$;

CREATE OR REPLACE FUNCTION public.refuse_change()
 RETURNS trigger
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog'
AS $function$
begin
  raise exception '% of % is refused: it is append-only', tg_op, tg_table_name
    using errcode = 'TB001', hint = 'Enter a correction instead.';
end $function$;

CREATE OR REPLACE FUNCTION public.set_actor(practice uuid, organisation uuid, person uuid, device uuid)
 RETURNS void
 LANGUAGE plpgsql
 SET search_path TO 'pg_catalog'
AS $function$
begin
  execute format('set local app.practice_id = %L', coalesce(practice::text, ''));
  execute format('set local app.organisation_id = %L', coalesce(organisation::text, ''));
  execute format('set local app.person_id = %L', coalesce(person::text, ''));
  execute format('set local app.device_id = %L', coalesce(device::text, ''));
end $function$;

CREATE OR REPLACE FUNCTION public.supersede_earlier()
 RETURNS trigger
 LANGUAGE plpgsql
 SECURITY DEFINER
 SET search_path TO 'pg_catalog', 'public', 'pg_temp'
AS $function$
begin
  update record set state = 'superseded'
    where practice_id = new.practice_id and id = new.supersedes_id;
  return null;
end $function$;

-- Triggers

CREATE TRIGGER audit_entry_append_only BEFORE DELETE OR UPDATE ON public.audit_entry FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER audit_entry_no_truncate BEFORE TRUNCATE ON public.audit_entry FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER container_new BEFORE INSERT ON public.container FOR EACH ROW EXECUTE FUNCTION check_new_container();
CREATE TRIGGER container_opening BEFORE UPDATE OF opened_on ON public.container FOR EACH ROW EXECUTE FUNCTION check_opening();
CREATE TRIGGER finding_override_append_only BEFORE DELETE OR UPDATE ON public.finding_override FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER finding_override_by_dentist BEFORE INSERT ON public.finding_override FOR EACH ROW EXECUTE FUNCTION check_override();
CREATE TRIGGER finding_override_no_truncate BEFORE TRUNCATE ON public.finding_override FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER finding_seen_append_only BEFORE DELETE OR UPDATE ON public.finding_seen FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER finding_seen_no_truncate BEFORE TRUNCATE ON public.finding_seen FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER label_print_append_only BEFORE DELETE OR UPDATE ON public.label_print FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER label_print_no_truncate BEFORE TRUNCATE ON public.label_print FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER label_print_outcome_append_only BEFORE DELETE OR UPDATE ON public.label_print_outcome FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER label_print_outcome_no_truncate BEFORE TRUNCATE ON public.label_print_outcome FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER label_run_append_only BEFORE DELETE OR UPDATE ON public.label_run FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER label_run_no_truncate BEFORE TRUNCATE ON public.label_run FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER label_run_subject_append_only BEFORE DELETE OR UPDATE ON public.label_run_subject FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER label_run_subject_no_truncate BEFORE TRUNCATE ON public.label_run_subject FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER light_reading_append_only BEFORE DELETE OR UPDATE ON public.light_reading FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER light_reading_no_truncate BEFORE TRUNCATE ON public.light_reading FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER location_code_once BEFORE UPDATE OF code ON public.location FOR EACH ROW EXECUTE FUNCTION check_code_once();
CREATE TRIGGER movement_append_only BEFORE DELETE OR UPDATE ON public.movement FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER movement_keeps_balance AFTER INSERT ON public.movement FOR EACH ROW EXECUTE FUNCTION keep_balance();
CREATE TRIGGER movement_no_truncate BEFORE TRUNCATE ON public.movement FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER movement_reversal BEFORE INSERT ON public.movement FOR EACH ROW WHEN ((new.reverses_id IS NOT NULL)) EXECUTE FUNCTION check_reversal();
CREATE TRIGGER record_frozen BEFORE DELETE OR UPDATE ON public.record FOR EACH ROW EXECUTE FUNCTION check_record_change();
CREATE TRIGGER record_no_truncate BEFORE TRUNCATE ON public.record FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER record_start BEFORE INSERT ON public.record FOR EACH ROW EXECUTE FUNCTION check_record_start();
CREATE TRIGGER record_supersedes AFTER INSERT ON public.record FOR EACH ROW WHEN ((new.supersedes_id IS NOT NULL)) EXECUTE FUNCTION supersede_earlier();
CREATE TRIGGER record_event_append_only BEFORE DELETE OR UPDATE ON public.record_event FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER record_event_draft BEFORE INSERT ON public.record_event FOR EACH ROW EXECUTE FUNCTION check_record_draft();
CREATE TRIGGER record_event_no_truncate BEFORE TRUNCATE ON public.record_event FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER step_material_append_only BEFORE DELETE OR UPDATE ON public.step_material FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER step_material_draft BEFORE INSERT ON public.step_material FOR EACH ROW EXECUTE FUNCTION check_record_draft();
CREATE TRIGGER step_material_no_truncate BEFORE TRUNCATE ON public.step_material FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER step_material_of_record BEFORE INSERT ON public.step_material FOR EACH ROW EXECUTE FUNCTION check_material();
CREATE TRIGGER storage_excursion_kept BEFORE DELETE ON public.storage_excursion FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER storage_excursion_no_truncate BEFORE TRUNCATE ON public.storage_excursion FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER storage_excursion_settled_once BEFORE UPDATE ON public.storage_excursion FOR EACH ROW EXECUTE FUNCTION check_excursion_change();
CREATE TRIGGER tray_before_priming BEFORE UPDATE ON public.tray FOR EACH ROW EXECUTE FUNCTION check_visit_change();
CREATE TRIGGER tray_code_once BEFORE UPDATE OF code ON public.tray FOR EACH ROW EXECUTE FUNCTION check_code_once();
CREATE TRIGGER tray_tooth_before_priming BEFORE INSERT OR DELETE OR UPDATE ON public.tray_tooth FOR EACH ROW EXECUTE FUNCTION check_tray_open();
CREATE TRIGGER tray_tooth_no_truncate BEFORE TRUNCATE ON public.tray_tooth FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER verdict_change_append_only BEFORE DELETE OR UPDATE ON public.verdict_change FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER verdict_change_no_truncate BEFORE TRUNCATE ON public.verdict_change FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER waiting_change_append_only BEFORE DELETE OR UPDATE ON public.waiting_change FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER waiting_change_follows BEFORE INSERT ON public.waiting_change FOR EACH ROW EXECUTE FUNCTION check_waiting_change();
CREATE TRIGGER waiting_change_no_truncate BEFORE TRUNCATE ON public.waiting_change FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

-- Row security

alter table audit_entry enable row level security;
alter table audit_head enable row level security;
alter table balance enable row level security;
alter table bonding_system enable row level security;
alter table container enable row level security;
alter table curing_light enable row level security;
alter table curing_light_mode enable row level security;
alter table delivery enable row level security;
alter table delivery_line enable row level security;
alter table device enable row level security;
alter table finding_override enable row level security;
alter table finding_seen enable row level security;
alter table idempotency_key enable row level security;
alter table label_print enable row level security;
alter table label_print_outcome enable row level security;
alter table label_printer enable row level security;
alter table label_run enable row level security;
alter table label_run_subject enable row level security;
alter table label_sheet enable row level security;
alter table light_reading enable row level security;
alter table location enable row level security;
alter table lot enable row level security;
alter table membership enable row level security;
alter table movement enable row level security;
alter table organisation enable row level security;
alter table patient enable row level security;
alter table person enable row level security;
alter table practice enable row level security;
alter table product enable row level security;
alter table product_identifier enable row level security;
alter table product_stock_rule enable row level security;
alter table record enable row level security;
alter table record_event enable row level security;
alter table session enable row level security;
alter table sign_in_failure enable row level security;
alter table step_material enable row level security;
alter table storage_excursion enable row level security;
alter table technique enable row level security;
alter table tray enable row level security;
alter table tray_item enable row level security;
alter table tray_template enable row level security;
alter table tray_template_product enable row level security;
alter table tray_tooth enable row level security;
alter table tray_verdict enable row level security;
alter table verdict_change enable row level security;
alter table waiting_change enable row level security;
alter table withdrawal enable row level security;
alter table withdrawal_scope enable row level security;

-- Policies

create policy audit_entry_own on audit_entry as permissive for all to public using ((practice_id = actor_practice()));
create policy audit_head_own on audit_head as permissive for all to public using ((practice_id = actor_practice()));
create policy balance_own on balance as permissive for all to public using ((practice_id = actor_practice()));
create policy bonding_system_own on bonding_system as permissive for all to public using ((organisation_id = actor_organisation()));
create policy container_own on container as permissive for all to public using ((practice_id = actor_practice()));
create policy curing_light_own on curing_light as permissive for all to public using ((practice_id = actor_practice()));
create policy curing_light_mode_own on curing_light_mode as permissive for all to public using ((practice_id = actor_practice()));
create policy delivery_own on delivery as permissive for all to public using ((practice_id = actor_practice()));
create policy delivery_line_own on delivery_line as permissive for all to public using ((practice_id = actor_practice()));
create policy device_own on device as permissive for all to public using ((practice_id = actor_practice()));
create policy finding_override_own on finding_override as permissive for all to public using ((practice_id = actor_practice()));
create policy finding_seen_own on finding_seen as permissive for all to public using ((practice_id = actor_practice()));
create policy idempotency_key_own on idempotency_key as permissive for all to public using ((practice_id = actor_practice()));
create policy label_print_own on label_print as permissive for all to public using ((practice_id = actor_practice()));
create policy label_print_outcome_own on label_print_outcome as permissive for all to public using ((practice_id = actor_practice()));
create policy label_printer_own on label_printer as permissive for all to public using ((practice_id = actor_practice()));
create policy label_run_own on label_run as permissive for all to public using ((practice_id = actor_practice()));
create policy label_run_subject_own on label_run_subject as permissive for all to public using ((practice_id = actor_practice()));
create policy label_sheet_own on label_sheet as permissive for all to public using ((practice_id = actor_practice()));
create policy light_reading_own on light_reading as permissive for all to public using ((practice_id = actor_practice()));
create policy location_own on location as permissive for all to public using ((practice_id = actor_practice()));
create policy lot_own on lot as permissive for all to public using ((practice_id = actor_practice()));
create policy membership_own on membership as permissive for all to public using ((practice_id = actor_practice()));
create policy movement_own on movement as permissive for all to public using ((practice_id = actor_practice()));
create policy organisation_own on organisation as permissive for all to public using ((id = actor_organisation()));
create policy patient_own on patient as permissive for all to public using ((practice_id = actor_practice()));
create policy person_own on person as permissive for all to public using ((organisation_id = actor_organisation()));
create policy practice_own on practice as permissive for all to public using ((practice_id = actor_practice()));
create policy product_own on product as permissive for all to public using ((organisation_id = actor_organisation()));
create policy product_identifier_own on product_identifier as permissive for all to public using ((organisation_id = actor_organisation()));
create policy product_stock_rule_own on product_stock_rule as permissive for all to public using ((practice_id = actor_practice()));
create policy record_own on record as permissive for all to public using ((practice_id = actor_practice()));
create policy record_event_own on record_event as permissive for all to public using ((practice_id = actor_practice()));
create policy session_own on session as permissive for all to public using ((practice_id = actor_practice()));
create policy sign_in_failure_any on sign_in_failure as permissive for all to public using (true);
create policy step_material_own on step_material as permissive for all to public using ((practice_id = actor_practice()));
create policy storage_excursion_own on storage_excursion as permissive for all to public using ((practice_id = actor_practice()));
create policy technique_own on technique as permissive for all to public using ((organisation_id = actor_organisation()));
create policy tray_own on tray as permissive for all to public using ((practice_id = actor_practice()));
create policy tray_item_own on tray_item as permissive for all to public using ((practice_id = actor_practice()));
create policy tray_template_own on tray_template as permissive for all to public using ((practice_id = actor_practice()));
create policy tray_template_product_own on tray_template_product as permissive for all to public using ((practice_id = actor_practice()));
create policy tray_tooth_own on tray_tooth as permissive for all to public using ((practice_id = actor_practice()));
create policy tray_verdict_own on tray_verdict as permissive for all to public using ((practice_id = actor_practice()));
create policy verdict_change_own on verdict_change as permissive for all to public using ((practice_id = actor_practice()));
create policy waiting_change_own on waiting_change as permissive for all to public using ((practice_id = actor_practice()));
create policy withdrawal_own on withdrawal as permissive for all to public using ((practice_id = actor_practice()));
create policy withdrawal_scope_own on withdrawal_scope as permissive for all to public using ((practice_id = actor_practice()));

-- Privileges of the application

grant usage on schema public to tubule_app;
grant select on audit_entry to tubule_app;
grant select on audit_head to tubule_app;
grant select on balance to tubule_app;
grant insert, select on bonding_system to tubule_app;
grant insert, select on container to tubule_app;
grant select on container_now to tubule_app;
grant insert, select on curing_light to tubule_app;
grant insert, select on curing_light_mode to tubule_app;
grant insert, select on delivery to tubule_app;
grant insert, select on delivery_line to tubule_app;
grant insert, select on device to tubule_app;
grant insert, select on finding_override to tubule_app;
grant insert, select on finding_seen to tubule_app;
grant insert, select on label_print to tubule_app;
grant insert, select on label_print_outcome to tubule_app;
grant delete, insert, select on label_printer to tubule_app;
grant insert, select on label_run to tubule_app;
grant insert, select on label_run_subject to tubule_app;
grant delete, insert, select on label_sheet to tubule_app;
grant insert, select on light_reading to tubule_app;
grant insert, select on location to tubule_app;
grant insert, select on lot to tubule_app;
grant delete, insert, select on membership to tubule_app;
grant insert, select on movement to tubule_app;
grant select on organisation to tubule_app;
grant insert, select on patient to tubule_app;
grant insert, select on person to tubule_app;
grant select on practice to tubule_app;
grant insert, select, update on product to tubule_app;
grant insert, select on product_identifier to tubule_app;
grant delete, insert, select on product_stock_rule to tubule_app;
grant insert, select on record to tubule_app;
grant insert, select on record_event to tubule_app;
grant insert, select on session to tubule_app;
grant delete, insert, select on sign_in_failure to tubule_app;
grant insert, select on step_material to tubule_app;
grant insert, select on storage_excursion to tubule_app;
grant insert, select on technique to tubule_app;
grant insert, select on tray to tubule_app;
grant insert, select on tray_item to tubule_app;
grant delete, insert, select on tray_template to tubule_app;
grant delete, insert, select on tray_template_product to tubule_app;
grant delete, insert, select on tray_tooth to tubule_app;
grant insert, select on tray_verdict to tubule_app;
grant insert, select on verdict_change to tubule_app;
grant insert, select on waiting_change to tubule_app;
grant insert, select on withdrawal to tubule_app;
grant insert, select on withdrawal_scope to tubule_app;
grant update (opened_on) on container to tubule_app;
grant update (name, serial, tip_tenth_mm, location_id, retired) on curing_light to tubule_app;
grant update (revoked_at, scanner_profile, scanner_set_up_at) on device to tubule_app;
grant update (name, host, port, dots_per_inch, label_width_um, label_height_um) on label_printer to tubule_app;
grant update (name, page_width_um, page_height_um, columns, rows, label_width_um, label_height_um, margin_left_um, margin_top_um, pitch_x_um, pitch_y_um) on label_sheet to tubule_app;
grant update (name, code) on location to tubule_app;
grant update (allergies) on patient to tubule_app;
grant update (display_name, password_hash, pin_hash, active) on person to tubule_app;
grant update (name, time_zone, language, complete, settings, container_counter, tooth_notation) on practice to tubule_app;
grant update (reorder_uses) on product_stock_rule to tubule_app;
grant update (state, signed_by, signed_at, canonical, hash) on record to tubule_app;
grant update (last_seen_at, ended_at) on session to tubule_app;
grant update (resolved_by, resolved_at, resolution) on storage_excursion to tubule_app;
grant update (retired, confirmed_by, confirmed_at) on technique to tubule_app;
grant update (tooth, technique_id, location_id, appointment_at, state, code, bonding_on) on tray to tubule_app;
grant update (removed_by, removed_at) on tray_item to tubule_app;
grant update (name, technique_id, location_id, mode, provisional, undercut) on tray_template to tubule_app;
grant update (place, mode, provisional, undercut, surfaces, restoration) on tray_tooth to tubule_app;
grant update (verdict, codes, checked_at) on tray_verdict to tubule_app;
grant update (state, closed_by, closed_at, summary) on withdrawal to tubule_app;
grant execute on function actor_organisation() to tubule_app;
grant execute on function actor_practice() to tubule_app;
grant execute on function append_audit(uuid,uuid,uuid,timestamp with time zone,text,text,text) to tubule_app;
grant execute on function audit_text(audit_entry) to tubule_app;
grant execute on function begin_command(uuid,uuid,uuid,uuid,text,text,bytea,timestamp with time zone) to tubule_app;
grant execute on function create_first_practice(jsonb) to tubule_app;
grant execute on function find_device(uuid,bytea) to tubule_app;
grant execute on function find_installation() to tubule_app;
grant execute on function find_session(uuid,bytea) to tubule_app;
grant execute on function find_sign_in(text) to tubule_app;
grant execute on function finish_command(uuid,uuid,uuid,timestamp with time zone,jsonb,text,integer,text) to tubule_app;
grant execute on function list_practices() to tubule_app;
grant execute on function note_session_seen(uuid,uuid,timestamp with time zone) to tubule_app;
grant execute on function record_rows(uuid,uuid) to tubule_app;
grant execute on function set_actor(uuid,uuid,uuid,uuid) to tubule_app;

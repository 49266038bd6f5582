-- How the scanner of a registered tablet is understood, for when its browser has forgotten.
-- Two columns that may stay empty: an exclusive lock on `device` for milliseconds.
set local citus.multi_shard_modify_mode = 'sequential';

alter table device add column scanner_profile jsonb;
alter table device add column scanner_set_up_at timestamptz;
-- `is true`: what has another form answers neither yes nor no.
alter table device add constraint device_scanner_profile_form check (
  scanner_profile is null or jsonb_path_match(scanner_profile, '
    $.gsTokens.type() == "array" && $.gsTokens.size() <= 4
    && !exists($.gsTokens[*] ? (@.type() != "string"))
    && $.prefix.type() == "string" && $.suffix.type() == "string"
    && ($.keyboard == "as-typed" || $.keyboard == "by-position")
    && ($.endKey == "Enter" || $.endKey == "Tab" || $.endKey == "either" || $.endKey == "none")
    && $.maxGapMs >= 10 && $.maxGapMs <= 60 && $.minKeys >= 4 && $.minKeys <= 12
  ', '{}', true) is true);
alter table device add constraint device_scanner_set_up_of_profile
  check (scanner_set_up_at is null or scanner_profile is not null);

grant update (scanner_profile, scanner_set_up_at) on device to tubule_app;

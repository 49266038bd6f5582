-- What a patient must not be touched by, as contents of products: asked of every tray.
-- One column with a default that is not written to the rows: an exclusive lock on `patient` for
-- milliseconds.
set local citus.multi_shard_modify_mode = 'sequential';

alter table patient add column allergies text[] not null default '{}';
alter table patient add constraint patient_allergies_known check (allergies <@ array[
  'hema', 'bis-gma', 'udma', 'tegdma', 'mdp', 'other-methacrylate', 'eugenol', 'silane']);
grant update (allergies) on patient to tubule_app;

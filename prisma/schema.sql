-- Written by `npm run schema` from the catalogs of a migrated database. For reading; never applied.

-- Tables
account (
  site_id text NOT NULL,
  id uuid NOT NULL,
  login text NOT NULL,
  name text NOT NULL,
  password_hash text NOT NULL,
  password_changed_at timestamp(3) with time zone NOT NULL,
  manager boolean NOT NULL DEFAULT false,
  demonstration boolean NOT NULL DEFAULT false,
  created_at timestamp(3) with time zone NOT NULL,
  disabled_at timestamp(3) with time zone
)
account_role (
  site_id text NOT NULL,
  account_id uuid NOT NULL,
  ward_id text NOT NULL,
  role text NOT NULL
)
alert (
  site_id text NOT NULL,
  id uuid NOT NULL,
  patient_id uuid NOT NULL,
  ward_id text NOT NULL,
  kind text NOT NULL,
  cause text NOT NULL,
  rank text NOT NULL,
  since timestamp(3) with time zone NOT NULL,
  facts jsonb NOT NULL,
  settings_version integer NOT NULL,
  raised_at timestamp(3) with time zone NOT NULL,
  owner_id uuid,
  owned_until timestamp(3) with time zone,
  snoozed_until timestamp(3) with time zone,
  escalated_to text,
  cleared_at timestamp(3) with time zone,
  cleared_by text,
  acknowledged_at timestamp(3) with time zone,
  clear_reason text,
  cleared_by_id uuid
)
assignment (
  site_id text NOT NULL,
  id uuid NOT NULL,
  patient_id uuid NOT NULL,
  ward_id text NOT NULL,
  account_id uuid,
  name text,
  from_at timestamp(3) with time zone NOT NULL,
  to_at timestamp(3) with time zone NOT NULL
)
audit (
  site_id text NOT NULL,
  id uuid NOT NULL,
  at timestamp(3) with time zone NOT NULL,
  account_id uuid,
  action text NOT NULL,
  ward_id text,
  patient_id uuid,
  address text,
  detail jsonb
)
bag_use (
  site_id text NOT NULL,
  id uuid NOT NULL,
  patient_id uuid NOT NULL,
  ward_id text NOT NULL,
  visit_id uuid NOT NULL,
  at timestamp(3) with time zone NOT NULL,
  filled boolean NOT NULL,
  solution_id text NOT NULL,
  labelled_ml integer NOT NULL,
  expires_on date,
  lot text,
  lot_key text,
  author_id uuid
)
bed (
  site_id text NOT NULL,
  ward_id text NOT NULL,
  id text NOT NULL,
  place integer NOT NULL,
  retired_at timestamp(3) with time zone
)
bedside (
  site_id text NOT NULL,
  patient_id uuid NOT NULL,
  ward_id text,
  bed text,
  version integer NOT NULL,
  fold_version integer NOT NULL,
  state json,
  next_change_at timestamp(3) with time zone
)
catheter_event (
  site_id text NOT NULL,
  id uuid NOT NULL,
  patient_id uuid NOT NULL,
  event text NOT NULL,
  at timestamp(3) with time zone NOT NULL,
  note text,
  break_in_limit_ml integer,
  break_in_until timestamp(3) with time zone,
  break_in_posture text
)
clinical_order (
  site_id text NOT NULL,
  id uuid NOT NULL,
  patient_id uuid NOT NULL,
  ward_id text NOT NULL,
  what text NOT NULL,
  content jsonb NOT NULL,
  note text,
  given_at timestamp(3) with time zone NOT NULL,
  given_by uuid,
  telephone_physician text,
  countersign_by timestamp(3) with time zone,
  countersigned_at timestamp(3) with time zone,
  countersigned_by uuid,
  ended_at timestamp(3) with time zone,
  ended text
)
delivery (
  site_id text NOT NULL,
  id uuid NOT NULL,
  ward_id text NOT NULL,
  target text NOT NULL,
  body jsonb NOT NULL,
  created_at timestamp(3) with time zone NOT NULL,
  next_try_at timestamp(3) with time zone,
  tries integer NOT NULL DEFAULT 0,
  delivered_at timestamp(3) with time zone,
  last_error text,
  tried_at timestamp(3) with time zone
)
demonstration (
  site_id text NOT NULL,
  seeded_at timestamp(3) with time zone NOT NULL
)
device_key (
  site_id text NOT NULL,
  account_id uuid NOT NULL,
  device_hash bytea NOT NULL,
  key bytea NOT NULL,
  made_at timestamp(3) with time zone NOT NULL
)
dialysis_period (
  site_id text NOT NULL,
  id uuid NOT NULL,
  patient_id uuid NOT NULL,
  modality text NOT NULL,
  started_at timestamp(3) with time zone NOT NULL,
  stopped_at timestamp(3) with time zone,
  note text
)
dwell (
  site_id text NOT NULL,
  id text NOT NULL,
  patient_id uuid NOT NULL,
  fill_ended_at timestamp(3) with time zone,
  drained_at timestamp(3) with time zone,
  filled_ml double precision,
  drained_ml double precision,
  drain_minus_fill_ml double precision,
  complete boolean NOT NULL,
  imported boolean NOT NULL,
  content jsonb NOT NULL
)
entry (
  site_id text NOT NULL,
  id uuid NOT NULL,
  ward_id text NOT NULL,
  position integer NOT NULL,
  patient_id uuid,
  sequence integer,
  visit_id uuid,
  kind text NOT NULL,
  format smallint NOT NULL,
  happened_at timestamp(3) with time zone NOT NULL,
  device_at timestamp(3) with time zone,
  received_at timestamp(3) with time zone NOT NULL,
  author_id uuid,
  after uuid,
  target uuid,
  content_digest bytea NOT NULL,
  digest bytea NOT NULL,
  released_by uuid
)
entry_payload (
  site_id text NOT NULL,
  entry_id uuid NOT NULL,
  salt bytea NOT NULL,
  bytes bytea NOT NULL
)
epoch (
  site_id text NOT NULL,
  epoch uuid NOT NULL,
  started_at timestamp(3) with time zone NOT NULL
)
import_row (
  site_id text NOT NULL,
  import_id uuid NOT NULL,
  line integer NOT NULL,
  id uuid NOT NULL,
  ward_id text NOT NULL,
  hospital_number text NOT NULL,
  started_at timestamp(3) with time zone NOT NULL,
  ended_at timestamp(3) with time zone NOT NULL,
  drains boolean NOT NULL,
  solution_id text,
  payload text NOT NULL,
  salt bytea NOT NULL
)
kept_batch (
  site_id text NOT NULL,
  id uuid NOT NULL,
  ward_id text NOT NULL,
  patient_id uuid,
  author_id uuid NOT NULL,
  device_hash bytea,
  device_at timestamp(3) with time zone NOT NULL,
  kept_at timestamp(3) with time zone NOT NULL,
  entries jsonb NOT NULL,
  problem jsonb NOT NULL
)
kept_batch_end (
  site_id text NOT NULL,
  batch_id uuid NOT NULL,
  ended_at timestamp(3) with time zone NOT NULL,
  ended_by uuid NOT NULL,
  how text NOT NULL,
  reason text,
  sent uuid[]
)
observation (
  site_id text NOT NULL,
  id uuid NOT NULL,
  patient_id uuid NOT NULL,
  ward_id text NOT NULL,
  visit_id uuid,
  kind text NOT NULL,
  at timestamp(3) with time zone NOT NULL,
  author_id uuid,
  weight_kg double precision,
  cavity text,
  systolic_mm_hg double precision,
  diastolic_mm_hg double precision,
  celsius double precision,
  glucose_mmol_per_l double precision,
  meter text,
  direction text,
  route text,
  volume_ml double precision,
  bowels_opened boolean,
  content jsonb NOT NULL
)
patient (
  site_id text NOT NULL,
  id uuid NOT NULL,
  hospital_number text NOT NULL,
  family text NOT NULL,
  given text NOT NULL,
  date_of_birth date NOT NULL,
  gender text NOT NULL,
  allergy text,
  isolation text,
  cautions text[],
  created_at timestamp(3) with time zone NOT NULL,
  erased_at timestamp(3) with time zone
)
prescription_item (
  site_id text NOT NULL,
  revision_id uuid NOT NULL,
  id text NOT NULL,
  place integer NOT NULL,
  solution_id text NOT NULL,
  fill_ml integer NOT NULL,
  additives jsonb NOT NULL,
  dwell jsonb NOT NULL,
  window_minutes integer NOT NULL,
  condition text
)
prescription_revision (
  site_id text NOT NULL,
  id uuid NOT NULL,
  patient_id uuid NOT NULL,
  ward_id text NOT NULL,
  number integer NOT NULL,
  limits jsonb NOT NULL,
  acute boolean NOT NULL,
  note text,
  review_by timestamp(3) with time zone,
  prescribed_at timestamp(3) with time zone NOT NULL,
  prescribed_by uuid
)
refused_entry (
  site_id text NOT NULL,
  id uuid NOT NULL,
  ward_id text NOT NULL,
  entry_id uuid NOT NULL,
  patient_id uuid,
  kind text NOT NULL,
  author_id uuid,
  device_at timestamp(3) with time zone,
  received_at timestamp(3) with time zone NOT NULL,
  draft jsonb NOT NULL,
  problems jsonb NOT NULL
)
session (
  site_id text NOT NULL,
  id uuid NOT NULL,
  account_id uuid NOT NULL,
  token_hash bytea NOT NULL,
  started_at timestamp(3) with time zone NOT NULL,
  last_seen_at timestamp(3) with time zone NOT NULL,
  locked_at timestamp(3) with time zone,
  ends_at timestamp(3) with time zone NOT NULL,
  ended_at timestamp(3) with time zone,
  address text,
  user_agent text
)
sign_in_attempt (
  site_id text NOT NULL,
  id uuid NOT NULL,
  login text NOT NULL,
  address text NOT NULL,
  at timestamp(3) with time zone NOT NULL,
  succeeded boolean NOT NULL
)
site (
  id text NOT NULL,
  name text NOT NULL,
  formulary_version integer NOT NULL DEFAULT 1
)
solution (
  site_id text NOT NULL,
  id text NOT NULL,
  label text NOT NULL,
  strength text NOT NULL,
  glucose_g_per_l double precision NOT NULL,
  icodextrin_g_per_l double precision NOT NULL,
  buffer text NOT NULL,
  calcium_mmol_per_l double precision NOT NULL,
  sodium_mmol_per_l double precision NOT NULL,
  bag_ml integer[],
  bag_excess_ml integer,
  chambers integer NOT NULL,
  place integer NOT NULL,
  retired_at timestamp(3) with time zone
)
stay (
  site_id text NOT NULL,
  id uuid NOT NULL,
  patient_id uuid NOT NULL,
  ward_id text NOT NULL,
  bed text NOT NULL,
  dialysis text NOT NULL,
  from_at timestamp(3) with time zone NOT NULL,
  to_at timestamp(3) with time zone,
  ended text
)
supplies (
  site_id text NOT NULL,
  version integer NOT NULL,
  products jsonb NOT NULL,
  recalls jsonb NOT NULL,
  ward_id text NOT NULL,
  entry_id uuid NOT NULL,
  from_at timestamp(3) with time zone NOT NULL
)
visit (
  site_id text NOT NULL,
  id uuid NOT NULL,
  patient_id uuid NOT NULL,
  ward_id text NOT NULL,
  purpose text NOT NULL,
  started_at timestamp(3) with time zone NOT NULL,
  started_by uuid,
  ended_at timestamp(3) with time zone,
  ended text
)
wall_display (
  site_id text NOT NULL,
  account_id uuid NOT NULL,
  made_by uuid NOT NULL,
  code_hash bytea,
  code_ends_at timestamp(3) with time zone NOT NULL,
  opened_at timestamp(3) with time zone
)
ward (
  site_id text NOT NULL,
  id text NOT NULL,
  name text NOT NULL,
  zone text NOT NULL,
  shift_starts text[],
  settings_version integer NOT NULL DEFAULT 1
)
ward_counter (
  site_id text NOT NULL,
  ward_id text NOT NULL,
  position integer NOT NULL DEFAULT 0,
  digest bytea NOT NULL
)
ward_settings (
  site_id text NOT NULL,
  ward_id text NOT NULL,
  version integer NOT NULL,
  settings jsonb NOT NULL,
  entry_id uuid,
  from_at timestamp(3) with time zone NOT NULL
)

-- Constraints
account: account_login_check CHECK (((login = lower(login)) AND (login <> ''::text)))
account: account_name_check CHECK ((name <> ''::text))
account: account_pkey PRIMARY KEY (site_id, id)
account: account_site_id_fkey FOREIGN KEY (site_id) REFERENCES site(id) ON UPDATE RESTRICT ON DELETE RESTRICT
account_role: account_role_pkey PRIMARY KEY (site_id, account_id, ward_id)
account_role: account_role_role_check CHECK ((role = ANY (ARRAY['nurse'::text, 'chargeNurse'::text, 'nephrologist'::text, 'manager'::text, 'wall'::text])))
account_role: account_role_site_id_account_id_fkey FOREIGN KEY (site_id, account_id) REFERENCES account(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
account_role: account_role_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
alert: alert_check CHECK (((cleared_at IS NULL) = (cleared_by IS NULL)))
alert: alert_check1 CHECK (((owner_id IS NULL) = (owned_until IS NULL)))
alert: alert_cleared_by_check CHECK ((cleared_by = ANY (ARRAY['condition'::text, 'person'::text])))
alert: alert_pkey PRIMARY KEY (site_id, id)
alert: alert_rank_check CHECK ((rank = ANY (ARRAY['high'::text, 'medium'::text, 'low'::text])))
alert: alert_site_id_patient_id_fkey FOREIGN KEY (site_id, patient_id) REFERENCES patient(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
alert: alert_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
assignment: assignment_check CHECK ((to_at > from_at))
assignment: assignment_pkey PRIMARY KEY (site_id, id)
assignment: assignment_site_id_patient_id_fkey FOREIGN KEY (site_id, patient_id) REFERENCES patient(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
assignment: assignment_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
audit: audit_pkey PRIMARY KEY (site_id, id)
audit: audit_site_id_fkey FOREIGN KEY (site_id) REFERENCES site(id) ON UPDATE RESTRICT ON DELETE RESTRICT
bag_use: bag_use_check CHECK (((lot IS NULL) = (lot_key IS NULL)))
bag_use: bag_use_labelled_ml_check CHECK ((labelled_ml > 0))
bag_use: bag_use_pkey PRIMARY KEY (site_id, id)
bag_use: bag_use_site_id_patient_id_fkey FOREIGN KEY (site_id, patient_id) REFERENCES patient(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
bag_use: bag_use_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
bed: bed_pkey PRIMARY KEY (site_id, ward_id, id)
bed: bed_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
bedside: bedside_check CHECK (((ward_id IS NULL) = (bed IS NULL)))
bedside: bedside_check1 CHECK (((version = 0) = (state IS NULL)))
bedside: bedside_pkey PRIMARY KEY (site_id, patient_id)
bedside: bedside_site_id_patient_id_fkey FOREIGN KEY (site_id, patient_id) REFERENCES patient(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
bedside: bedside_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
bedside: bedside_version_check CHECK ((version >= 0))
catheter_event: catheter_event_event_check CHECK ((event = ANY (ARRAY['inserted'::text, 'firstUse'::text, 'setChanged'::text, 'removed'::text])))
catheter_event: catheter_event_pkey PRIMARY KEY (site_id, id)
catheter_event: catheter_event_site_id_patient_id_fkey FOREIGN KEY (site_id, patient_id) REFERENCES patient(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
clinical_order: clinical_order_check CHECK (((ended_at IS NULL) = (ended IS NULL)))
clinical_order: clinical_order_check1 CHECK (((countersigned_at IS NULL) = (countersigned_by IS NULL)))
clinical_order: clinical_order_ended_check CHECK ((ended = ANY (ARRAY['done'::text, 'withdrawn'::text])))
clinical_order: clinical_order_pkey PRIMARY KEY (site_id, id)
clinical_order: clinical_order_site_id_patient_id_fkey FOREIGN KEY (site_id, patient_id) REFERENCES patient(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
clinical_order: clinical_order_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
delivery: delivery_check CHECK (((delivered_at IS NULL) OR (next_try_at IS NULL)))
delivery: delivery_pkey PRIMARY KEY (site_id, id)
delivery: delivery_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
delivery: delivery_tries_check CHECK ((tries >= 0))
demonstration: demonstration_pkey PRIMARY KEY (site_id)
demonstration: demonstration_site_id_fkey FOREIGN KEY (site_id) REFERENCES site(id) ON UPDATE RESTRICT ON DELETE RESTRICT
device_key: device_key_device_hash_check CHECK ((octet_length(device_hash) = 32))
device_key: device_key_key_check CHECK ((octet_length(key) = 32))
device_key: device_key_pkey PRIMARY KEY (site_id, account_id, device_hash)
device_key: device_key_site_id_account_id_fkey FOREIGN KEY (site_id, account_id) REFERENCES account(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
dialysis_period: dialysis_period_check CHECK ((stopped_at >= started_at))
dialysis_period: dialysis_period_modality_check CHECK ((modality = ANY (ARRAY['chronic'::text, 'acute'::text])))
dialysis_period: dialysis_period_pkey PRIMARY KEY (site_id, id)
dialysis_period: dialysis_period_site_id_patient_id_fkey FOREIGN KEY (site_id, patient_id) REFERENCES patient(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
dwell: dwell_drained_ml_check CHECK ((drained_ml >= (0)::double precision))
dwell: dwell_filled_ml_check CHECK ((filled_ml >= (0)::double precision))
dwell: dwell_pkey PRIMARY KEY (site_id, id)
dwell: dwell_site_id_patient_id_fkey FOREIGN KEY (site_id, patient_id) REFERENCES patient(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
entry: entry_check CHECK (((patient_id IS NULL) = (sequence IS NULL)))
entry: entry_check1 CHECK (((target IS NOT NULL) = (kind = ANY (ARRAY['corrected'::text, 'retracted'::text]))))
entry: entry_check2 CHECK (((octet_length(content_digest) = 32) AND (octet_length(digest) = 32)))
entry: entry_format_check CHECK ((format >= 1))
entry: entry_pkey PRIMARY KEY (site_id, id)
entry: entry_position_check CHECK (("position" >= 1))
entry: entry_sequence_check CHECK ((sequence >= 1))
entry: entry_site_id_author_id_fkey FOREIGN KEY (site_id, author_id) REFERENCES account(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
entry: entry_site_id_patient_id_fkey FOREIGN KEY (site_id, patient_id) REFERENCES patient(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
entry: entry_site_id_released_by_fkey FOREIGN KEY (site_id, released_by) REFERENCES account(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
entry: entry_site_id_target_fkey FOREIGN KEY (site_id, target) REFERENCES entry(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
entry: entry_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
entry_payload: entry_payload_pkey PRIMARY KEY (site_id, entry_id)
entry_payload: entry_payload_salt_check CHECK ((octet_length(salt) = 16))
entry_payload: entry_payload_site_id_entry_id_fkey FOREIGN KEY (site_id, entry_id) REFERENCES entry(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
epoch: epoch_pkey PRIMARY KEY (site_id)
epoch: epoch_site_id_fkey FOREIGN KEY (site_id) REFERENCES site(id) ON UPDATE RESTRICT ON DELETE RESTRICT
import_row: import_row_check CHECK ((ended_at >= started_at))
import_row: import_row_line_check CHECK ((line >= 2))
import_row: import_row_pkey PRIMARY KEY (site_id, import_id, line)
import_row: import_row_salt_check CHECK ((octet_length(salt) = 16))
kept_batch: kept_batch_entries_check CHECK (((jsonb_typeof(entries) = 'array'::text) AND (jsonb_array_length(entries) > 0)))
kept_batch: kept_batch_pkey PRIMARY KEY (site_id, id)
kept_batch: kept_batch_site_id_author_id_fkey FOREIGN KEY (site_id, author_id) REFERENCES account(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
kept_batch_end: kept_batch_end_check CHECK (((how = 'sent'::text) OR (reason IS NOT NULL)))
kept_batch_end: kept_batch_end_how_check CHECK ((how = ANY (ARRAY['sent'::text, 'discarded'::text])))
kept_batch_end: kept_batch_end_pkey PRIMARY KEY (site_id, batch_id)
kept_batch_end: kept_batch_end_site_id_batch_id_fkey FOREIGN KEY (site_id, batch_id) REFERENCES kept_batch(site_id, id) ON UPDATE RESTRICT ON DELETE CASCADE
kept_batch_end: kept_batch_end_site_id_ended_by_fkey FOREIGN KEY (site_id, ended_by) REFERENCES account(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
observation: observation_cavity_check CHECK ((cavity = ANY (ARRAY['full'::text, 'empty'::text])))
observation: observation_celsius_check CHECK (((celsius >= (30)::double precision) AND (celsius <= (43)::double precision)))
observation: observation_diastolic_mm_hg_check CHECK (((diastolic_mm_hg >= (20)::double precision) AND (diastolic_mm_hg <= (280)::double precision)))
observation: observation_direction_check CHECK ((direction = ANY (ARRAY['in'::text, 'out'::text])))
observation: observation_glucose_mmol_per_l_check CHECK (((glucose_mmol_per_l >= (0.5)::double precision) AND (glucose_mmol_per_l <= (60)::double precision)))
observation: observation_meter_check CHECK ((meter = ANY (ARRAY['glucoseSpecific'::text, 'other'::text])))
observation: observation_pkey PRIMARY KEY (site_id, id)
observation: observation_site_id_patient_id_fkey FOREIGN KEY (site_id, patient_id) REFERENCES patient(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
observation: observation_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
observation: observation_systolic_mm_hg_check CHECK (((systolic_mm_hg >= (20)::double precision) AND (systolic_mm_hg <= (280)::double precision)))
observation: observation_volume_ml_check CHECK ((volume_ml >= (0)::double precision))
observation: observation_weight_kg_check CHECK (((weight_kg >= (1)::double precision) AND (weight_kg <= (350)::double precision)))
patient: patient_cautions_check CHECK ((cautions IS NOT NULL))
patient: patient_date_of_birth_check CHECK (((date_of_birth >= '1880-01-01'::date) AND (date_of_birth <= '2200-01-01'::date)))
patient: patient_hospital_number_check CHECK ((hospital_number <> ''::text))
patient: patient_pkey PRIMARY KEY (site_id, id)
patient: patient_site_id_fkey FOREIGN KEY (site_id) REFERENCES site(id) ON UPDATE RESTRICT ON DELETE RESTRICT
prescription_item: prescription_item_fill_ml_check CHECK (((fill_ml >= 1) AND (fill_ml <= 5000)))
prescription_item: prescription_item_pkey PRIMARY KEY (site_id, revision_id, id)
prescription_item: prescription_item_place_check CHECK ((place >= 1))
prescription_item: prescription_item_site_id_revision_id_fkey FOREIGN KEY (site_id, revision_id) REFERENCES prescription_revision(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
prescription_item: prescription_item_site_id_solution_id_fkey FOREIGN KEY (site_id, solution_id) REFERENCES solution(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
prescription_item: prescription_item_window_minutes_check CHECK ((window_minutes >= 0))
prescription_revision: prescription_revision_number_check CHECK ((number >= 1))
prescription_revision: prescription_revision_pkey PRIMARY KEY (site_id, id)
prescription_revision: prescription_revision_site_id_patient_id_fkey FOREIGN KEY (site_id, patient_id) REFERENCES patient(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
prescription_revision: prescription_revision_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
refused_entry: refused_entry_pkey PRIMARY KEY (site_id, id)
refused_entry: refused_entry_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
session: session_check CHECK ((ends_at > started_at))
session: session_pkey PRIMARY KEY (site_id, id)
session: session_site_id_account_id_fkey FOREIGN KEY (site_id, account_id) REFERENCES account(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
session: session_token_hash_check CHECK ((octet_length(token_hash) = 32))
sign_in_attempt: sign_in_attempt_pkey PRIMARY KEY (site_id, id)
site: site_id_check CHECK ((id ~ '^[a-z0-9][a-z0-9-]{0,62}$'::text))
site: site_pkey PRIMARY KEY (id)
solution: solution_bag_ml_check CHECK ((cardinality(bag_ml) >= 1))
solution: solution_buffer_check CHECK ((buffer = ANY (ARRAY['lactate'::text, 'bicarbonate'::text, 'bicarbonate-lactate'::text])))
solution: solution_chambers_check CHECK ((chambers = ANY (ARRAY[1, 2, 3])))
solution: solution_glucose_g_per_l_check CHECK (((glucose_g_per_l >= (0)::double precision) AND (glucose_g_per_l <= (100)::double precision)))
solution: solution_icodextrin_g_per_l_check CHECK (((icodextrin_g_per_l >= (0)::double precision) AND (icodextrin_g_per_l <= (100)::double precision)))
solution: solution_pkey PRIMARY KEY (site_id, id)
solution: solution_site_id_fkey FOREIGN KEY (site_id) REFERENCES site(id) ON UPDATE RESTRICT ON DELETE RESTRICT
stay: stay_check CHECK (((to_at IS NULL) = (ended IS NULL)))
stay: stay_check1 CHECK ((to_at >= from_at))
stay: stay_dialysis_check CHECK ((dialysis = ANY (ARRAY['chronic'::text, 'acute'::text])))
stay: stay_ended_check CHECK ((ended = ANY (ARRAY['discharged'::text, 'transferred'::text])))
stay: stay_pkey PRIMARY KEY (site_id, id)
stay: stay_site_id_patient_id_fkey FOREIGN KEY (site_id, patient_id) REFERENCES patient(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
stay: stay_site_id_ward_id_bed_fkey FOREIGN KEY (site_id, ward_id, bed) REFERENCES bed(site_id, ward_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
stay: stay_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
supplies: supplies_pkey PRIMARY KEY (site_id, version)
supplies: supplies_site_id_fkey FOREIGN KEY (site_id) REFERENCES site(id) ON UPDATE RESTRICT ON DELETE RESTRICT
supplies: supplies_version_check CHECK ((version >= 2))
visit: visit_check CHECK (((ended_at IS NULL) = (ended IS NULL)))
visit: visit_check1 CHECK ((ended_at >= started_at))
visit: visit_ended_check CHECK ((ended = ANY (ARRAY['closed'::text, 'stopped'::text])))
visit: visit_pkey PRIMARY KEY (site_id, id)
visit: visit_purpose_check CHECK ((purpose = ANY (ARRAY['exchange'::text, 'drainOnly'::text, 'fillOnly'::text])))
visit: visit_site_id_patient_id_fkey FOREIGN KEY (site_id, patient_id) REFERENCES patient(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
visit: visit_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
wall_display: wall_display_check CHECK (((code_hash IS NULL) = (opened_at IS NOT NULL)))
wall_display: wall_display_code_hash_check CHECK ((octet_length(code_hash) = 32))
wall_display: wall_display_pkey PRIMARY KEY (site_id, account_id)
wall_display: wall_display_site_id_account_id_fkey FOREIGN KEY (site_id, account_id) REFERENCES account(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
wall_display: wall_display_site_id_made_by_fkey FOREIGN KEY (site_id, made_by) REFERENCES account(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
ward: ward_id_check CHECK ((id ~ '^[a-z0-9][a-z0-9-]{0,62}$'::text))
ward: ward_pkey PRIMARY KEY (site_id, id)
ward: ward_settings_version_check CHECK ((settings_version >= 1))
ward: ward_shift_starts_check CHECK (((cardinality(shift_starts) >= 1) AND (cardinality(shift_starts) <= 4)))
ward: ward_site_id_fkey FOREIGN KEY (site_id) REFERENCES site(id) ON UPDATE RESTRICT ON DELETE RESTRICT
ward_counter: ward_counter_digest_check CHECK ((octet_length(digest) = 32))
ward_counter: ward_counter_pkey PRIMARY KEY (site_id, ward_id)
ward_counter: ward_counter_position_check CHECK (("position" >= 0))
ward_counter: ward_counter_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
ward_settings: ward_settings_pkey PRIMARY KEY (site_id, ward_id, version)
ward_settings: ward_settings_site_id_ward_id_fkey FOREIGN KEY (site_id, ward_id) REFERENCES ward(site_id, id) ON UPDATE RESTRICT ON DELETE RESTRICT
ward_settings: ward_settings_version_check1 CHECK ((version >= 1))

-- Indexes
CREATE UNIQUE INDEX account_pkey ON public.account USING btree (site_id, id)
CREATE UNIQUE INDEX account_site_id_login_key ON public.account USING btree (site_id, login)
CREATE UNIQUE INDEX account_role_pkey ON public.account_role USING btree (site_id, account_id, ward_id)
CREATE INDEX account_role_site_id_ward_id_idx ON public.account_role USING btree (site_id, ward_id)
CREATE UNIQUE INDEX alert_one_open ON public.alert USING btree (site_id, patient_id, kind, cause) WHERE (cleared_at IS NULL)
CREATE UNIQUE INDEX alert_pkey ON public.alert USING btree (site_id, id)
CREATE INDEX alert_site_id_patient_id_raised_at_idx ON public.alert USING btree (site_id, patient_id, raised_at)
CREATE INDEX alert_site_id_ward_id_cleared_at_idx ON public.alert USING btree (site_id, ward_id, cleared_at)
CREATE INDEX alert_site_id_ward_id_raised_at_idx ON public.alert USING btree (site_id, ward_id, raised_at)
CREATE UNIQUE INDEX assignment_pkey ON public.assignment USING btree (site_id, id)
CREATE INDEX assignment_site_id_patient_id_from_at_idx ON public.assignment USING btree (site_id, patient_id, from_at)
CREATE INDEX assignment_site_id_ward_id_from_at_idx ON public.assignment USING btree (site_id, ward_id, from_at)
CREATE UNIQUE INDEX audit_pkey ON public.audit USING btree (site_id, id)
CREATE INDEX audit_site_id_account_id_at_idx ON public.audit USING btree (site_id, account_id, at)
CREATE INDEX audit_site_id_action_at_idx ON public.audit USING btree (site_id, action, at)
CREATE INDEX audit_site_id_at_idx ON public.audit USING btree (site_id, at)
CREATE INDEX audit_site_id_patient_id_at_idx ON public.audit USING btree (site_id, patient_id, at)
CREATE INDEX audit_site_id_ward_id_at_idx ON public.audit USING btree (site_id, ward_id, at)
CREATE INDEX bag_use_lot_unread ON public.bag_use USING btree (site_id, ward_id, at) WHERE (filled AND (lot_key IS NULL))
CREATE UNIQUE INDEX bag_use_pkey ON public.bag_use USING btree (site_id, id)
CREATE INDEX bag_use_site_id_lot_key_at_idx ON public.bag_use USING btree (site_id, lot_key, at)
CREATE INDEX bag_use_site_id_patient_id_idx ON public.bag_use USING btree (site_id, patient_id)
CREATE UNIQUE INDEX bed_pkey ON public.bed USING btree (site_id, ward_id, id)
CREATE INDEX bedside_next_change ON public.bedside USING btree (site_id, next_change_at) WHERE (next_change_at IS NOT NULL)
CREATE UNIQUE INDEX bedside_pkey ON public.bedside USING btree (site_id, patient_id)
CREATE INDEX bedside_site_id_ward_id_idx ON public.bedside USING btree (site_id, ward_id)
CREATE UNIQUE INDEX catheter_event_pkey ON public.catheter_event USING btree (site_id, id)
CREATE INDEX catheter_event_site_id_patient_id_at_idx ON public.catheter_event USING btree (site_id, patient_id, at)
CREATE UNIQUE INDEX clinical_order_pkey ON public.clinical_order USING btree (site_id, id)
CREATE INDEX clinical_order_site_id_patient_id_given_at_idx ON public.clinical_order USING btree (site_id, patient_id, given_at)
CREATE UNIQUE INDEX delivery_pkey ON public.delivery USING btree (site_id, id)
CREATE INDEX delivery_site_id_target_created_at_idx ON public.delivery USING btree (site_id, target, created_at)
CREATE INDEX delivery_waiting ON public.delivery USING btree (site_id, target, next_try_at) WHERE (next_try_at IS NOT NULL)
CREATE UNIQUE INDEX demonstration_pkey ON public.demonstration USING btree (site_id)
CREATE UNIQUE INDEX device_key_pkey ON public.device_key USING btree (site_id, account_id, device_hash)
CREATE UNIQUE INDEX dialysis_period_one_open ON public.dialysis_period USING btree (site_id, patient_id) WHERE (stopped_at IS NULL)
CREATE UNIQUE INDEX dialysis_period_pkey ON public.dialysis_period USING btree (site_id, id)
CREATE INDEX dialysis_period_site_id_patient_id_started_at_idx ON public.dialysis_period USING btree (site_id, patient_id, started_at)
CREATE UNIQUE INDEX dwell_pkey ON public.dwell USING btree (site_id, id)
CREATE INDEX dwell_site_id_patient_id_drained_at_idx ON public.dwell USING btree (site_id, patient_id, drained_at)
CREATE UNIQUE INDEX entry_pkey ON public.entry USING btree (site_id, id)
CREATE UNIQUE INDEX entry_replaced_once ON public.entry USING btree (site_id, target) WHERE (target IS NOT NULL)
CREATE UNIQUE INDEX entry_site_id_patient_id_sequence_key ON public.entry USING btree (site_id, patient_id, sequence)
CREATE UNIQUE INDEX entry_site_id_ward_id_position_key ON public.entry USING btree (site_id, ward_id, "position")
CREATE INDEX entry_standing ON public.entry USING btree (site_id, patient_id, sequence) WHERE (kind = ANY (ARRAY['admitted'::text, 'transferredOut'::text, 'transferredIn'::text, 'movedBed'::text, 'discharged'::text, 'catheter'::text, 'dialysisPeriod'::text, 'prescribed'::text, 'ordered'::text, 'countersigned'::text, 'orderEnded'::text, 'corrected'::text, 'retracted'::text]))
CREATE UNIQUE INDEX entry_payload_pkey ON public.entry_payload USING btree (site_id, entry_id)
CREATE UNIQUE INDEX epoch_pkey ON public.epoch USING btree (site_id)
CREATE UNIQUE INDEX import_row_pkey ON public.import_row USING btree (site_id, import_id, line)
CREATE UNIQUE INDEX kept_batch_pkey ON public.kept_batch USING btree (site_id, id)
CREATE INDEX kept_batch_site_id_author_id_idx ON public.kept_batch USING btree (site_id, author_id)
CREATE INDEX kept_batch_site_id_ward_id_idx ON public.kept_batch USING btree (site_id, ward_id)
CREATE UNIQUE INDEX kept_batch_end_pkey ON public.kept_batch_end USING btree (site_id, batch_id)
CREATE UNIQUE INDEX observation_pkey ON public.observation USING btree (site_id, id)
CREATE INDEX observation_site_id_patient_id_kind_at_idx ON public.observation USING btree (site_id, patient_id, kind, at)
CREATE UNIQUE INDEX patient_pkey ON public.patient USING btree (site_id, id)
CREATE INDEX patient_site_id_family_given_idx ON public.patient USING btree (site_id, family, given)
CREATE UNIQUE INDEX patient_site_id_hospital_number_key ON public.patient USING btree (site_id, hospital_number)
CREATE UNIQUE INDEX prescription_item_pkey ON public.prescription_item USING btree (site_id, revision_id, id)
CREATE UNIQUE INDEX prescription_revision_pkey ON public.prescription_revision USING btree (site_id, id)
CREATE INDEX prescription_revision_site_id_patient_id_number_idx ON public.prescription_revision USING btree (site_id, patient_id, number)
CREATE UNIQUE INDEX refused_entry_pkey ON public.refused_entry USING btree (site_id, id)
CREATE INDEX refused_entry_site_id_ward_id_received_at_idx ON public.refused_entry USING btree (site_id, ward_id, received_at)
CREATE UNIQUE INDEX session_pkey ON public.session USING btree (site_id, id)
CREATE INDEX session_site_id_account_id_idx ON public.session USING btree (site_id, account_id)
CREATE UNIQUE INDEX session_site_id_token_hash_key ON public.session USING btree (site_id, token_hash)
CREATE UNIQUE INDEX sign_in_attempt_pkey ON public.sign_in_attempt USING btree (site_id, id)
CREATE INDEX sign_in_attempt_site_id_address_at_idx ON public.sign_in_attempt USING btree (site_id, address, at)
CREATE INDEX sign_in_attempt_site_id_login_at_idx ON public.sign_in_attempt USING btree (site_id, login, at)
CREATE UNIQUE INDEX site_pkey ON public.site USING btree (id)
CREATE UNIQUE INDEX solution_pkey ON public.solution USING btree (site_id, id)
CREATE UNIQUE INDEX stay_one_in_bed ON public.stay USING btree (site_id, ward_id, bed) WHERE (to_at IS NULL)
CREATE UNIQUE INDEX stay_one_open ON public.stay USING btree (site_id, patient_id) WHERE (to_at IS NULL)
CREATE UNIQUE INDEX stay_pkey ON public.stay USING btree (site_id, id)
CREATE INDEX stay_site_id_patient_id_from_at_idx ON public.stay USING btree (site_id, patient_id, from_at)
CREATE UNIQUE INDEX supplies_pkey ON public.supplies USING btree (site_id, version)
CREATE UNIQUE INDEX visit_one_open ON public.visit USING btree (site_id, patient_id) WHERE (ended_at IS NULL)
CREATE UNIQUE INDEX visit_pkey ON public.visit USING btree (site_id, id)
CREATE INDEX visit_site_id_patient_id_started_at_idx ON public.visit USING btree (site_id, patient_id, started_at)
CREATE UNIQUE INDEX wall_display_pkey ON public.wall_display USING btree (site_id, account_id)
CREATE UNIQUE INDEX wall_display_site_id_code_hash_key ON public.wall_display USING btree (site_id, code_hash)
CREATE UNIQUE INDEX ward_pkey ON public.ward USING btree (site_id, id)
CREATE UNIQUE INDEX ward_counter_pkey ON public.ward_counter USING btree (site_id, ward_id)
CREATE UNIQUE INDEX ward_settings_pkey ON public.ward_settings USING btree (site_id, ward_id, version)

-- Triggers
CREATE TRIGGER append_only BEFORE DELETE OR UPDATE OR TRUNCATE ON public.audit FOR EACH STATEMENT EXECUTE FUNCTION refuse_change() (enabled A)
CREATE TRIGGER append_only BEFORE DELETE OR UPDATE OR TRUNCATE ON public.entry FOR EACH STATEMENT EXECUTE FUNCTION refuse_change() (enabled A)
CREATE TRIGGER append_only BEFORE UPDATE OR TRUNCATE ON public.entry_payload FOR EACH STATEMENT EXECUTE FUNCTION refuse_change() (enabled A)
CREATE TRIGGER append_only BEFORE UPDATE OR TRUNCATE ON public.kept_batch FOR EACH STATEMENT EXECUTE FUNCTION refuse_change() (enabled A)
CREATE TRIGGER append_only BEFORE UPDATE OR TRUNCATE ON public.kept_batch_end FOR EACH STATEMENT EXECUTE FUNCTION refuse_change() (enabled A)
CREATE TRIGGER append_only BEFORE UPDATE OR TRUNCATE ON public.refused_entry FOR EACH STATEMENT EXECUTE FUNCTION refuse_change() (enabled A)

-- Functions
CREATE OR REPLACE FUNCTION public.chain_digests(head bytea, before integer, received timestamp with time zone, links bytea[])
 RETURNS bytea[]
 LANGUAGE plpgsql
 IMMUTABLE PARALLEL SAFE STRICT
AS $function$
DECLARE
  digests bytea[] := '{}';
  received_ms bytea := int8send((extract(epoch FROM received) * 1000)::bigint);
BEGIN
  FOR i IN 1 .. cardinality(links) LOOP
    head := sha256(head || links[i] || int8send((before + i)::bigint) || received_ms);
    digests[i] := head;
  END LOOP;
  RETURN digests;
END $function$

CREATE OR REPLACE FUNCTION public.refuse_change()
 RETURNS trigger
 LANGUAGE plpgsql
AS $function$
BEGIN
  RAISE EXCEPTION '% on % is refused: the table is append-only. Record a correction or a retraction instead.',
    TG_OP, TG_TABLE_NAME USING ERRCODE = 'insufficient_privilege';
END $function$


-- Grants
_prisma_migrations: SELECT to slackwater_app
account: INSERT, SELECT, UPDATE to slackwater_app
account_role: DELETE, INSERT, SELECT, UPDATE to slackwater_app
account_role: SELECT to slackwater_reader
alert: DELETE, INSERT, SELECT, UPDATE to slackwater_app
alert: SELECT to slackwater_reader
assignment: DELETE, INSERT, SELECT, UPDATE to slackwater_app
assignment: SELECT to slackwater_reader
audit: INSERT, SELECT to slackwater_app
audit: SELECT to slackwater_reader
bag_use: DELETE, INSERT, SELECT, UPDATE to slackwater_app
bag_use: SELECT to slackwater_reader
bed: INSERT, SELECT, UPDATE to slackwater_app
bed: SELECT to slackwater_reader
bedside: INSERT, SELECT, UPDATE to slackwater_app
bedside: SELECT to slackwater_reader
catheter_event: DELETE, INSERT, SELECT, UPDATE to slackwater_app
catheter_event: SELECT to slackwater_reader
clinical_order: DELETE, INSERT, SELECT, UPDATE to slackwater_app
clinical_order: SELECT to slackwater_reader
delivery: DELETE, INSERT, SELECT, UPDATE to slackwater_app
demonstration: INSERT, SELECT, UPDATE to slackwater_app
demonstration: SELECT to slackwater_reader
device_key: INSERT, SELECT to slackwater_app
dialysis_period: DELETE, INSERT, SELECT, UPDATE to slackwater_app
dialysis_period: SELECT to slackwater_reader
dwell: DELETE, INSERT, SELECT, UPDATE to slackwater_app
dwell: SELECT to slackwater_reader
entry: INSERT, SELECT to slackwater_app
entry: SELECT to slackwater_reader
entry_payload: INSERT, SELECT to slackwater_app
entry_payload: SELECT to slackwater_reader
epoch: INSERT, SELECT to slackwater_app
epoch: SELECT to slackwater_reader
import_row: DELETE, INSERT, SELECT to slackwater_app
kept_batch: INSERT, SELECT to slackwater_app
kept_batch: SELECT to slackwater_reader
kept_batch_end: INSERT, SELECT to slackwater_app
kept_batch_end: SELECT to slackwater_reader
observation: DELETE, INSERT, SELECT, UPDATE to slackwater_app
observation: SELECT to slackwater_reader
patient: INSERT, SELECT, UPDATE to slackwater_app
patient: SELECT to slackwater_reader
prescription_item: DELETE, INSERT, SELECT, UPDATE to slackwater_app
prescription_item: SELECT to slackwater_reader
prescription_revision: DELETE, INSERT, SELECT, UPDATE to slackwater_app
prescription_revision: SELECT to slackwater_reader
refused_entry: INSERT, SELECT to slackwater_app
refused_entry: SELECT to slackwater_reader
session: DELETE, INSERT, SELECT, UPDATE to slackwater_app
sign_in_attempt: DELETE, INSERT, SELECT to slackwater_app
site: INSERT, SELECT to slackwater_app
site: SELECT to slackwater_reader
solution: INSERT, SELECT, UPDATE to slackwater_app
solution: SELECT to slackwater_reader
stay: DELETE, INSERT, SELECT, UPDATE to slackwater_app
stay: SELECT to slackwater_reader
supplies: INSERT, SELECT to slackwater_app
supplies: SELECT to slackwater_reader
visit: DELETE, INSERT, SELECT, UPDATE to slackwater_app
visit: SELECT to slackwater_reader
wall_display: INSERT, SELECT to slackwater_app
ward: INSERT, SELECT to slackwater_app
ward: SELECT to slackwater_reader
ward_counter: INSERT, SELECT, UPDATE to slackwater_app
ward_counter: SELECT to slackwater_reader
ward_settings: INSERT, SELECT to slackwater_app
ward_settings: SELECT to slackwater_reader

-- Grants on columns
account.created_at: SELECT to slackwater_reader
account.disabled_at: SELECT to slackwater_reader
account.id: SELECT to slackwater_reader
account.login: SELECT to slackwater_reader
account.manager: SELECT to slackwater_reader
account.name: SELECT to slackwater_reader
account.site_id: SELECT to slackwater_reader
site.formulary_version: UPDATE to slackwater_app
wall_display.code_ends_at: UPDATE to slackwater_app
wall_display.code_hash: UPDATE to slackwater_app
wall_display.opened_at: UPDATE to slackwater_app
ward.settings_version: UPDATE to slackwater_app

-- CreateTable
CREATE TABLE "site" (
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "formulary_version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "site_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "epoch" (
    "site_id" TEXT NOT NULL,
    "epoch" UUID NOT NULL,
    "started_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "epoch_pkey" PRIMARY KEY ("site_id")
);

-- CreateTable
CREATE TABLE "demonstration" (
    "site_id" TEXT NOT NULL,
    "seeded_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "demonstration_pkey" PRIMARY KEY ("site_id")
);

-- CreateTable
CREATE TABLE "ward" (
    "site_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "zone" TEXT NOT NULL,
    "shift_starts" TEXT[],
    "settings_version" INTEGER NOT NULL DEFAULT 1,

    CONSTRAINT "ward_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "ward_settings" (
    "site_id" TEXT NOT NULL,
    "ward_id" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "settings" JSONB NOT NULL,
    "entry_id" UUID,
    "from_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "ward_settings_pkey" PRIMARY KEY ("site_id","ward_id","version")
);

-- CreateTable
CREATE TABLE "ward_counter" (
    "site_id" TEXT NOT NULL,
    "ward_id" TEXT NOT NULL,
    "position" INTEGER NOT NULL DEFAULT 0,
    "digest" BYTEA NOT NULL,

    CONSTRAINT "ward_counter_pkey" PRIMARY KEY ("site_id","ward_id")
);

-- CreateTable
CREATE TABLE "bed" (
    "site_id" TEXT NOT NULL,
    "ward_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "place" INTEGER NOT NULL,
    "retired_at" TIMESTAMPTZ(3),

    CONSTRAINT "bed_pkey" PRIMARY KEY ("site_id","ward_id","id")
);

-- CreateTable
CREATE TABLE "account" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "login" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "password_hash" TEXT NOT NULL,
    "password_changed_at" TIMESTAMPTZ(3) NOT NULL,
    "manager" BOOLEAN NOT NULL DEFAULT false,
    "demonstration" BOOLEAN NOT NULL DEFAULT false,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "disabled_at" TIMESTAMPTZ(3),

    CONSTRAINT "account_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "account_role" (
    "site_id" TEXT NOT NULL,
    "account_id" UUID NOT NULL,
    "ward_id" TEXT NOT NULL,
    "role" TEXT NOT NULL,

    CONSTRAINT "account_role_pkey" PRIMARY KEY ("site_id","account_id","ward_id")
);

-- CreateTable
CREATE TABLE "session" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "account_id" UUID NOT NULL,
    "token_hash" BYTEA NOT NULL,
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "last_seen_at" TIMESTAMPTZ(3) NOT NULL,
    "locked_at" TIMESTAMPTZ(3),
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "address" TEXT,
    "user_agent" TEXT,

    CONSTRAINT "session_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "sign_in_attempt" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "login" TEXT NOT NULL,
    "address" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "succeeded" BOOLEAN NOT NULL,

    CONSTRAINT "sign_in_attempt_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "audit" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "account_id" UUID,
    "action" TEXT NOT NULL,
    "ward_id" TEXT,
    "patient_id" UUID,
    "address" TEXT,
    "detail" JSONB,

    CONSTRAINT "audit_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "patient" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "hospital_number" TEXT NOT NULL,
    "family" TEXT NOT NULL,
    "given" TEXT NOT NULL,
    "date_of_birth" DATE NOT NULL,
    "gender" TEXT NOT NULL,
    "allergy" TEXT,
    "isolation" TEXT,
    "cautions" TEXT[],
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "erased_at" TIMESTAMPTZ(3),

    CONSTRAINT "patient_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "solution" (
    "site_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "label" TEXT NOT NULL,
    "strength" TEXT NOT NULL,
    "glucose_g_per_l" DOUBLE PRECISION NOT NULL,
    "icodextrin_g_per_l" DOUBLE PRECISION NOT NULL,
    "buffer" TEXT NOT NULL,
    "calcium_mmol_per_l" DOUBLE PRECISION NOT NULL,
    "sodium_mmol_per_l" DOUBLE PRECISION NOT NULL,
    "bag_ml" INTEGER[],
    "bag_excess_ml" INTEGER,
    "chambers" INTEGER NOT NULL,
    "place" INTEGER NOT NULL,
    "retired_at" TIMESTAMPTZ(3),

    CONSTRAINT "solution_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "entry" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "ward_id" TEXT NOT NULL,
    "position" INTEGER NOT NULL,
    "patient_id" UUID,
    "sequence" INTEGER,
    "visit_id" UUID,
    "kind" TEXT NOT NULL,
    "format" SMALLINT NOT NULL,
    "happened_at" TIMESTAMPTZ(3) NOT NULL,
    "device_at" TIMESTAMPTZ(3),
    "received_at" TIMESTAMPTZ(3) NOT NULL,
    "author_id" UUID,
    "after" UUID,
    "target" UUID,
    "content_digest" BYTEA NOT NULL,
    "digest" BYTEA NOT NULL,

    CONSTRAINT "entry_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "entry_payload" (
    "site_id" TEXT NOT NULL,
    "entry_id" UUID NOT NULL,
    "salt" BYTEA NOT NULL,
    "bytes" BYTEA NOT NULL,

    CONSTRAINT "entry_payload_pkey" PRIMARY KEY ("site_id","entry_id")
);

-- CreateTable
CREATE TABLE "refused_entry" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "ward_id" TEXT NOT NULL,
    "entry_id" UUID NOT NULL,
    "patient_id" UUID,
    "kind" TEXT NOT NULL,
    "author_id" UUID,
    "device_at" TIMESTAMPTZ(3),
    "received_at" TIMESTAMPTZ(3) NOT NULL,
    "draft" JSONB NOT NULL,
    "problems" JSONB NOT NULL,

    CONSTRAINT "refused_entry_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "bedside" (
    "site_id" TEXT NOT NULL,
    "patient_id" UUID NOT NULL,
    "ward_id" TEXT,
    "bed" TEXT,
    "version" INTEGER NOT NULL,
    "fold_version" INTEGER NOT NULL,
    "state" JSONB,
    "next_change_at" TIMESTAMPTZ(3),

    CONSTRAINT "bedside_pkey" PRIMARY KEY ("site_id","patient_id")
);

-- CreateTable
CREATE TABLE "stay" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "patient_id" UUID NOT NULL,
    "ward_id" TEXT NOT NULL,
    "bed" TEXT NOT NULL,
    "dialysis" TEXT NOT NULL,
    "from_at" TIMESTAMPTZ(3) NOT NULL,
    "to_at" TIMESTAMPTZ(3),
    "ended" TEXT,

    CONSTRAINT "stay_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "visit" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "patient_id" UUID NOT NULL,
    "ward_id" TEXT NOT NULL,
    "purpose" TEXT NOT NULL,
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "started_by" UUID,
    "ended_at" TIMESTAMPTZ(3),
    "ended" TEXT,

    CONSTRAINT "visit_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "dwell" (
    "site_id" TEXT NOT NULL,
    "id" TEXT NOT NULL,
    "patient_id" UUID NOT NULL,
    "fill_ended_at" TIMESTAMPTZ(3),
    "drained_at" TIMESTAMPTZ(3),
    "filled_ml" DOUBLE PRECISION,
    "drained_ml" DOUBLE PRECISION,
    "drain_minus_fill_ml" DOUBLE PRECISION,
    "complete" BOOLEAN NOT NULL,
    "imported" BOOLEAN NOT NULL,
    "content" JSONB NOT NULL,

    CONSTRAINT "dwell_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "observation" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "patient_id" UUID NOT NULL,
    "ward_id" TEXT NOT NULL,
    "visit_id" UUID,
    "kind" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "author_id" UUID,
    "weight_kg" DOUBLE PRECISION,
    "cavity" TEXT,
    "systolic_mm_hg" DOUBLE PRECISION,
    "diastolic_mm_hg" DOUBLE PRECISION,
    "celsius" DOUBLE PRECISION,
    "glucose_mmol_per_l" DOUBLE PRECISION,
    "meter" TEXT,
    "direction" TEXT,
    "route" TEXT,
    "volume_ml" DOUBLE PRECISION,
    "bowels_opened" BOOLEAN,
    "content" JSONB NOT NULL,

    CONSTRAINT "observation_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "alert" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "patient_id" UUID NOT NULL,
    "ward_id" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "cause" TEXT NOT NULL,
    "rank" TEXT NOT NULL,
    "since" TIMESTAMPTZ(3) NOT NULL,
    "facts" JSONB NOT NULL,
    "settings_version" INTEGER NOT NULL,
    "raised_at" TIMESTAMPTZ(3) NOT NULL,
    "owner_id" UUID,
    "owned_until" TIMESTAMPTZ(3),
    "snoozed_until" TIMESTAMPTZ(3),
    "escalated_to" TEXT,
    "cleared_at" TIMESTAMPTZ(3),
    "cleared_by" TEXT,

    CONSTRAINT "alert_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "prescription_revision" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "patient_id" UUID NOT NULL,
    "ward_id" TEXT NOT NULL,
    "number" INTEGER NOT NULL,
    "limits" JSONB NOT NULL,
    "acute" BOOLEAN NOT NULL,
    "note" TEXT,
    "review_by" TIMESTAMPTZ(3),
    "prescribed_at" TIMESTAMPTZ(3) NOT NULL,
    "prescribed_by" UUID,

    CONSTRAINT "prescription_revision_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "prescription_item" (
    "site_id" TEXT NOT NULL,
    "revision_id" UUID NOT NULL,
    "id" TEXT NOT NULL,
    "place" INTEGER NOT NULL,
    "solution_id" TEXT NOT NULL,
    "fill_ml" INTEGER NOT NULL,
    "additives" TEXT,
    "dwell" JSONB NOT NULL,
    "window_minutes" INTEGER NOT NULL,
    "condition" TEXT,

    CONSTRAINT "prescription_item_pkey" PRIMARY KEY ("site_id","revision_id","id")
);

-- CreateTable
CREATE TABLE "clinical_order" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "patient_id" UUID NOT NULL,
    "ward_id" TEXT NOT NULL,
    "what" TEXT NOT NULL,
    "content" JSONB NOT NULL,
    "note" TEXT,
    "given_at" TIMESTAMPTZ(3) NOT NULL,
    "given_by" UUID,
    "telephone_physician" TEXT,
    "countersign_by" TIMESTAMPTZ(3),
    "countersigned_at" TIMESTAMPTZ(3),
    "countersigned_by" UUID,
    "ended_at" TIMESTAMPTZ(3),
    "ended" TEXT,

    CONSTRAINT "clinical_order_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "assignment" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "patient_id" UUID NOT NULL,
    "ward_id" TEXT NOT NULL,
    "account_id" UUID,
    "name" TEXT,
    "from_at" TIMESTAMPTZ(3) NOT NULL,
    "to_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "assignment_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "catheter_event" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "patient_id" UUID NOT NULL,
    "event" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "note" TEXT,
    "break_in_limit_ml" INTEGER,
    "break_in_until" TIMESTAMPTZ(3),
    "break_in_posture" TEXT,

    CONSTRAINT "catheter_event_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "dialysis_period" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "patient_id" UUID NOT NULL,
    "modality" TEXT NOT NULL,
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "stopped_at" TIMESTAMPTZ(3),
    "note" TEXT,

    CONSTRAINT "dialysis_period_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "delivery" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "ward_id" TEXT NOT NULL,
    "target" TEXT NOT NULL,
    "body" JSONB NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "next_try_at" TIMESTAMPTZ(3),
    "tries" INTEGER NOT NULL DEFAULT 0,
    "delivered_at" TIMESTAMPTZ(3),
    "last_error" TEXT,

    CONSTRAINT "delivery_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateIndex
CREATE UNIQUE INDEX "account_site_id_login_key" ON "account"("site_id", "login");

-- CreateIndex
CREATE INDEX "account_role_site_id_ward_id_idx" ON "account_role"("site_id", "ward_id");

-- CreateIndex
CREATE INDEX "session_site_id_account_id_idx" ON "session"("site_id", "account_id");

-- CreateIndex
CREATE UNIQUE INDEX "session_site_id_token_hash_key" ON "session"("site_id", "token_hash");

-- CreateIndex
CREATE INDEX "sign_in_attempt_site_id_login_at_idx" ON "sign_in_attempt"("site_id", "login", "at");

-- CreateIndex
CREATE INDEX "sign_in_attempt_site_id_address_at_idx" ON "sign_in_attempt"("site_id", "address", "at");

-- CreateIndex
CREATE INDEX "audit_site_id_at_idx" ON "audit"("site_id", "at");

-- CreateIndex
CREATE INDEX "audit_site_id_patient_id_at_idx" ON "audit"("site_id", "patient_id", "at");

-- CreateIndex
CREATE INDEX "audit_site_id_account_id_at_idx" ON "audit"("site_id", "account_id", "at");

-- CreateIndex
CREATE INDEX "patient_site_id_family_given_idx" ON "patient"("site_id", "family", "given");

-- CreateIndex
CREATE UNIQUE INDEX "patient_site_id_hospital_number_key" ON "patient"("site_id", "hospital_number");

-- CreateIndex
CREATE UNIQUE INDEX "entry_site_id_ward_id_position_key" ON "entry"("site_id", "ward_id", "position");

-- CreateIndex
CREATE UNIQUE INDEX "entry_site_id_patient_id_sequence_key" ON "entry"("site_id", "patient_id", "sequence");

-- CreateIndex
CREATE INDEX "refused_entry_site_id_ward_id_received_at_idx" ON "refused_entry"("site_id", "ward_id", "received_at");

-- CreateIndex
CREATE INDEX "bedside_site_id_ward_id_idx" ON "bedside"("site_id", "ward_id");

-- CreateIndex
CREATE INDEX "stay_site_id_patient_id_from_at_idx" ON "stay"("site_id", "patient_id", "from_at");

-- CreateIndex
CREATE INDEX "visit_site_id_patient_id_started_at_idx" ON "visit"("site_id", "patient_id", "started_at");

-- CreateIndex
CREATE INDEX "dwell_site_id_patient_id_drained_at_idx" ON "dwell"("site_id", "patient_id", "drained_at");

-- CreateIndex
CREATE INDEX "observation_site_id_patient_id_kind_at_idx" ON "observation"("site_id", "patient_id", "kind", "at");

-- CreateIndex
CREATE INDEX "alert_site_id_patient_id_raised_at_idx" ON "alert"("site_id", "patient_id", "raised_at");

-- CreateIndex
CREATE INDEX "alert_site_id_ward_id_raised_at_idx" ON "alert"("site_id", "ward_id", "raised_at");

-- CreateIndex
CREATE INDEX "prescription_revision_site_id_patient_id_number_idx" ON "prescription_revision"("site_id", "patient_id", "number");

-- CreateIndex
CREATE INDEX "clinical_order_site_id_patient_id_given_at_idx" ON "clinical_order"("site_id", "patient_id", "given_at");

-- CreateIndex
CREATE INDEX "assignment_site_id_patient_id_from_at_idx" ON "assignment"("site_id", "patient_id", "from_at");

-- CreateIndex
CREATE INDEX "assignment_site_id_ward_id_from_at_idx" ON "assignment"("site_id", "ward_id", "from_at");

-- CreateIndex
CREATE INDEX "catheter_event_site_id_patient_id_at_idx" ON "catheter_event"("site_id", "patient_id", "at");

-- CreateIndex
CREATE INDEX "dialysis_period_site_id_patient_id_started_at_idx" ON "dialysis_period"("site_id", "patient_id", "started_at");

-- AddForeignKey
ALTER TABLE "epoch" ADD CONSTRAINT "epoch_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "demonstration" ADD CONSTRAINT "demonstration_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "ward" ADD CONSTRAINT "ward_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "ward_settings" ADD CONSTRAINT "ward_settings_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "ward_counter" ADD CONSTRAINT "ward_counter_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "bed" ADD CONSTRAINT "bed_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "account" ADD CONSTRAINT "account_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "account_role" ADD CONSTRAINT "account_role_site_id_account_id_fkey" FOREIGN KEY ("site_id", "account_id") REFERENCES "account"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "account_role" ADD CONSTRAINT "account_role_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "session" ADD CONSTRAINT "session_site_id_account_id_fkey" FOREIGN KEY ("site_id", "account_id") REFERENCES "account"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "audit" ADD CONSTRAINT "audit_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "patient" ADD CONSTRAINT "patient_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "solution" ADD CONSTRAINT "solution_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "entry" ADD CONSTRAINT "entry_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "entry" ADD CONSTRAINT "entry_site_id_patient_id_fkey" FOREIGN KEY ("site_id", "patient_id") REFERENCES "patient"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "entry" ADD CONSTRAINT "entry_site_id_author_id_fkey" FOREIGN KEY ("site_id", "author_id") REFERENCES "account"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "entry" ADD CONSTRAINT "entry_site_id_target_fkey" FOREIGN KEY ("site_id", "target") REFERENCES "entry"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "entry_payload" ADD CONSTRAINT "entry_payload_site_id_entry_id_fkey" FOREIGN KEY ("site_id", "entry_id") REFERENCES "entry"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "refused_entry" ADD CONSTRAINT "refused_entry_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "bedside" ADD CONSTRAINT "bedside_site_id_patient_id_fkey" FOREIGN KEY ("site_id", "patient_id") REFERENCES "patient"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "bedside" ADD CONSTRAINT "bedside_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "stay" ADD CONSTRAINT "stay_site_id_patient_id_fkey" FOREIGN KEY ("site_id", "patient_id") REFERENCES "patient"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "stay" ADD CONSTRAINT "stay_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "stay" ADD CONSTRAINT "stay_site_id_ward_id_bed_fkey" FOREIGN KEY ("site_id", "ward_id", "bed") REFERENCES "bed"("site_id", "ward_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "visit" ADD CONSTRAINT "visit_site_id_patient_id_fkey" FOREIGN KEY ("site_id", "patient_id") REFERENCES "patient"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "visit" ADD CONSTRAINT "visit_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "dwell" ADD CONSTRAINT "dwell_site_id_patient_id_fkey" FOREIGN KEY ("site_id", "patient_id") REFERENCES "patient"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "observation" ADD CONSTRAINT "observation_site_id_patient_id_fkey" FOREIGN KEY ("site_id", "patient_id") REFERENCES "patient"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "observation" ADD CONSTRAINT "observation_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "alert" ADD CONSTRAINT "alert_site_id_patient_id_fkey" FOREIGN KEY ("site_id", "patient_id") REFERENCES "patient"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "alert" ADD CONSTRAINT "alert_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "prescription_revision" ADD CONSTRAINT "prescription_revision_site_id_patient_id_fkey" FOREIGN KEY ("site_id", "patient_id") REFERENCES "patient"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "prescription_revision" ADD CONSTRAINT "prescription_revision_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "prescription_item" ADD CONSTRAINT "prescription_item_site_id_revision_id_fkey" FOREIGN KEY ("site_id", "revision_id") REFERENCES "prescription_revision"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "prescription_item" ADD CONSTRAINT "prescription_item_site_id_solution_id_fkey" FOREIGN KEY ("site_id", "solution_id") REFERENCES "solution"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "clinical_order" ADD CONSTRAINT "clinical_order_site_id_patient_id_fkey" FOREIGN KEY ("site_id", "patient_id") REFERENCES "patient"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "clinical_order" ADD CONSTRAINT "clinical_order_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "assignment" ADD CONSTRAINT "assignment_site_id_patient_id_fkey" FOREIGN KEY ("site_id", "patient_id") REFERENCES "patient"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "assignment" ADD CONSTRAINT "assignment_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "catheter_event" ADD CONSTRAINT "catheter_event_site_id_patient_id_fkey" FOREIGN KEY ("site_id", "patient_id") REFERENCES "patient"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "dialysis_period" ADD CONSTRAINT "dialysis_period_site_id_patient_id_fkey" FOREIGN KEY ("site_id", "patient_id") REFERENCES "patient"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "delivery" ADD CONSTRAINT "delivery_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;


-- ── Written by hand: what the schema file cannot say ────────────────────────────────────────────────────────────────

-- Words and ranges. The ward's own ranges are settings; these are what no ward may leave.
ALTER TABLE site ADD CHECK (id ~ '^[a-z0-9][a-z0-9-]{0,62}$');
ALTER TABLE ward
  ADD CHECK (id ~ '^[a-z0-9][a-z0-9-]{0,62}$'),
  ADD CHECK (cardinality(shift_starts) BETWEEN 1 AND 4),
  ADD CHECK (settings_version >= 1);
ALTER TABLE ward_settings ADD CHECK (version >= 1);
ALTER TABLE ward_counter ADD CHECK (position >= 0), ADD CHECK (octet_length(digest) = 32);
ALTER TABLE account ADD CHECK (login = lower(login) AND login <> ''), ADD CHECK (name <> '');
ALTER TABLE account_role ADD CHECK (role IN ('nurse', 'chargeNurse', 'nephrologist', 'manager', 'wall'));
ALTER TABLE session ADD CHECK (octet_length(token_hash) = 32), ADD CHECK (ends_at > started_at);
ALTER TABLE patient
  ADD CHECK (cautions IS NOT NULL),
  ADD CHECK (hospital_number <> ''),
  ADD CHECK (date_of_birth BETWEEN DATE '1880-01-01' AND DATE '2200-01-01');
ALTER TABLE solution
  ADD CHECK (glucose_g_per_l BETWEEN 0 AND 100),
  ADD CHECK (icodextrin_g_per_l BETWEEN 0 AND 100),
  ADD CHECK (buffer IN ('lactate', 'bicarbonate', 'bicarbonate-lactate')),
  ADD CHECK (chambers IN (1, 2, 3)),
  ADD CHECK (cardinality(bag_ml) >= 1);

ALTER TABLE entry
  ADD CHECK (position >= 1),
  ADD CHECK ((patient_id IS NULL) = (sequence IS NULL)),
  ADD CHECK (sequence >= 1),
  ADD CHECK (format >= 1),
  ADD CHECK ((target IS NOT NULL) = (kind IN ('corrected', 'retracted'))),
  ADD CHECK (octet_length(content_digest) = 32 AND octet_length(digest) = 32);
ALTER TABLE entry_payload ADD CHECK (octet_length(salt) = 16);

ALTER TABLE bedside
  ADD CHECK (version >= 0),
  ADD CHECK ((ward_id IS NULL) = (bed IS NULL)),
  ADD CHECK ((version = 0) = (state IS NULL));
ALTER TABLE stay
  ADD CHECK (dialysis IN ('chronic', 'acute')),
  ADD CHECK (ended IN ('discharged', 'transferred')),
  ADD CHECK ((to_at IS NULL) = (ended IS NULL)),
  ADD CHECK (to_at >= from_at);
ALTER TABLE visit
  ADD CHECK (purpose IN ('exchange', 'drainOnly', 'fillOnly')),
  ADD CHECK (ended IN ('closed', 'stopped')),
  ADD CHECK ((ended_at IS NULL) = (ended IS NULL)),
  ADD CHECK (ended_at >= started_at);
ALTER TABLE dwell ADD CHECK (filled_ml >= 0), ADD CHECK (drained_ml >= 0);
ALTER TABLE observation
  ADD CHECK (weight_kg BETWEEN 1 AND 350),
  ADD CHECK (cavity IN ('full', 'empty')),
  ADD CHECK (systolic_mm_hg BETWEEN 20 AND 280),
  ADD CHECK (diastolic_mm_hg BETWEEN 20 AND 280),
  ADD CHECK (celsius BETWEEN 30 AND 43),
  ADD CHECK (glucose_mmol_per_l BETWEEN 0.5 AND 60),
  ADD CHECK (meter IN ('glucoseSpecific', 'other')),
  ADD CHECK (direction IN ('in', 'out')),
  ADD CHECK (volume_ml >= 0);
ALTER TABLE alert
  ADD CHECK (rank IN ('high', 'medium', 'low')),
  ADD CHECK (cleared_by IN ('condition', 'person')),
  ADD CHECK ((cleared_at IS NULL) = (cleared_by IS NULL)),
  ADD CHECK ((owner_id IS NULL) = (owned_until IS NULL));
ALTER TABLE prescription_revision ADD CHECK (number >= 1);
ALTER TABLE prescription_item
  ADD CHECK (place >= 1),
  ADD CHECK (fill_ml BETWEEN 1 AND 5000),
  ADD CHECK (window_minutes >= 0);
ALTER TABLE clinical_order
  ADD CHECK (ended IN ('done', 'withdrawn')),
  ADD CHECK ((ended_at IS NULL) = (ended IS NULL)),
  ADD CHECK ((countersigned_at IS NULL) = (countersigned_by IS NULL));
ALTER TABLE assignment ADD CHECK (to_at > from_at);
ALTER TABLE catheter_event ADD CHECK (event IN ('inserted', 'firstUse', 'setChanged', 'removed'));
ALTER TABLE dialysis_period ADD CHECK (modality IN ('chronic', 'acute')), ADD CHECK (stopped_at >= started_at);
ALTER TABLE delivery ADD CHECK (tries >= 0);

-- An entry is replaced at most once: the second of two corrections conflicts.
CREATE UNIQUE INDEX entry_replaced_once ON entry (site_id, target) WHERE target IS NOT NULL;
-- The few entries of a patient that say where it lies and what is prescribed; steps and observations stay out.
CREATE INDEX entry_standing ON entry (site_id, patient_id, sequence)
  WHERE kind IN ('admitted', 'transferredOut', 'transferredIn', 'movedBed', 'discharged', 'catheter', 'dialysisPeriod',
    'prescribed', 'ordered', 'countersigned', 'orderEnded', 'corrected', 'retracted');
CREATE UNIQUE INDEX visit_one_open ON visit (site_id, patient_id) WHERE ended_at IS NULL;
CREATE UNIQUE INDEX stay_one_open ON stay (site_id, patient_id) WHERE to_at IS NULL;
CREATE UNIQUE INDEX stay_one_in_bed ON stay (site_id, ward_id, bed) WHERE to_at IS NULL;
CREATE UNIQUE INDEX alert_one_open ON alert (site_id, patient_id, kind, cause) WHERE cleared_at IS NULL;
CREATE UNIQUE INDEX dialysis_period_one_open ON dialysis_period (site_id, patient_id) WHERE stopped_at IS NULL;
CREATE INDEX bedside_next_change ON bedside (site_id, next_change_at) WHERE next_change_at IS NOT NULL;
CREATE INDEX delivery_waiting ON delivery (site_id, next_try_at) WHERE next_try_at IS NOT NULL;

-- Rows that every entry updates: room on the page keeps their new versions beside the old ones.
ALTER TABLE ward_counter SET (fillfactor = 10);
ALTER TABLE bedside SET (fillfactor = 50);

-- The digests of entries that follow `head`: each covers the one before, the entry's own link, its position and the
-- database's clock. `before` is the position of `head`.
CREATE FUNCTION chain_digests(head bytea, before integer, received timestamptz, links bytea[]) RETURNS bytea[]
LANGUAGE plpgsql IMMUTABLE STRICT PARALLEL SAFE AS $$
DECLARE
  digests bytea[] := '{}';
  received_ms bytea := int8send((extract(epoch FROM received) * 1000)::bigint);
BEGIN
  FOR i IN 1 .. cardinality(links) LOOP
    head := sha256(head || links[i] || int8send((before + i)::bigint) || received_ms);
    digests[i] := head;
  END LOOP;
  RETURN digests;
END $$;

-- Append-only: no for everybody, the owner and replication included.
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION '% on % is refused: the table is append-only. Record a correction or a retraction instead.',
    TG_OP, TG_TABLE_NAME USING ERRCODE = 'insufficient_privilege';
END $$;

CREATE TRIGGER append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON entry
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
-- Erasure by law is the owner's DELETE here; what is kept can never be rewritten.
CREATE TRIGGER append_only BEFORE UPDATE OR TRUNCATE ON entry_payload
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON refused_entry
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER append_only BEFORE UPDATE OR DELETE OR TRUNCATE ON audit
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
ALTER TABLE entry ENABLE ALWAYS TRIGGER append_only;
ALTER TABLE entry_payload ENABLE ALWAYS TRIGGER append_only;
ALTER TABLE refused_entry ENABLE ALWAYS TRIGGER append_only;
ALTER TABLE audit ENABLE ALWAYS TRIGGER append_only;

-- Who may do what. The roles are made before the first migration, once for the whole server.
DO $$
DECLARE
  missing text;
BEGIN
  SELECT string_agg(wanted, ', ') INTO missing
  FROM unnest(ARRAY['slackwater_owner', 'slackwater_app', 'slackwater_reader']) AS wanted
  WHERE NOT EXISTS (SELECT FROM pg_roles WHERE rolname = wanted);
  IF missing IS NOT NULL THEN
    RAISE EXCEPTION 'The database role(s) % do not exist. Create them first, as the README says under "Running it for real".', missing;
  END IF;
END $$;

GRANT USAGE ON SCHEMA public TO slackwater_app, slackwater_reader;

-- The application reads everything, adds to the record, and keeps what is folded from it.
GRANT SELECT ON ALL TABLES IN SCHEMA public TO slackwater_app;
GRANT INSERT ON entry, entry_payload, refused_entry, audit, sign_in_attempt, site, epoch, demonstration, ward,
  ward_settings, ward_counter TO slackwater_app;
GRANT UPDATE (formulary_version) ON site TO slackwater_app;
GRANT UPDATE (settings_version) ON ward TO slackwater_app;
GRANT UPDATE ON ward_counter, demonstration TO slackwater_app;
GRANT DELETE ON sign_in_attempt TO slackwater_app;
GRANT INSERT, UPDATE ON account, patient, solution, bed, bedside TO slackwater_app;
GRANT INSERT, UPDATE, DELETE ON session, account_role, stay, visit, dwell, observation, alert, prescription_revision,
  prescription_item, clinical_order, assignment, catheter_event, dialysis_period, delivery TO slackwater_app;

-- The reader serves reports: no passwords, no sessions.
GRANT SELECT ON site, epoch, demonstration, ward, ward_settings, ward_counter, bed, account_role, patient, solution,
  entry, entry_payload, refused_entry, bedside, stay, visit, dwell, observation, alert, prescription_revision,
  prescription_item, clinical_order, assignment, catheter_event, dialysis_period, audit TO slackwater_reader;
GRANT SELECT (site_id, id, login, name, manager, created_at, disabled_at) ON account TO slackwater_reader;

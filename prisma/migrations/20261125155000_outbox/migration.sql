-- AlterTable
ALTER TABLE "entry" ADD COLUMN     "released_by" UUID;

-- CreateTable
CREATE TABLE "device_key" (
    "site_id" TEXT NOT NULL,
    "account_id" UUID NOT NULL,
    "device_hash" BYTEA NOT NULL,
    "key" BYTEA NOT NULL,
    "made_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "device_key_pkey" PRIMARY KEY ("site_id","account_id","device_hash")
);

-- CreateTable
CREATE TABLE "kept_batch" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "ward_id" TEXT NOT NULL,
    "patient_id" UUID,
    "author_id" UUID NOT NULL,
    "device_hash" BYTEA,
    "device_at" TIMESTAMPTZ(3) NOT NULL,
    "kept_at" TIMESTAMPTZ(3) NOT NULL,
    "entries" JSONB NOT NULL,
    "problem" JSONB NOT NULL,

    CONSTRAINT "kept_batch_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateTable
CREATE TABLE "kept_batch_end" (
    "site_id" TEXT NOT NULL,
    "batch_id" UUID NOT NULL,
    "ended_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_by" UUID NOT NULL,
    "how" TEXT NOT NULL,
    "reason" TEXT,
    "sent" UUID[],

    CONSTRAINT "kept_batch_end_pkey" PRIMARY KEY ("site_id","batch_id")
);

-- CreateIndex
CREATE INDEX "kept_batch_site_id_author_id_idx" ON "kept_batch"("site_id", "author_id");

-- CreateIndex
CREATE INDEX "kept_batch_site_id_ward_id_idx" ON "kept_batch"("site_id", "ward_id");

-- AddForeignKey
ALTER TABLE "entry" ADD CONSTRAINT "entry_site_id_released_by_fkey" FOREIGN KEY ("site_id", "released_by") REFERENCES "account"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "device_key" ADD CONSTRAINT "device_key_site_id_account_id_fkey" FOREIGN KEY ("site_id", "account_id") REFERENCES "account"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "kept_batch" ADD CONSTRAINT "kept_batch_site_id_author_id_fkey" FOREIGN KEY ("site_id", "author_id") REFERENCES "account"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "kept_batch_end" ADD CONSTRAINT "kept_batch_end_site_id_batch_id_fkey" FOREIGN KEY ("site_id", "batch_id") REFERENCES "kept_batch"("site_id", "id") ON DELETE CASCADE ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "kept_batch_end" ADD CONSTRAINT "kept_batch_end_site_id_ended_by_fkey" FOREIGN KEY ("site_id", "ended_by") REFERENCES "account"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;


-- ── Written by hand: what the schema file cannot say ────────────────────────────────────────────────────────────────

ALTER TABLE device_key
  ADD CHECK (octet_length(key) = 32),
  ADD CHECK (octet_length(device_hash) = 32);
ALTER TABLE kept_batch
  ADD CHECK (jsonb_typeof(entries) = 'array' AND jsonb_array_length(entries) > 0);
ALTER TABLE kept_batch_end
  ADD CHECK (how IN ('sent', 'discarded')),
  ADD CHECK (how = 'sent' OR reason IS NOT NULL);

-- What was refused stays as it was refused, and is ended once. Erasure by law is the owner's DELETE.
CREATE TRIGGER append_only BEFORE UPDATE OR TRUNCATE ON kept_batch
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER append_only BEFORE UPDATE OR TRUNCATE ON kept_batch_end
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
ALTER TABLE kept_batch ENABLE ALWAYS TRIGGER append_only;
ALTER TABLE kept_batch_end ENABLE ALWAYS TRIGGER append_only;

-- A key, once made, opens what a device holds: it is neither changed nor taken away, and no report reads it.
GRANT SELECT, INSERT ON device_key, kept_batch, kept_batch_end TO slackwater_app;
GRANT SELECT ON kept_batch, kept_batch_end TO slackwater_reader;

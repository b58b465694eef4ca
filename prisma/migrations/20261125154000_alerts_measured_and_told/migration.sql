-- When somebody first had an alert, and who cleared it and why: what the ward is told about its own alerts.
-- AlterTable
ALTER TABLE "alert" ADD COLUMN     "acknowledged_at" TIMESTAMPTZ(3),
ADD COLUMN     "clear_reason" TEXT,
ADD COLUMN     "cleared_by_id" UUID;

-- AlterTable
ALTER TABLE "delivery" ADD COLUMN     "tried_at" TIMESTAMPTZ(3);

-- CreateIndex
CREATE INDEX "alert_site_id_ward_id_cleared_at_idx" ON "alert"("site_id", "ward_id", "cleared_at");

-- CreateIndex
CREATE INDEX "delivery_site_id_target_created_at_idx" ON "delivery"("site_id", "target", "created_at");

-- ── Written by hand: what the schema file cannot say ────────────────────────────────────────────────────────────────

ALTER TABLE delivery ADD CHECK (delivered_at IS NULL OR next_try_at IS NULL);

-- Each target takes its own next ones, so that one that does not answer holds up no other.
DROP INDEX delivery_waiting;
CREATE INDEX delivery_waiting ON delivery (site_id, target, next_try_at) WHERE next_try_at IS NOT NULL;

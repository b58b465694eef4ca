-- CreateTable
CREATE TABLE "wall_display" (
    "site_id" TEXT NOT NULL,
    "account_id" UUID NOT NULL,
    "made_by" UUID NOT NULL,
    "code_hash" BYTEA,
    "code_ends_at" TIMESTAMPTZ(3) NOT NULL,
    "opened_at" TIMESTAMPTZ(3),

    CONSTRAINT "wall_display_pkey" PRIMARY KEY ("site_id","account_id")
);

-- CreateIndex
CREATE UNIQUE INDEX "wall_display_site_id_code_hash_key" ON "wall_display"("site_id", "code_hash");

-- AddForeignKey
ALTER TABLE "wall_display" ADD CONSTRAINT "wall_display_site_id_account_id_fkey" FOREIGN KEY ("site_id", "account_id") REFERENCES "account"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "wall_display" ADD CONSTRAINT "wall_display_site_id_made_by_fkey" FOREIGN KEY ("site_id", "made_by") REFERENCES "account"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;


-- ── Written by hand: what the schema file cannot say ────────────────────────────────────────────────────────────────

-- A code that was used is gone.
ALTER TABLE wall_display
  ADD CHECK (octet_length(code_hash) = 32),
  ADD CHECK ((code_hash IS NULL) = (opened_at IS NOT NULL));

GRANT SELECT, INSERT ON wall_display TO slackwater_app;
GRANT UPDATE (code_hash, opened_at) ON wall_display TO slackwater_app;

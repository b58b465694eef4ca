-- CreateTable
CREATE TABLE "supplies" (
    "site_id" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "products" JSONB NOT NULL,
    "recalls" JSONB NOT NULL,
    "ward_id" TEXT NOT NULL,
    "entry_id" UUID NOT NULL,
    "from_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "supplies_pkey" PRIMARY KEY ("site_id","version")
);

-- CreateTable
CREATE TABLE "bag_use" (
    "site_id" TEXT NOT NULL,
    "id" UUID NOT NULL,
    "patient_id" UUID NOT NULL,
    "ward_id" TEXT NOT NULL,
    "visit_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "filled" BOOLEAN NOT NULL,
    "solution_id" TEXT NOT NULL,
    "labelled_ml" INTEGER NOT NULL,
    "expires_on" DATE,
    "lot" TEXT,
    "lot_key" TEXT,
    "author_id" UUID,

    CONSTRAINT "bag_use_pkey" PRIMARY KEY ("site_id","id")
);

-- CreateIndex
CREATE INDEX "bag_use_site_id_lot_key_at_idx" ON "bag_use"("site_id", "lot_key", "at");

-- CreateIndex
CREATE INDEX "bag_use_site_id_patient_id_idx" ON "bag_use"("site_id", "patient_id");

-- AddForeignKey
ALTER TABLE "supplies" ADD CONSTRAINT "supplies_site_id_fkey" FOREIGN KEY ("site_id") REFERENCES "site"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "bag_use" ADD CONSTRAINT "bag_use_site_id_patient_id_fkey" FOREIGN KEY ("site_id", "patient_id") REFERENCES "patient"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- AddForeignKey
ALTER TABLE "bag_use" ADD CONSTRAINT "bag_use_site_id_ward_id_fkey" FOREIGN KEY ("site_id", "ward_id") REFERENCES "ward"("site_id", "id") ON DELETE RESTRICT ON UPDATE RESTRICT;


-- ── Written by hand: what the schema file cannot say ────────────────────────────────────────────────────────────────

ALTER TABLE supplies ADD CHECK (version >= 2);
ALTER TABLE bag_use
  ADD CHECK (labelled_ml > 0),
  ADD CHECK ((lot IS NULL) = (lot_key IS NULL));

-- How many bags a ward hung lately whose lot nobody read.
CREATE INDEX bag_use_lot_unread ON bag_use (site_id, ward_id, at) WHERE filled AND lot_key IS NULL;

GRANT SELECT, INSERT ON supplies TO slackwater_app;
GRANT SELECT, INSERT, UPDATE, DELETE ON bag_use TO slackwater_app;
GRANT SELECT ON supplies, bag_use TO slackwater_reader;

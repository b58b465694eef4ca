-- CreateTable
CREATE TABLE "import_row" (
    "site_id" TEXT NOT NULL,
    "import_id" UUID NOT NULL,
    "line" INTEGER NOT NULL,
    "id" UUID NOT NULL,
    "ward_id" TEXT NOT NULL,
    "hospital_number" TEXT NOT NULL,
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3) NOT NULL,
    "drains" BOOLEAN NOT NULL,
    "solution_id" TEXT,
    "payload" TEXT NOT NULL,
    "salt" BYTEA NOT NULL,

    CONSTRAINT "import_row_pkey" PRIMARY KEY ("site_id","import_id","line")
);


-- ── Written by hand: what the schema file cannot say ────────────────────────────────────────────────────────────────

ALTER TABLE import_row
  ADD CHECK (line >= 2),
  ADD CHECK (ended_at >= started_at),
  ADD CHECK (octet_length(salt) = 16);

-- Rows live for one transaction: the application writes, judges and takes them away again.
GRANT SELECT, INSERT, DELETE ON import_row TO slackwater_app;

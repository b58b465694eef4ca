-- CreateIndex
CREATE INDEX "audit_site_id_ward_id_at_idx" ON "audit"("site_id", "ward_id", "at");

-- CreateIndex
CREATE INDEX "audit_site_id_action_at_idx" ON "audit"("site_id", "action", "at");


-- ── Written by hand: what the schema file cannot say ────────────────────────────────────────────────────────────────

-- Overrides and settings are noted with their entries from now on; those that stand already are noted here.
INSERT INTO audit (site_id, id, at, account_id, action, ward_id, patient_id, detail)
SELECT entry.site_id, gen_random_uuid(), entry.received_at, entry.author_id,
  CASE entry.kind
    WHEN 'settingsChanged' THEN 'changedSettings' WHEN 'suppliesChanged' THEN 'changedSupplies' ELSE 'overrode' END,
  entry.ward_id, entry.patient_id, jsonb_build_object('entry', entry.id, 'step', entry.kind)
FROM entry
JOIN entry_payload AS stored ON stored.site_id = entry.site_id AND stored.entry_id = entry.id
CROSS JOIN LATERAL (SELECT convert_from(stored.bytes, 'UTF8')::jsonb AS payload) AS read
WHERE entry.author_id IS NOT NULL
  AND CASE entry.kind
    WHEN 'settingsChanged' THEN true
    WHEN 'suppliesChanged' THEN true
    WHEN 'prepare' THEN read.payload->>'override' IS NOT NULL
    WHEN 'startDrain' THEN read.payload->>'early' IS NOT NULL
    WHEN 'startFill' THEN read.payload->>'guardOverride' IS NOT NULL
    WHEN 'calledFirst' THEN read.payload->>'by' = 'override'
    ELSE false END;

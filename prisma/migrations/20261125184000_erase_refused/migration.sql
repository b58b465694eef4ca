-- What was refused holds what somebody wrote about a patient: the owner's erasure by law takes it too. As with payloads,
-- the owner may delete, and nobody may rewrite; the application may do neither.
DROP TRIGGER append_only ON refused_entry;
CREATE TRIGGER append_only BEFORE UPDATE OR TRUNCATE ON refused_entry
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
ALTER TABLE refused_entry ENABLE ALWAYS TRIGGER append_only;

-- What goes into a bag was text for the whole of it; now it is a list with amount, unit and kind. The rows are folded
-- from the entries and made anew with them: until then a text stands as it was written, without an amount.
ALTER TABLE "prescription_item"
  ALTER COLUMN "additives" TYPE JSONB USING CASE
    WHEN "additives" IS NULL THEN '[]'::jsonb
    ELSE jsonb_build_array(jsonb_build_object(
      'what', "additives", 'amount', NULL, 'unit', NULL, 'kind', 'other', 'minimumDwellMinutes', NULL))
  END,
  ALTER COLUMN "additives" SET NOT NULL;

-- A bedside's state is written and read whole, at every entry and by every board: kept as it was written, it is not taken
-- apart and put together again each time.
ALTER TABLE bedside ALTER COLUMN state TYPE json;

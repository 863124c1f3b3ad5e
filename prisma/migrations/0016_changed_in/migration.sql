-- What has changed on a calendar since somebody read it, so that a process can keep what it read: whatever a reader did
-- not see was written by a transaction that had not ended in its snapshot, and every row says which one wrote it last.
ALTER TABLE booking ADD COLUMN changed_in xid8 NOT NULL DEFAULT pg_current_xact_id();
ALTER TABLE lift ADD COLUMN changed_in xid8 NOT NULL DEFAULT pg_current_xact_id();
ALTER TABLE firing ADD COLUMN changed_in xid8 NOT NULL DEFAULT pg_current_xact_id();
CREATE INDEX booking_changed_in ON booking (workshop_id, changed_in);
CREATE INDEX lift_changed_in ON lift (workshop_id, changed_in);
CREATE INDEX firing_changed_in ON firing (workshop_id, changed_in);

CREATE FUNCTION remembers_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  NEW.changed_in := pg_current_xact_id();
  RETURN NEW;
END $$;
-- Behind `counts_changes`, which compares rows; it is no change by itself.
CREATE TRIGGER remembers_change BEFORE UPDATE ON booking FOR EACH ROW EXECUTE FUNCTION remembers_change();
CREATE TRIGGER remembers_change BEFORE UPDATE ON lift FOR EACH ROW EXECUTE FUNCTION remembers_change();
CREATE TRIGGER remembers_change BEFORE UPDATE ON firing FOR EACH ROW EXECUTE FUNCTION remembers_change();

-- What leaves the place where a reader found it is not found there again; then everything is read anew (0015_ground).
CREATE TRIGGER leaves_its_place AFTER UPDATE ON booking FOR EACH ROW
  WHEN (OLD.equipment_id <> NEW.equipment_id) EXECUTE FUNCTION ground_changes();
CREATE TRIGGER leaves_its_place AFTER UPDATE ON lift FOR EACH ROW
  WHEN (OLD.starts_at <> NEW.starts_at) EXECUTE FUNCTION ground_changes();
CREATE TRIGGER is_gone AFTER DELETE ON booking FOR EACH ROW EXECUTE FUNCTION ground_changes();
CREATE TRIGGER is_gone AFTER DELETE ON lift FOR EACH ROW EXECUTE FUNCTION ground_changes();
CREATE TRIGGER is_gone AFTER DELETE ON firing FOR EACH ROW EXECUTE FUNCTION ground_changes();

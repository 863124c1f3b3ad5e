-- What every search for time stands on (equipment, hours, closures, outages, inductions, the power limit) changes seldom
-- and is read with every booking. Each state of it has a name that no other state has, kept by triggers whoever writes,
-- so that a copy in a process is good for as long as the name stays. Not a count: one that was rolled back comes again.
ALTER TABLE workshop ADD COLUMN ground_id uuid NOT NULL DEFAULT gen_random_uuid();

CREATE FUNCTION ground_changes() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  UPDATE workshop SET ground_id = gen_random_uuid() WHERE workshop_id = coalesce(NEW.workshop_id, OLD.workshop_id);
  RETURN NULL;
END $$;
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['equipment','staffed_hours','closure','outage','induction'] LOOP
    EXECUTE format('CREATE TRIGGER ground_changes AFTER INSERT OR UPDATE OR DELETE ON %I
                    FOR EACH ROW EXECUTE FUNCTION ground_changes()', t);
  END LOOP;
END $$;

CREATE FUNCTION workshop_ground_changes() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  NEW.ground_id := gen_random_uuid();
  RETURN NEW;
END $$;
CREATE TRIGGER ground_changes BEFORE UPDATE OF power_limit_kw, time_zone ON workshop
  FOR EACH ROW EXECUTE FUNCTION workshop_ground_changes();

-- Time that is held for a while: a run like any other, whose firing is `held` until an instant. Its bookings stand as
-- every booking does, so the exclusion constraint and `run_is_whole` hold for it too; from that instant on nobody
-- counts them, and whoever next places a run makes it `lapsed`, unless the job has done so before.
ALTER TABLE firing
  ADD COLUMN held_until timestamptz,
  ADD COLUMN hold_warned_at timestamptz,
  DROP CONSTRAINT firing_status_check,
  ADD CONSTRAINT firing_status_check CHECK (status IN ('held','planned','started','opened','cancelled','released','lapsed')),
  ADD CONSTRAINT firing_held_until_when CHECK (status NOT IN ('held','lapsed') OR held_until IS NOT NULL);
CREATE INDEX firing_held ON firing (workshop_id, held_until) WHERE status = 'held';

-- How many runs a member may hold at once without booking them.
ALTER TABLE workshop ADD COLUMN holds_each smallint NOT NULL DEFAULT 2 CHECK (holds_each BETWEEN 0 AND 20);

-- As in 0001_house, with one more way for a run to be over.
CREATE OR REPLACE FUNCTION run_is_whole() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  f record;
  have text[];
  want text[];
BEGIN
  SELECT status, purposes INTO f FROM firing
   WHERE workshop_id = NEW.workshop_id AND firing_id = NEW.firing_id;
  IF NOT FOUND THEN RETURN NULL; END IF;
  SELECT coalesce(array_agg(purpose ORDER BY purpose), '{}') INTO have FROM booking
   WHERE workshop_id = NEW.workshop_id AND firing_id = NEW.firing_id AND standing;
  IF f.status IN ('cancelled','released','lapsed') THEN
    want := '{}';
  ELSE
    SELECT array_agg(p ORDER BY p) INTO want FROM unnest(f.purposes) AS p;
  END IF;
  IF have <> want AND NOT (f.status = 'opened' AND have <@ want AND 'kiln' = ANY (have)) THEN
    RAISE EXCEPTION 'run of firing % is not whole: has %, needs %', NEW.firing_id, have, want
      USING ERRCODE = 'LB002', CONSTRAINT = 'run_is_whole', TABLE = 'booking';
  END IF;
  RETURN NULL;
END $$;

-- Like the job of a mail: added by the transaction that holds the run, with the owner's rights, and it only names it.
CREATE FUNCTION hold_is_to_lapse() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
DECLARE
  payload json := json_build_object('workshopId', NEW.workshop_id, 'firingId', NEW.firing_id);
BEGIN
  PERFORM graphile_worker.add_job('lapse-hold', payload, run_at => NEW.held_until, max_attempts => 32767, job_key => 'lapse:' || NEW.firing_id);
  PERFORM graphile_worker.add_job('warn-of-lapse', payload, run_at => NEW.held_until - interval '6 hours', max_attempts => 32767, job_key => 'warn:' || NEW.firing_id);
  RETURN NULL;
END $$;
REVOKE EXECUTE ON FUNCTION hold_is_to_lapse FROM PUBLIC;
CREATE TRIGGER hold_is_to_lapse AFTER INSERT ON firing FOR EACH ROW WHEN (NEW.status = 'held') EXECUTE FUNCTION hold_is_to_lapse();

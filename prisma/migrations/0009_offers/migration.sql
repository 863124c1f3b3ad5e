-- Asks that name no kiln and no weeks but a time within which any run will do, and time offered to them when it
-- becomes free. An offer is a held firing that says which ask it answers.

-- Any kiln that fits, where none is named; then there are no weeks of one either, and a date by which it is needed.
ALTER TABLE ask
  ALTER COLUMN kiln_id DROP NOT NULL,
  ALTER COLUMN plan_id DROP NOT NULL,
  ALTER COLUMN wished_from DROP NOT NULL,
  ALTER COLUMN wished_to DROP NOT NULL,
  -- The first day on which the run may begin; without one, that of the weeks that are wished for.
  ADD COLUMN not_before date,
  -- How many days after `needed_by` would still do.
  ADD COLUMN late_days smallint NOT NULL DEFAULT 0 CHECK (late_days BETWEEN 0 AND 60),
  ADD CONSTRAINT ask_weeks_of_a_kiln CHECK (num_nulls(kiln_id, plan_id, wished_from, wished_to) IN (0, 4)),
  ADD CONSTRAINT ask_by_some_date CHECK (kiln_id IS NOT NULL OR (needed_by IS NOT NULL AND not_before IS NOT NULL));
CREATE INDEX ask_open ON ask (workshop_id) WHERE status = 'open';

ALTER TABLE firing ADD COLUMN ask_id uuid, ADD FOREIGN KEY (workshop_id, ask_id) REFERENCES ask;
CREATE INDEX firing_of_ask ON firing (workshop_id, ask_id) WHERE ask_id IS NOT NULL;
-- One offer at a time for each ask; that no two are on the same time, `booking_no_overlap` holds.
CREATE UNIQUE INDEX firing_offer_once ON firing (workshop_id, ask_id) WHERE status = 'held' AND ask_id IS NOT NULL;

-- Whatever may let an ask be met, whoever writes it, adds the job that looks: once in a transaction, and at its end, so
-- that two transactions of a workshop wait for each other as shortly as can be. With the owner's rights, as for mail.
CREATE FUNCTION offers_to_look_for() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
DECLARE
  workshop uuid := coalesce(NEW.workshop_id, OLD.workshop_id);
BEGIN
  IF current_setting('lehrbook.looks', true) = workshop::text THEN RETURN NULL; END IF;
  PERFORM set_config('lehrbook.looks', workshop::text, true);
  PERFORM graphile_worker.add_job('look-for-offers', json_build_object('workshopId', workshop), max_attempts => 32767, job_key => 'offers:' || workshop);
  RETURN NULL;
END $$;
REVOKE EXECUTE ON FUNCTION offers_to_look_for FROM PUBLIC;

CREATE CONSTRAINT TRIGGER offers_to_look_for AFTER UPDATE ON booking DEFERRABLE INITIALLY DEFERRED FOR EACH ROW
  WHEN (OLD.standing AND (NOT NEW.standing OR NEW.ends_at < OLD.ends_at OR NEW.starts_at > OLD.starts_at)) EXECUTE FUNCTION offers_to_look_for();
CREATE CONSTRAINT TRIGGER offers_to_look_for AFTER UPDATE OF expected_end, status ON firing DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION offers_to_look_for();
CREATE CONSTRAINT TRIGGER offers_to_look_for AFTER UPDATE ON outage DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION offers_to_look_for();
CREATE CONSTRAINT TRIGGER offers_to_look_for AFTER UPDATE OR DELETE ON closure DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION offers_to_look_for();
CREATE CONSTRAINT TRIGGER offers_to_look_for AFTER INSERT OR UPDATE ON staffed_hours DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION offers_to_look_for();
CREATE CONSTRAINT TRIGGER offers_to_look_for AFTER INSERT OR UPDATE OF limits, retired_at, inspection_due, needs_induction ON equipment
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION offers_to_look_for();
CREATE CONSTRAINT TRIGGER offers_to_look_for AFTER INSERT ON induction DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION offers_to_look_for();
CREATE CONSTRAINT TRIGGER offers_to_look_for AFTER UPDATE OF power_limit_kw ON workshop DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION offers_to_look_for();
CREATE CONSTRAINT TRIGGER offers_to_look_for AFTER UPDATE OF input ON casting DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION offers_to_look_for();
CREATE CONSTRAINT TRIGGER offers_to_look_for AFTER INSERT OR UPDATE ON ask DEFERRABLE INITIALLY DEFERRED FOR EACH ROW
  WHEN (NEW.status = 'open') EXECUTE FUNCTION offers_to_look_for();

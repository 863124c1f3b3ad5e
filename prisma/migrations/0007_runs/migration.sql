-- What a run must also honour: inspections that fall due, and who has been shown a kiln. And what lets it be found
-- quickly however much lies behind: indexes over what is still to come.

-- The last day on which it may be used before somebody inspects it again; null when nothing is due.
ALTER TABLE equipment ADD COLUMN inspection_due date,
  ADD COLUMN needs_induction boolean NOT NULL DEFAULT false,
  -- Counts what is learned about a kiln from its firings: a copy of the lesson is good for as long as this stays.
  ADD COLUMN record_version integer NOT NULL DEFAULT 0,
  ADD CONSTRAINT equipment_induction_for_kilns CHECK (kind = 'kiln' OR NOT needs_induction);

CREATE TABLE induction (
  workshop_id  uuid NOT NULL REFERENCES workshop,
  member_id    uuid NOT NULL,
  equipment_id uuid NOT NULL,
  given_by     uuid NOT NULL,
  given_at     timestamptz NOT NULL,
  PRIMARY KEY (workshop_id, member_id, equipment_id),
  FOREIGN KEY (workshop_id, member_id) REFERENCES member,
  FOREIGN KEY (workshop_id, given_by) REFERENCES member,
  FOREIGN KEY (workshop_id, equipment_id) REFERENCES equipment
);
ALTER TABLE induction ENABLE ROW LEVEL SECURITY;
ALTER TABLE induction FORCE ROW LEVEL SECURITY;
CREATE POLICY one_workshop ON induction
  USING (workshop_id = current_workshop()) WITH CHECK (workshop_id = current_workshop());
GRANT SELECT, INSERT, DELETE ON induction TO lehrbook_app;

-- ── what is still to come, whatever lies behind ──────────────────────────────────────────────────
CREATE INDEX booking_to_come ON booking (workshop_id, ends_at) WHERE standing;
CREATE INDEX lift_to_come ON lift (workshop_id, ends_at) WHERE standing;
CREATE INDEX firing_under_way ON firing (workshop_id) WHERE status = 'started';
CREATE INDEX firing_expected ON firing (workshop_id, expected_end) WHERE expected_end IS NOT NULL;

-- ── what is learned about a kiln changes with its firings and its outages ────────────────────────
CREATE FUNCTION kiln_has_news() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_TABLE_NAME = 'outage' THEN
    UPDATE equipment SET record_version = record_version + 1
     WHERE workshop_id = NEW.workshop_id AND equipment_id = NEW.equipment_id;
  ELSE
    UPDATE equipment e SET record_version = record_version + 1 FROM booking b
     WHERE b.workshop_id = NEW.workshop_id AND b.firing_id = NEW.firing_id AND b.purpose = 'kiln' AND b.standing
       AND e.workshop_id = b.workshop_id AND e.equipment_id = b.equipment_id;
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER kiln_has_news AFTER INSERT OR UPDATE ON outage
  FOR EACH ROW EXECUTE FUNCTION kiln_has_news();
-- At commit, because a firing that is written whole has its bookings only then.
CREATE CONSTRAINT TRIGGER kiln_has_news AFTER INSERT OR UPDATE ON firing
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW WHEN (NEW.status = 'opened') EXECUTE FUNCTION kiln_has_news();

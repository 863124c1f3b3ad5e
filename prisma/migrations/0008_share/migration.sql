-- Firings that several castings share.

-- ── the castings of a joined plan, each as it was planned ────────────────────────────────────────
CREATE TABLE plan_casting (
  workshop_id uuid NOT NULL REFERENCES workshop,
  plan_id     uuid NOT NULL,
  casting_id  uuid NOT NULL,
  inputs      jsonb NOT NULL,
  mesh_id     uuid GENERATED ALWAYS AS ((inputs #>> '{piece,meshId}')::uuid) STORED,
  PRIMARY KEY (workshop_id, plan_id, casting_id),
  FOREIGN KEY (workshop_id, plan_id) REFERENCES plan,
  FOREIGN KEY (workshop_id, casting_id) REFERENCES casting,
  FOREIGN KEY (workshop_id, mesh_id) REFERENCES mesh
);
CREATE INDEX plan_casting_of_casting ON plan_casting (workshop_id, casting_id);
CREATE INDEX plan_casting_of_mesh ON plan_casting (workshop_id, mesh_id);
CREATE TRIGGER is_immutable BEFORE UPDATE OR DELETE ON plan_casting FOR EACH ROW EXECUTE FUNCTION is_immutable();

ALTER TABLE firing_casting ADD COLUMN joined_at timestamptz NOT NULL DEFAULT now();

-- ── a steam-out is one casting's, everything else of a run is for all ────────────────────────────
ALTER TABLE booking ADD COLUMN casting_id uuid, ADD FOREIGN KEY (workshop_id, casting_id) REFERENCES casting;
-- The owner sees all workshops for this statement, and it is no change of any entry.
ALTER TABLE booking NO FORCE ROW LEVEL SECURITY;
ALTER TABLE firing NO FORCE ROW LEVEL SECURITY;
ALTER TABLE plan NO FORCE ROW LEVEL SECURITY;
ALTER TABLE booking DISABLE TRIGGER USER;
UPDATE booking b SET casting_id = p.casting_id FROM firing f JOIN plan p ON p.workshop_id = f.workshop_id AND p.plan_id = f.plan_id
 WHERE b.purpose = 'steam-out' AND f.workshop_id = b.workshop_id AND f.firing_id = b.firing_id;
ALTER TABLE booking ENABLE TRIGGER USER;
ALTER TABLE plan FORCE ROW LEVEL SECURITY;
ALTER TABLE firing FORCE ROW LEVEL SECURITY;
ALTER TABLE booking FORCE ROW LEVEL SECURITY;

DROP INDEX booking_purpose_once;
CREATE UNIQUE INDEX booking_purpose_once ON booking (workshop_id, firing_id, purpose, casting_id) NULLS NOT DISTINCT WHERE standing;

CREATE OR REPLACE FUNCTION booking_takes_place() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE before record;
BEGIN
  SELECT entry_id, sequence + (xmin <> pg_current_xact_id()::xid)::int AS next INTO before FROM booking
   WHERE workshop_id = NEW.workshop_id AND firing_id = NEW.firing_id AND purpose = NEW.purpose AND casting_id IS NOT DISTINCT FROM NEW.casting_id
   ORDER BY sequence DESC LIMIT 1;
  NEW.entry_id := coalesce(before.entry_id, NEW.booking_id);
  NEW.sequence := coalesce(before.next, 0);
  RETURN NEW;
END $$;

-- ── a check sheet follows its plan: an item is never changed, but another may take its place ─────
ALTER TABLE check_item ADD COLUMN replaced_at timestamptz;
DROP TRIGGER is_immutable ON check_item;
CREATE FUNCTION check_item_only_replaced() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'UPDATE' AND OLD.replaced_at IS NULL AND to_jsonb(NEW) - 'replaced_at' = to_jsonb(OLD) - 'replaced_at' THEN
    RETURN NEW;
  END IF;
  RAISE EXCEPTION 'rows of % are never changed', TG_TABLE_NAME
    USING ERRCODE = 'LB003', CONSTRAINT = 'is_immutable', TABLE = TG_TABLE_NAME;
END $$;
CREATE TRIGGER is_immutable BEFORE UPDATE OR DELETE ON check_item FOR EACH ROW EXECUTE FUNCTION check_item_only_replaced();
CREATE TRIGGER check_sheet_is_open_still BEFORE UPDATE ON check_item FOR EACH ROW EXECUTE FUNCTION check_sheet_is_open();
GRANT UPDATE (replaced_at) ON check_item TO lehrbook_app;

-- ── a proposal to join a planned firing, until everybody in it has answered ──────────────────────
CREATE TABLE joining (
  workshop_id    uuid NOT NULL REFERENCES workshop,
  joining_id     uuid NOT NULL DEFAULT gen_random_uuid(),
  firing_id      uuid NOT NULL,
  casting_id     uuid NOT NULL,
  member_id      uuid NOT NULL,
  -- The joined plan that is shown and answered; it becomes the firing's own.
  plan_id        uuid NOT NULL,
  -- The firing as it was when the plan was joined: a later one makes the proposal lapse.
  firing_version integer NOT NULL,
  -- When the door would close and the kiln be free again, as everybody is shown.
  kiln_from      timestamptz NOT NULL,
  kiln_to        timestamptz NOT NULL,
  status         text NOT NULL DEFAULT 'open' CHECK (status IN ('open','agreed','declined','withdrawn','lapsed')),
  expires_at     timestamptz NOT NULL,
  ended_at       timestamptz,
  ended_because  text,
  created_at     timestamptz NOT NULL,
  PRIMARY KEY (workshop_id, joining_id),
  FOREIGN KEY (workshop_id, firing_id) REFERENCES firing,
  FOREIGN KEY (workshop_id, casting_id) REFERENCES casting,
  FOREIGN KEY (workshop_id, member_id) REFERENCES member,
  FOREIGN KEY (workshop_id, plan_id) REFERENCES plan,
  CONSTRAINT joining_forward CHECK (kiln_to > kiln_from),
  CONSTRAINT joining_ends_with_a_reason CHECK ((status = 'open') = (ended_at IS NULL) AND (status = 'open') = (ended_because IS NULL))
);
CREATE UNIQUE INDEX joining_open_of_firing ON joining (workshop_id, firing_id) WHERE status = 'open';
CREATE UNIQUE INDEX joining_open_of_casting ON joining (workshop_id, casting_id) WHERE status = 'open';
CREATE INDEX joining_of_firing ON joining (workshop_id, firing_id, created_at);

CREATE TABLE joining_answer (
  workshop_id uuid NOT NULL REFERENCES workshop,
  joining_id  uuid NOT NULL,
  member_id   uuid NOT NULL,
  accepts     boolean NOT NULL,
  at          timestamptz NOT NULL,
  PRIMARY KEY (workshop_id, joining_id, member_id),
  FOREIGN KEY (workshop_id, joining_id) REFERENCES joining,
  FOREIGN KEY (workshop_id, member_id) REFERENCES member
);
CREATE TRIGGER is_immutable BEFORE UPDATE OR DELETE ON joining_answer FOR EACH ROW EXECUTE FUNCTION is_immutable();

-- Whoever changes a firing, and however: what was proposed for it as it was does not stand any more.
CREATE FUNCTION joining_lapses() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  UPDATE joining SET status = 'lapsed', ended_at = clock_timestamp(),
    ended_because = CASE WHEN NEW.status = 'started' THEN 'The firing started.'
                         WHEN NEW.status = 'planned' THEN 'The firing was changed.'
                         ELSE 'The firing was taken off the calendar.' END
   WHERE workshop_id = NEW.workshop_id AND firing_id = NEW.firing_id AND status = 'open'
     AND (NEW.status <> 'planned' OR firing_version <> NEW.version);
  RETURN NULL;
END $$;
CREATE TRIGGER joining_lapses AFTER UPDATE ON firing FOR EACH ROW
  WHEN (OLD.version IS DISTINCT FROM NEW.version OR OLD.status IS DISTINCT FROM NEW.status) EXECUTE FUNCTION joining_lapses();

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['plan_casting','joining','joining_answer'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY one_workshop ON %I
      USING (workshop_id = current_workshop()) WITH CHECK (workshop_id = current_workshop())', t);
  END LOOP;
END $$;
GRANT SELECT, INSERT ON plan_casting, joining_answer TO lehrbook_app;
GRANT SELECT, INSERT, UPDATE (status, ended_at, ended_because) ON joining TO lehrbook_app;

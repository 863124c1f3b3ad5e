-- Calendar feeds: addresses under which one person's runs or one kiln's bookings are read by calendar programs.
-- Only the hash of an address's secret is kept.
CREATE TABLE feed (
  workshop_id  uuid NOT NULL REFERENCES workshop,
  feed_id      uuid NOT NULL DEFAULT gen_random_uuid(),
  -- Whose runs, or which kiln's bookings.
  member_id    uuid,
  equipment_id uuid,
  secret_hash  text NOT NULL CHECK (secret_hash ~ '^[0-9a-f]{64}$'),
  made_by      uuid NOT NULL,
  made_at      timestamptz NOT NULL,
  last_read_at timestamptz,
  revoked_at   timestamptz,
  PRIMARY KEY (workshop_id, feed_id),
  FOREIGN KEY (workshop_id, member_id) REFERENCES member,
  FOREIGN KEY (workshop_id, made_by) REFERENCES member,
  FOREIGN KEY (workshop_id, equipment_id) REFERENCES equipment,
  CONSTRAINT feed_of_one CHECK (num_nonnulls(member_id, equipment_id) = 1),
  CONSTRAINT feed_secret_once UNIQUE (workshop_id, secret_hash)
);
CREATE INDEX feed_secret ON feed (secret_hash);
-- One address at a time: making a new one ends the old one.
CREATE UNIQUE INDEX feed_of_member_once ON feed (workshop_id, member_id) WHERE revoked_at IS NULL AND member_id IS NOT NULL;
CREATE UNIQUE INDEX feed_of_kiln_once ON feed (workshop_id, equipment_id) WHERE revoked_at IS NULL AND equipment_id IS NOT NULL;

ALTER TABLE feed ENABLE ROW LEVEL SECURITY;
ALTER TABLE feed FORCE ROW LEVEL SECURITY;
CREATE POLICY one_workshop ON feed
  USING (workshop_id = current_workshop()) WITH CHECK (workshop_id = current_workshop());
-- Whoever holds an address finds that one feed, before a workshop is known.
CREATE POLICY own_feed ON feed FOR SELECT
  USING (secret_hash = nullif(current_setting('lehrbook.token', true), ''));
GRANT SELECT, INSERT, UPDATE (last_read_at, revoked_at) ON feed TO lehrbook_app;

-- ── how often each entry of a calendar has changed ───────────────────────────────────────────────
-- Kept here and not by commands, so that none can forget it: a calendar program believes the copy with the higher
-- number. `entry_id` is what stays when a move puts new rows in the place of the old ones.
ALTER TABLE booking ADD COLUMN entry_id uuid NOT NULL DEFAULT gen_random_uuid(),
  ADD COLUMN sequence integer NOT NULL DEFAULT 0, ADD COLUMN changed_at timestamptz NOT NULL DEFAULT now();
ALTER TABLE lift ADD COLUMN entry_id uuid NOT NULL DEFAULT gen_random_uuid(),
  ADD COLUMN sequence integer NOT NULL DEFAULT 0, ADD COLUMN changed_at timestamptz NOT NULL DEFAULT now();
ALTER TABLE outage ADD COLUMN sequence integer NOT NULL DEFAULT 0, ADD COLUMN changed_at timestamptz NOT NULL DEFAULT now();
ALTER TABLE closure ADD COLUMN sequence integer NOT NULL DEFAULT 0, ADD COLUMN changed_at timestamptz NOT NULL DEFAULT now();

-- What is there already, oldest first and what stands last. The owner sees all workshops for these two statements.
ALTER TABLE booking NO FORCE ROW LEVEL SECURITY;
ALTER TABLE lift NO FORCE ROW LEVEL SECURITY;
ALTER TABLE booking DISABLE TRIGGER USER;
ALTER TABLE lift DISABLE TRIGGER USER;
UPDATE booking b SET entry_id = o.entry_id, sequence = o.place FROM (
  SELECT workshop_id, booking_id, first_value(booking_id) OVER same AS entry_id, row_number() OVER same - standing::int AS place FROM booking
  WINDOW same AS (PARTITION BY workshop_id, firing_id, purpose ORDER BY standing, created_at, booking_id)
) o WHERE o.workshop_id = b.workshop_id AND o.booking_id = b.booking_id;
UPDATE lift l SET entry_id = o.entry_id, sequence = o.place FROM (
  SELECT workshop_id, lift_id, first_value(lift_id) OVER same AS entry_id, row_number() OVER same - standing::int AS place FROM lift
  WINDOW same AS (PARTITION BY workshop_id, firing_id, casting_id, what ORDER BY standing, lift_id)
) o WHERE o.workshop_id = l.workshop_id AND o.lift_id = l.lift_id;
ALTER TABLE booking ENABLE TRIGGER USER;
ALTER TABLE lift ENABLE TRIGGER USER;
ALTER TABLE booking FORCE ROW LEVEL SECURITY;
ALTER TABLE lift FORCE ROW LEVEL SECURITY;

CREATE INDEX booking_of_firing ON booking (workshop_id, firing_id);
CREATE INDEX booking_on_equipment ON booking (workshop_id, equipment_id, ends_at);
CREATE INDEX lift_until ON lift (workshop_id, ends_at);

CREATE FUNCTION counts_changes() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  -- `during` is made from the rest, after this.
  own text[] := ARRAY['entry_id','sequence','changed_at','during'];
BEGIN
  IF TG_OP = 'INSERT' THEN
    NEW.sequence := 0;
    NEW.changed_at := clock_timestamp();
  ELSIF to_jsonb(NEW) - own IS DISTINCT FROM to_jsonb(OLD) - own THEN
    NEW.sequence := OLD.sequence + 1;
    NEW.changed_at := clock_timestamp();
  ELSE
    NEW.sequence := OLD.sequence;
    NEW.changed_at := OLD.changed_at;
  END IF;
  RETURN NEW;
END $$;

-- A row that takes another's place goes on counting. What was ended by this very transaction has counted already:
-- a move is one change.
CREATE FUNCTION booking_takes_place() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE before record;
BEGIN
  SELECT entry_id, sequence + (xmin <> pg_current_xact_id()::xid)::int AS next INTO before FROM booking
   WHERE workshop_id = NEW.workshop_id AND firing_id = NEW.firing_id AND purpose = NEW.purpose
   ORDER BY sequence DESC LIMIT 1;
  NEW.entry_id := coalesce(before.entry_id, NEW.booking_id);
  NEW.sequence := coalesce(before.next, 0);
  RETURN NEW;
END $$;

CREATE FUNCTION lift_takes_place() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE before record;
BEGIN
  SELECT entry_id, sequence + (xmin <> pg_current_xact_id()::xid)::int AS next INTO before FROM lift
   WHERE workshop_id = NEW.workshop_id AND firing_id = NEW.firing_id AND casting_id = NEW.casting_id AND what = NEW.what
   ORDER BY sequence DESC LIMIT 1;
  NEW.entry_id := coalesce(before.entry_id, NEW.lift_id);
  NEW.sequence := coalesce(before.next, 0);
  RETURN NEW;
END $$;

CREATE FUNCTION keeps_entry() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  NEW.entry_id := OLD.entry_id;
  RETURN NEW;
END $$;

-- Triggers of one event fire in the order of their names: first `counts_changes`, then `takes_place`.
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['booking','lift','outage','closure'] LOOP
    EXECUTE format('CREATE TRIGGER counts_changes BEFORE INSERT OR UPDATE ON %I
                    FOR EACH ROW EXECUTE FUNCTION counts_changes()', t);
  END LOOP;
  FOREACH t IN ARRAY ARRAY['booking','lift'] LOOP
    EXECUTE format('CREATE TRIGGER takes_place BEFORE INSERT ON %I FOR EACH ROW EXECUTE FUNCTION %I()', t, t || '_takes_place');
    EXECUTE format('CREATE TRIGGER keeps_entry BEFORE UPDATE ON %I FOR EACH ROW EXECUTE FUNCTION keeps_entry()', t);
  END LOOP;
END $$;

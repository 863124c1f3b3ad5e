-- The whole house: accounts, and one workshop after another in the same tables.
-- Every table but those of accounts leads with workshop_id, every key contains it, and row-level
-- security is forced: a transaction sees the one workshop it has named in `lehrbook.workshop`.

CREATE EXTENSION IF NOT EXISTS btree_gist;

-- The application signs in as lehrbook_app, which owns nothing. Its password is set when migrating.
DO $$
BEGIN
  IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = 'lehrbook_app') THEN
    BEGIN
      CREATE ROLE lehrbook_app NOLOGIN;
    EXCEPTION WHEN duplicate_object OR unique_violation THEN
      NULL; -- another database of this server is being migrated at the same instant
    END;
  END IF;
END $$;

CREATE FUNCTION current_workshop() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE
  AS $$ SELECT nullif(current_setting('lehrbook.workshop', true), '')::uuid $$;
CREATE FUNCTION current_person() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE
  AS $$ SELECT nullif(current_setting('lehrbook.person', true), '')::uuid $$;

-- ── accounts and sign-in (global) ────────────────────────────────────────────────────────────────
CREATE TABLE person (
  person_id       uuid PRIMARY KEY DEFAULT gen_random_uuid(),
  email           text NOT NULL CHECK (email = lower(email) AND email LIKE '%_@_%'),
  password_hash   text NOT NULL,
  session_version integer NOT NULL DEFAULT 1,
  created_at      timestamptz NOT NULL DEFAULT now(),
  CONSTRAINT person_email_once UNIQUE (email)
);

CREATE TABLE sign_in_attempt (
  attempt_id bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY,
  email      text NOT NULL,
  address    text NOT NULL,
  at         timestamptz NOT NULL,
  succeeded  boolean NOT NULL
);
CREATE INDEX sign_in_attempt_email ON sign_in_attempt (email, at);
CREATE INDEX sign_in_attempt_address ON sign_in_attempt (address, at);

CREATE TABLE password_reset (
  token_hash text PRIMARY KEY,
  person_id  uuid NOT NULL REFERENCES person,
  expires_at timestamptz NOT NULL,
  used_at    timestamptz
);

-- ── the workshop and its people ──────────────────────────────────────────────────────────────────
CREATE TABLE workshop (
  workshop_id    uuid PRIMARY KEY DEFAULT gen_random_uuid(),
  name           text NOT NULL,
  time_zone      text NOT NULL,
  power_limit_kw double precision CHECK (power_limit_kw > 0),
  created_at     timestamptz NOT NULL DEFAULT now()
);

CREATE TABLE member (
  workshop_id uuid NOT NULL REFERENCES workshop,
  member_id   uuid NOT NULL DEFAULT gen_random_uuid(),
  person_id   uuid NOT NULL REFERENCES person,
  name        text NOT NULL,
  email       text NOT NULL,
  roles       text[] NOT NULL CHECK (roles <@ ARRAY['member','manager','assistant'] AND cardinality(roles) > 0),
  active      boolean NOT NULL DEFAULT true,
  created_at  timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (workshop_id, member_id),
  CONSTRAINT member_person_once UNIQUE (workshop_id, person_id)
);
CREATE INDEX member_of_person ON member (person_id);

CREATE TABLE invitation (
  workshop_id   uuid NOT NULL REFERENCES workshop,
  invitation_id uuid NOT NULL DEFAULT gen_random_uuid(),
  email         text NOT NULL CHECK (email = lower(email)),
  name          text NOT NULL,
  roles         text[] NOT NULL CHECK (roles <@ ARRAY['member','manager','assistant'] AND cardinality(roles) > 0),
  token_hash    text NOT NULL,
  expires_at    timestamptz NOT NULL,
  used_at       timestamptz,
  withdrawn_at  timestamptz,
  created_at    timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (workshop_id, invitation_id),
  CONSTRAINT invitation_token_once UNIQUE (workshop_id, token_hash)
);
CREATE INDEX invitation_token ON invitation (token_hash);

-- ── hours, closures, equipment ───────────────────────────────────────────────────────────────────
CREATE TABLE staffed_hours (
  workshop_id uuid NOT NULL REFERENCES workshop,
  staffed_id  uuid NOT NULL DEFAULT gen_random_uuid(),
  weekday     smallint NOT NULL CHECK (weekday BETWEEN 1 AND 7),
  opens_min   smallint NOT NULL CHECK (opens_min BETWEEN 0 AND 1439),
  closes_min  smallint NOT NULL CHECK (closes_min BETWEEN 1 AND 1440),
  hands       smallint NOT NULL CHECK (hands BETWEEN 1 AND 50),
  PRIMARY KEY (workshop_id, staffed_id),
  CONSTRAINT staffed_hours_forward CHECK (closes_min > opens_min),
  CONSTRAINT staffed_hours_apart EXCLUDE USING gist
    (workshop_id WITH =, weekday WITH =, int4range(opens_min, closes_min) WITH &&)
);

CREATE TABLE closure (
  workshop_id uuid NOT NULL REFERENCES workshop,
  closure_id  uuid NOT NULL DEFAULT gen_random_uuid(),
  from_date   date NOT NULL,
  to_date     date NOT NULL,
  reason      text NOT NULL,
  PRIMARY KEY (workshop_id, closure_id),
  CONSTRAINT closure_forward CHECK (to_date >= from_date)
);

CREATE TABLE equipment (
  workshop_id  uuid NOT NULL REFERENCES workshop,
  equipment_id uuid NOT NULL DEFAULT gen_random_uuid(),
  kind         text NOT NULL CHECK (kind IN ('kiln','steamer','trolley')),
  name         text NOT NULL,
  limits       jsonb NOT NULL,
  retired_at   timestamptz,
  created_at   timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (workshop_id, equipment_id),
  CONSTRAINT equipment_name_once UNIQUE (workshop_id, name)
);

CREATE TABLE outage (
  workshop_id  uuid NOT NULL REFERENCES workshop,
  outage_id    uuid NOT NULL DEFAULT gen_random_uuid(),
  equipment_id uuid NOT NULL,
  starts_at    timestamptz NOT NULL,
  ends_at      timestamptz,
  reason       text NOT NULL,
  withdrawn_at timestamptz,
  created_at   timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (workshop_id, outage_id),
  FOREIGN KEY (workshop_id, equipment_id) REFERENCES equipment,
  CONSTRAINT outage_forward CHECK (ends_at > starts_at)
);

-- ── castings, plans, firings ─────────────────────────────────────────────────────────────────────
CREATE TABLE casting (
  workshop_id  uuid NOT NULL REFERENCES workshop,
  casting_id   uuid NOT NULL DEFAULT gen_random_uuid(),
  member_id    uuid NOT NULL,
  title        text NOT NULL,
  input        jsonb NOT NULL,
  needed_by    date,
  version      integer NOT NULL DEFAULT 1,
  withdrawn_at timestamptz,
  created_at   timestamptz NOT NULL DEFAULT now(),
  updated_at   timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (workshop_id, casting_id),
  FOREIGN KEY (workshop_id, member_id) REFERENCES member
);
CREATE INDEX casting_of_member ON casting (workshop_id, member_id);

CREATE TABLE plan (
  workshop_id uuid NOT NULL REFERENCES workshop,
  plan_id     uuid NOT NULL DEFAULT gen_random_uuid(),
  casting_id  uuid NOT NULL,
  calculation text NOT NULL,
  inputs      jsonb NOT NULL,
  outputs     jsonb NOT NULL,
  created_at  timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (workshop_id, plan_id),
  FOREIGN KEY (workshop_id, casting_id) REFERENCES casting
);
CREATE INDEX plan_of_casting ON plan (workshop_id, casting_id, created_at);

CREATE TABLE firing (
  workshop_id    uuid NOT NULL REFERENCES workshop,
  firing_id      uuid NOT NULL DEFAULT gen_random_uuid(),
  plan_id        uuid NOT NULL,
  member_id      uuid NOT NULL,
  status         text NOT NULL DEFAULT 'planned'
                 CHECK (status IN ('planned','started','opened','cancelled','released')),
  purposes       text[] NOT NULL CHECK ('kiln' = ANY (purposes)),
  -- From door closed to the start of the soak: while the kiln counts with its rated power.
  heating_hours  double precision NOT NULL CHECK (heating_hours >= 0),
  expected_end   timestamptz,
  started_at     timestamptz,
  opened_at      timestamptz,
  ended_reason   text,
  version        integer NOT NULL DEFAULT 1,
  created_at     timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (workshop_id, firing_id),
  FOREIGN KEY (workshop_id, plan_id) REFERENCES plan,
  FOREIGN KEY (workshop_id, member_id) REFERENCES member
);
CREATE INDEX firing_of_member ON firing (workshop_id, member_id);

CREATE TABLE firing_casting (
  workshop_id uuid NOT NULL REFERENCES workshop,
  firing_id   uuid NOT NULL,
  casting_id  uuid NOT NULL,
  standing    boolean NOT NULL DEFAULT true,
  PRIMARY KEY (workshop_id, firing_id, casting_id),
  FOREIGN KEY (workshop_id, firing_id) REFERENCES firing,
  FOREIGN KEY (workshop_id, casting_id) REFERENCES casting
);
-- A casting hangs on one standing firing at most.
CREATE UNIQUE INDEX firing_casting_once ON firing_casting (workshop_id, casting_id) WHERE standing;

-- ── bookings: the one rule that matters most ─────────────────────────────────────────────────────
CREATE TABLE booking (
  workshop_id  uuid NOT NULL REFERENCES workshop,
  booking_id   uuid NOT NULL DEFAULT gen_random_uuid(),
  firing_id    uuid NOT NULL,
  equipment_id uuid NOT NULL,
  purpose      text NOT NULL CHECK (purpose IN ('steam-out','load','kiln','unload')),
  starts_at    timestamptz NOT NULL,
  ends_at      timestamptz NOT NULL,
  during       tstzrange GENERATED ALWAYS AS (tstzrange(starts_at, ends_at, '[)')) STORED,
  standing     boolean NOT NULL DEFAULT true,
  created_at   timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (workshop_id, booking_id),
  FOREIGN KEY (workshop_id, firing_id) REFERENCES firing,
  FOREIGN KEY (workshop_id, equipment_id) REFERENCES equipment,
  CONSTRAINT booking_forward CHECK (ends_at > starts_at),
  CONSTRAINT booking_no_overlap EXCLUDE USING gist
    (workshop_id WITH =, equipment_id WITH =, during WITH &&) WHERE (standing)
);
CREATE UNIQUE INDEX booking_purpose_once ON booking (workshop_id, firing_id, purpose) WHERE standing;

CREATE TABLE lift (
  workshop_id uuid NOT NULL REFERENCES workshop,
  lift_id     uuid NOT NULL DEFAULT gen_random_uuid(),
  firing_id   uuid NOT NULL,
  casting_id  uuid NOT NULL,
  trolley_id  uuid,
  what        text NOT NULL CHECK (what IN ('to-steamer','from-steamer','load','unload')),
  starts_at   timestamptz NOT NULL,
  ends_at     timestamptz NOT NULL,
  kg          double precision NOT NULL CHECK (kg > 0),
  hands       smallint NOT NULL CHECK (hands > 0),
  mould_state text NOT NULL CHECK (mould_state IN ('wet','dry','fired')),
  hot         boolean NOT NULL,
  wet         boolean NOT NULL,
  flag        text NOT NULL CHECK (flag IN ('none','amber','red')),
  from_place  text NOT NULL,
  to_place    text NOT NULL,
  why         text NOT NULL,
  standing    boolean NOT NULL DEFAULT true,
  PRIMARY KEY (workshop_id, lift_id),
  FOREIGN KEY (workshop_id, firing_id) REFERENCES firing,
  FOREIGN KEY (workshop_id, casting_id) REFERENCES casting,
  FOREIGN KEY (workshop_id, trolley_id) REFERENCES equipment,
  CONSTRAINT lift_forward CHECK (ends_at > starts_at)
);
CREATE INDEX lift_when ON lift (workshop_id, starts_at) WHERE standing;
CREATE INDEX lift_of_firing ON lift (workshop_id, firing_id);

-- All of a run or none of it, checked when the transaction commits, whoever wrote the rows.
CREATE FUNCTION run_is_whole() RETURNS trigger LANGUAGE plpgsql AS $$
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
  IF f.status IN ('cancelled','released') THEN
    want := '{}';
  ELSE
    SELECT array_agg(p ORDER BY p) INTO want FROM unnest(f.purposes) AS p;
  END IF;
  -- Once opened, what was still to come (a trolley for the planned hour) may be given back.
  IF have <> want AND NOT (f.status = 'opened' AND have <@ want AND 'kiln' = ANY (have)) THEN
    RAISE EXCEPTION 'run of firing % is not whole: has %, needs %', NEW.firing_id, have, want
      USING ERRCODE = 'LB002', CONSTRAINT = 'run_is_whole', TABLE = 'booking';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER run_is_whole AFTER INSERT OR UPDATE ON booking
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION run_is_whole();
CREATE CONSTRAINT TRIGGER run_is_whole AFTER INSERT OR UPDATE ON firing
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION run_is_whole();

CREATE TABLE ask (
  workshop_id uuid NOT NULL REFERENCES workshop,
  ask_id      uuid NOT NULL DEFAULT gen_random_uuid(),
  casting_id  uuid NOT NULL,
  member_id   uuid NOT NULL,
  plan_id     uuid NOT NULL,
  kiln_id     uuid NOT NULL,
  wished_from timestamptz NOT NULL,
  wished_to   timestamptz NOT NULL,
  needed_by   date,
  importance  smallint NOT NULL DEFAULT 2 CHECK (importance BETWEEN 1 AND 3),
  note        text NOT NULL DEFAULT '',
  status      text NOT NULL DEFAULT 'open' CHECK (status IN ('open','met','withdrawn','declined')),
  answer      text,
  created_at  timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (workshop_id, ask_id),
  FOREIGN KEY (workshop_id, casting_id) REFERENCES casting,
  FOREIGN KEY (workshop_id, member_id) REFERENCES member,
  FOREIGN KEY (workshop_id, plan_id) REFERENCES plan,
  FOREIGN KEY (workshop_id, kiln_id) REFERENCES equipment,
  CONSTRAINT ask_forward CHECK (wished_to > wished_from)
);
CREATE UNIQUE INDEX ask_open_once ON ask (workshop_id, casting_id) WHERE status = 'open';

-- ── check sheets ─────────────────────────────────────────────────────────────────────────────────
CREATE TABLE check_sheet (
  workshop_id      uuid NOT NULL REFERENCES workshop,
  firing_id        uuid NOT NULL,
  template_version text NOT NULL,
  closed_at        timestamptz,
  closed_by        uuid,
  PRIMARY KEY (workshop_id, firing_id),
  FOREIGN KEY (workshop_id, firing_id) REFERENCES firing,
  FOREIGN KEY (workshop_id, closed_by) REFERENCES member
);

CREATE TABLE check_item (
  workshop_id uuid NOT NULL REFERENCES workshop,
  firing_id   uuid NOT NULL,
  code        text NOT NULL,
  position    smallint NOT NULL,
  phase       text NOT NULL,
  text        text NOT NULL,
  why         text NOT NULL,
  source      text NOT NULL,
  level       text NOT NULL CHECK (level IN ('block','open','remind')),
  scope       text NOT NULL,
  detail      text,
  forbids     text,
  PRIMARY KEY (workshop_id, firing_id, code),
  FOREIGN KEY (workshop_id, firing_id) REFERENCES check_sheet
);

CREATE TABLE check_answer (
  workshop_id uuid NOT NULL REFERENCES workshop,
  answer_id   bigint GENERATED ALWAYS AS IDENTITY,
  firing_id   uuid NOT NULL,
  code        text NOT NULL,
  kind        text NOT NULL CHECK (kind IN ('tick','untick','override')),
  member_id   uuid NOT NULL,
  at          timestamptz NOT NULL,
  reason      text,
  PRIMARY KEY (workshop_id, answer_id),
  FOREIGN KEY (workshop_id, firing_id, code) REFERENCES check_item,
  FOREIGN KEY (workshop_id, member_id) REFERENCES member,
  CONSTRAINT check_answer_override_has_reason CHECK (kind <> 'override' OR length(trim(reason)) >= 10)
);
CREATE INDEX check_answer_of_firing ON check_answer (workshop_id, firing_id, answer_id);

-- The share lock makes an answer wait for a closing that is under way, so none slips in behind it.
CREATE FUNCTION check_sheet_is_open() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE closed timestamptz;
BEGIN
  SELECT closed_at INTO closed FROM check_sheet
   WHERE workshop_id = NEW.workshop_id AND firing_id = NEW.firing_id FOR SHARE;
  IF closed IS NOT NULL THEN
    RAISE EXCEPTION 'the check sheet of firing % is closed', NEW.firing_id
      USING ERRCODE = 'LB001', CONSTRAINT = 'check_sheet_is_open', TABLE = TG_TABLE_NAME;
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER check_sheet_is_open BEFORE INSERT ON check_answer
  FOR EACH ROW EXECUTE FUNCTION check_sheet_is_open();
CREATE TRIGGER check_sheet_is_open BEFORE INSERT ON check_item
  FOR EACH ROW EXECUTE FUNCTION check_sheet_is_open();

CREATE FUNCTION check_sheet_stays_closed() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.closed_at IS NOT NULL THEN
    RAISE EXCEPTION 'the check sheet of firing % is closed', OLD.firing_id
      USING ERRCODE = 'LB001', CONSTRAINT = 'check_sheet_is_open', TABLE = 'check_sheet';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER check_sheet_stays_closed BEFORE UPDATE ON check_sheet
  FOR EACH ROW EXECUTE FUNCTION check_sheet_stays_closed();

-- ── what people are told, what was done, what was asked twice ───────────────────────────────────
CREATE TABLE notice (
  workshop_id uuid NOT NULL REFERENCES workshop,
  notice_id   uuid NOT NULL DEFAULT gen_random_uuid(),
  member_id   uuid NOT NULL,
  text        text NOT NULL,
  href        text NOT NULL,
  created_at  timestamptz NOT NULL DEFAULT now(),
  read_at     timestamptz,
  PRIMARY KEY (workshop_id, notice_id),
  FOREIGN KEY (workshop_id, member_id) REFERENCES member
);
CREATE INDEX notice_of_member ON notice (workshop_id, member_id, created_at);

CREATE TABLE audit (
  workshop_id uuid NOT NULL REFERENCES workshop,
  audit_id    bigint GENERATED ALWAYS AS IDENTITY,
  at          timestamptz NOT NULL,
  member_id   uuid,
  action      text NOT NULL,
  subject     text NOT NULL,
  subject_id  text NOT NULL,
  before      jsonb,
  after       jsonb,
  reason      text,
  PRIMARY KEY (workshop_id, audit_id),
  FOREIGN KEY (workshop_id, member_id) REFERENCES member
);
CREATE INDEX audit_of_subject ON audit (workshop_id, subject, subject_id);

CREATE TABLE receipt (
  workshop_id uuid NOT NULL REFERENCES workshop,
  member_id   uuid NOT NULL,
  request_key text NOT NULL CHECK (length(request_key) BETWEEN 8 AND 200),
  command     text NOT NULL,
  answer      jsonb NOT NULL,
  at          timestamptz NOT NULL,
  PRIMARY KEY (workshop_id, member_id, request_key),
  FOREIGN KEY (workshop_id, member_id) REFERENCES member
);

-- ── what never changes ───────────────────────────────────────────────────────────────────────────
CREATE FUNCTION is_immutable() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'rows of % are never changed', TG_TABLE_NAME
    USING ERRCODE = 'LB003', CONSTRAINT = 'is_immutable', TABLE = TG_TABLE_NAME;
END $$;
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['plan','audit','check_item','check_answer','receipt'] LOOP
    EXECUTE format('CREATE TRIGGER is_immutable BEFORE UPDATE OR DELETE ON %I
                    FOR EACH ROW EXECUTE FUNCTION is_immutable()', t);
  END LOOP;
END $$;

-- ── who may see and write what ───────────────────────────────────────────────────────────────────
DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['workshop','member','invitation','staffed_hours','closure','equipment','outage',
    'casting','plan','firing','firing_casting','booking','lift','ask','check_sheet','check_item',
    'check_answer','notice','audit','receipt'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY one_workshop ON %I
      USING (workshop_id = current_workshop()) WITH CHECK (workshop_id = current_workshop())', t);
  END LOOP;
END $$;

-- At sign-in a person must find the workshops they belong to, before one is chosen.
CREATE POLICY own_membership ON member FOR SELECT USING (person_id = current_person());
CREATE POLICY own_workshop ON workshop FOR SELECT
  USING (workshop_id IN (SELECT m.workshop_id FROM member m WHERE m.person_id = current_person()));
-- Whoever holds an invitation's link finds that one invitation.
CREATE POLICY own_invitation ON invitation FOR SELECT
  USING (token_hash = nullif(current_setting('lehrbook.token', true), ''));

GRANT USAGE ON SCHEMA public TO lehrbook_app;
GRANT SELECT, INSERT, UPDATE ON person, password_reset TO lehrbook_app;
GRANT SELECT, INSERT, DELETE ON sign_in_attempt TO lehrbook_app;
GRANT SELECT, UPDATE ON workshop TO lehrbook_app;
GRANT SELECT, INSERT, UPDATE ON member, invitation, equipment, outage, casting, firing, firing_casting,
  booking, lift, ask, check_sheet, notice TO lehrbook_app;
GRANT SELECT, INSERT, UPDATE, DELETE ON staffed_hours, closure TO lehrbook_app;
GRANT SELECT, INSERT ON plan, check_item, check_answer, audit, receipt TO lehrbook_app;

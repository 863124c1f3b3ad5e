-- Settlements that were accepted, as they were carried out, and whom they were told to. Each person told may answer,
-- once, and may change the answer; by itself an answer moves nothing.
CREATE TABLE settlement (
  workshop_id   uuid NOT NULL REFERENCES workshop,
  settlement_id uuid NOT NULL,
  -- Who accepted it.
  member_id     uuid NOT NULL,
  -- What it looked at first; see lib/contracts/ways-out.ts.
  kind          text NOT NULL,
  reason        text NOT NULL,
  -- Every move with the title of its run, where it stood and where it went.
  moves         jsonb NOT NULL CHECK (jsonb_typeof(moves) = 'array'),
  accepted_at   timestamptz NOT NULL,
  PRIMARY KEY (workshop_id, settlement_id),
  FOREIGN KEY (workshop_id, member_id) REFERENCES member
);
CREATE INDEX settlement_newest ON settlement (workshop_id, accepted_at);
CREATE TRIGGER is_immutable BEFORE UPDATE OR DELETE ON settlement FOR EACH ROW EXECUTE FUNCTION is_immutable();

CREATE TABLE settlement_told (
  workshop_id   uuid NOT NULL REFERENCES workshop,
  settlement_id uuid NOT NULL,
  member_id     uuid NOT NULL,
  agrees        boolean,
  words         text,
  answered_at   timestamptz,
  PRIMARY KEY (workshop_id, settlement_id, member_id),
  FOREIGN KEY (workshop_id, settlement_id) REFERENCES settlement,
  FOREIGN KEY (workshop_id, member_id) REFERENCES member,
  CONSTRAINT settlement_answer_is_whole CHECK (num_nulls(agrees, words, answered_at) IN (0, 3)),
  -- Who objects says what with.
  CONSTRAINT settlement_objection_has_words CHECK (agrees IS NOT FALSE OR words <> '')
);
CREATE INDEX settlement_told_member ON settlement_told (workshop_id, member_id) WHERE answered_at IS NULL;

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['settlement','settlement_told'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY one_workshop ON %I
      USING (workshop_id = current_workshop()) WITH CHECK (workshop_id = current_workshop())', t);
  END LOOP;
END $$;
GRANT SELECT, INSERT ON settlement, settlement_told TO lehrbook_app;
GRANT UPDATE (agrees, words, answered_at) ON settlement_told TO lehrbook_app;

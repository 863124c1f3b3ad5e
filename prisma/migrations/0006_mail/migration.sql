-- Mail, and what each person wants mailed. A row is written by the transaction whose news it carries, and a trigger
-- adds the job that sends it, so neither is ever there without the other. The jobs are in a schema of their own,
-- `graphile_worker`, which `lib/server/migrate.ts` makes and into which the application's role cannot look.

-- Only what differs from how a kind stands by itself (lib/contracts/told.ts).
CREATE TABLE mail_choice (
  workshop_id uuid NOT NULL REFERENCES workshop,
  member_id   uuid NOT NULL,
  kind        text NOT NULL,
  mailed      boolean NOT NULL,
  PRIMARY KEY (workshop_id, member_id, kind),
  FOREIGN KEY (workshop_id, member_id) REFERENCES member
);

CREATE TABLE mail (
  workshop_id    uuid NOT NULL REFERENCES workshop,
  mail_id        uuid NOT NULL DEFAULT gen_random_uuid(),
  -- Null: to somebody who is not a member yet.
  member_id      uuid,
  address        text NOT NULL,
  kind           text NOT NULL,
  subject        text NOT NULL,
  -- `{token}` stands for a link's secret, which is in no table: it is worked out when the mail is sent.
  body           text NOT NULL,
  -- The day a daily mail is about.
  for_day        date,
  created_at     timestamptz NOT NULL,
  -- Not sent any more from then on.
  useless_at     timestamptz,
  -- How often its content went out to a server and was not refused: twice at most, whatever is killed in between.
  handed_over    smallint NOT NULL DEFAULT 0 CHECK (handed_over BETWEEN 0 AND 2),
  handed_over_at timestamptz,
  sent_at        timestamptz,
  failed_at      timestamptz,
  failure        text,
  PRIMARY KEY (workshop_id, mail_id),
  FOREIGN KEY (workshop_id, member_id) REFERENCES member,
  CONSTRAINT mail_ends_one_way CHECK (num_nonnulls(sent_at, failed_at) <= 1 AND (failed_at IS NULL) = (failure IS NULL))
);
-- One daily mail a day for each person, however many processes run.
CREATE UNIQUE INDEX mail_of_day_once ON mail (workshop_id, member_id, for_day) WHERE for_day IS NOT NULL;
CREATE INDEX mail_newest ON mail (workshop_id, created_at);

-- Mail about an account, which belongs to no workshop: the same, but for whom.
CREATE TABLE account_mail (
  mail_id        uuid PRIMARY KEY DEFAULT gen_random_uuid(),
  person_id      uuid NOT NULL REFERENCES person,
  address        text NOT NULL,
  kind           text NOT NULL,
  subject        text NOT NULL,
  body           text NOT NULL,
  created_at     timestamptz NOT NULL,
  useless_at     timestamptz,
  handed_over    smallint NOT NULL DEFAULT 0 CHECK (handed_over BETWEEN 0 AND 2),
  handed_over_at timestamptz,
  sent_at        timestamptz,
  failed_at      timestamptz,
  failure        text,
  CONSTRAINT account_mail_ends_one_way CHECK (num_nonnulls(sent_at, failed_at) <= 1 AND (failed_at IS NULL) = (failure IS NULL))
);
CREATE INDEX account_mail_of_person ON account_mail (person_id, created_at);

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['mail','mail_choice'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY one_workshop ON %I
      USING (workshop_id = current_workshop()) WITH CHECK (workshop_id = current_workshop())', t);
  END LOOP;
END $$;

-- Run with the owner's rights, because the jobs are the owner's; which rows it sees was checked before it is called:
-- nobody writes mail for a workshop but that of the transaction. The payload names the mail and says nothing of it.
-- A job may be tried as often as it takes; when to give up is the sender's to decide and to tell.
CREATE FUNCTION mail_is_to_be_sent() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  PERFORM graphile_worker.add_job(
    'send-mail',
    json_build_object('mailId', NEW.mail_id, 'workshopId', to_jsonb(NEW) ->> 'workshop_id'),
    max_attempts => 32767,
    job_key => 'mail:' || NEW.mail_id);
  RETURN NULL;
END $$;
REVOKE EXECUTE ON FUNCTION mail_is_to_be_sent FROM PUBLIC;
CREATE TRIGGER mail_is_to_be_sent AFTER INSERT ON mail FOR EACH ROW EXECUTE FUNCTION mail_is_to_be_sent();
CREATE TRIGGER mail_is_to_be_sent AFTER INSERT ON account_mail FOR EACH ROW EXECUTE FUNCTION mail_is_to_be_sent();

-- The worker signs in as the owner and must find the workshops whose day it is to tell of; of them it reads no more.
CREATE POLICY owner_finds ON workshop FOR SELECT TO CURRENT_USER USING (true);

GRANT SELECT, INSERT, DELETE, UPDATE (mailed) ON mail_choice TO lehrbook_app;
GRANT SELECT, INSERT, UPDATE (handed_over, handed_over_at, sent_at, failed_at, failure) ON mail, account_mail TO lehrbook_app;

-- A whole season planned anew, in the background: a row says what was asked for, how far it is, and what was found.
-- The process that does the jobs computes it; instants are the database's own clock, which all processes share.
CREATE TABLE replan (
  workshop_id   uuid NOT NULL REFERENCES workshop,
  replan_id     uuid NOT NULL DEFAULT gen_random_uuid(),
  -- Who asked for it.
  member_id     uuid NOT NULL,
  from_day      date NOT NULL,
  to_day        date NOT NULL,
  -- How long the search may take.
  seconds       smallint NOT NULL CHECK (seconds BETWEEN 1 AND 1800),
  state         text NOT NULL DEFAULT 'waiting' CHECK (state IN ('waiting','searching','placing','ready','failed','lost')),
  asked_at      timestamptz NOT NULL DEFAULT clock_timestamp(),
  -- Of the process that computes it: another one that takes it up begins anew, and the first gives up.
  worker_id     uuid,
  started_at    timestamptz,
  -- Written every second or so while it is computed; when it grows old, nobody computes it any more.
  beat_at       timestamptz,
  stop_asked_at timestamptz,
  ended_at      timestamptz,
  -- Runs and asks that may be placed, and how many of them the best plan so far moves or books.
  runs          integer,
  moves         integer,
  cost          double precision,
  bound         double precision,
  -- The plan, tried out to the quarter hour; or one sentence on why there is none.
  plan          jsonb,
  failure       text,
  -- The settlement that it became.
  settlement_id uuid,
  PRIMARY KEY (workshop_id, replan_id),
  FOREIGN KEY (workshop_id, member_id) REFERENCES member,
  FOREIGN KEY (workshop_id, settlement_id) REFERENCES settlement,
  CONSTRAINT replan_forward CHECK (to_day > from_day),
  CONSTRAINT replan_ready_with_plan CHECK ((state = 'ready') = (plan IS NOT NULL)),
  CONSTRAINT replan_failed_with_words CHECK ((state = 'failed') = (failure IS NOT NULL))
);
-- One at a time for a workshop.
CREATE UNIQUE INDEX replan_once ON replan (workshop_id) WHERE state IN ('waiting','searching','placing');
CREATE INDEX replan_newest ON replan (workshop_id, asked_at);

ALTER TABLE replan ENABLE ROW LEVEL SECURITY;
ALTER TABLE replan FORCE ROW LEVEL SECURITY;
CREATE POLICY one_workshop ON replan USING (workshop_id = current_workshop()) WITH CHECK (workshop_id = current_workshop());
GRANT SELECT, INSERT ON replan TO lehrbook_app;
GRANT UPDATE (state, worker_id, started_at, beat_at, stop_asked_at, ended_at, runs, moves, cost, bound, plan, failure, settlement_id) ON replan TO lehrbook_app;

-- Like the job of a mail: added by the transaction that asks, with the owner's rights, and it only names the row. One
-- after another, so that a long computation never holds up the mail.
CREATE FUNCTION replan_is_to_be_computed() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  PERFORM graphile_worker.add_job('replan', json_build_object('workshopId', NEW.workshop_id, 'replanId', NEW.replan_id), queue_name => 'replan', max_attempts => 5, job_key => 'replan:' || NEW.replan_id);
  RETURN NULL;
END $$;
REVOKE EXECUTE ON FUNCTION replan_is_to_be_computed FROM PUBLIC;
CREATE TRIGGER replan_is_to_be_computed AFTER INSERT ON replan FOR EACH ROW EXECUTE FUNCTION replan_is_to_be_computed();

-- How many readings a feed's address still has: one bucket for all processes, unlogged like `token_allowance`.
CREATE UNLOGGED TABLE feed_allowance (
  workshop_id uuid NOT NULL,
  feed_id     uuid NOT NULL,
  readings    double precision NOT NULL CHECK (readings >= 0),
  at          timestamptz NOT NULL,
  PRIMARY KEY (workshop_id, feed_id),
  FOREIGN KEY (workshop_id, feed_id) REFERENCES feed
) WITH (fillfactor = 50);
ALTER TABLE feed_allowance ENABLE ROW LEVEL SECURITY;
ALTER TABLE feed_allowance FORCE ROW LEVEL SECURITY;
CREATE POLICY one_workshop ON feed_allowance
  USING (workshop_id = current_workshop()) WITH CHECK (workshop_id = current_workshop());
GRANT SELECT, INSERT, UPDATE ON feed_allowance TO lehrbook_app;

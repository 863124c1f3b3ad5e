-- What a kilowatt-hour costs in a workshop, by weekday and hour of its own clock. Money is whole
-- numbers: 10^-scale of the currency's minor unit.
CREATE TABLE tariff (
  workshop_id      uuid PRIMARY KEY REFERENCES workshop,
  currency         text NOT NULL CHECK (currency ~ '^[A-Z]{3}$'),
  scale            smallint NOT NULL CHECK (scale BETWEEN 0 AND 4),
  standing_per_day bigint CHECK (standing_per_day BETWEEN 0 AND 1000000000000)
);

-- One weekday of one band; `position` tells which rows were typed as one.
CREATE TABLE tariff_span (
  workshop_id uuid NOT NULL REFERENCES tariff,
  position    smallint NOT NULL CHECK (position >= 0),
  weekday     smallint NOT NULL CHECK (weekday BETWEEN 1 AND 7),
  name        text NOT NULL CHECK (length(trim(name)) > 0),
  from_min    smallint NOT NULL CHECK (from_min BETWEEN 0 AND 1439),
  to_min      smallint NOT NULL CHECK (to_min BETWEEN 1 AND 1440),
  price       bigint NOT NULL CHECK (price BETWEEN 0 AND 1000000000000),
  PRIMARY KEY (workshop_id, position, weekday),
  CONSTRAINT tariff_span_forward CHECK (to_min > from_min),
  CONSTRAINT tariff_span_apart EXCLUDE USING gist
    (workshop_id WITH =, weekday WITH =, int4range(from_min, to_min) WITH &&)
);

-- Spans that do not overlap and together last a week leave no gap; checked when the transaction commits.
CREATE FUNCTION tariff_is_whole() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  whose uuid := CASE WHEN TG_OP = 'DELETE' THEN OLD.workshop_id ELSE NEW.workshop_id END;
  priced integer;
BEGIN
  IF NOT EXISTS (SELECT FROM tariff WHERE workshop_id = whose) THEN RETURN NULL; END IF;
  SELECT coalesce(sum(to_min - from_min), 0) INTO priced FROM tariff_span WHERE workshop_id = whose;
  IF priced <> 7 * 1440 THEN
    RAISE EXCEPTION 'the tariff of workshop % prices % of 10080 minutes', whose, priced
      USING ERRCODE = 'LB004', CONSTRAINT = 'tariff_is_whole', TABLE = 'tariff_span';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER tariff_is_whole AFTER INSERT OR UPDATE ON tariff
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION tariff_is_whole();
CREATE CONSTRAINT TRIGGER tariff_is_whole AFTER INSERT OR UPDATE OR DELETE ON tariff_span
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION tariff_is_whole();

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['tariff','tariff_span'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY one_workshop ON %I
      USING (workshop_id = current_workshop()) WITH CHECK (workshop_id = current_workshop())', t);
  END LOOP;
END $$;

GRANT SELECT, INSERT, UPDATE, DELETE ON tariff, tariff_span TO lehrbook_app;

-- From which full hour of its own clock a workshop is told of tomorrow's loads and lifts.
ALTER TABLE workshop ADD COLUMN tomorrow_hour smallint NOT NULL DEFAULT 17 CHECK (tomorrow_hour BETWEEN 0 AND 23);

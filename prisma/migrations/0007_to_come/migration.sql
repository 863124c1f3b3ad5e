-- The firings that still stand, with what a search for time asks of them: read from the index alone, past ones unseen.
CREATE INDEX firing_to_come ON firing (workshop_id, firing_id) INCLUDE (heating_hours) WHERE status IN ('planned','started');

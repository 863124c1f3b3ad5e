-- Whatever heats around a run is found by when its door closed; next to none heats for more than five days, and those are found apart.
DROP INDEX firing_heats_long;
CREATE INDEX firing_heats_long ON firing (workshop_id, firing_id) WHERE heating_hours > 120 AND status IN ('held','planned','started');

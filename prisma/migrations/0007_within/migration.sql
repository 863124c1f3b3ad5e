-- Which kilns heat at a time, found by when their doors close. Few heat for longer than a fortnight; those are found apart.
CREATE INDEX booking_door_closed ON booking (workshop_id, starts_at) WHERE standing AND purpose = 'kiln';
CREATE INDEX firing_heats_long ON firing (workshop_id, firing_id) WHERE heating_hours > 336 AND status IN ('held','planned','started');

-- Held runs stand too.
DROP INDEX firing_to_come;
CREATE INDEX firing_to_come ON firing (workshop_id, firing_id) INCLUDE (heating_hours) WHERE status IN ('held','planned','started');

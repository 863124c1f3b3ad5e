-- What people attend to around one run is read by when it begins, whichever steamer or trolley it is: next to all of it is over within a day.
CREATE INDEX booking_attended ON booking (workshop_id, starts_at) WHERE standing AND purpose <> 'kiln';
CREATE INDEX booking_attended_long ON booking (workshop_id, ends_at) WHERE standing AND purpose <> 'kiln' AND ends_at - starts_at > interval '1 day';

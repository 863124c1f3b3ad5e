-- A proposal to share a firing that nobody ended lapses at its deadline, and those concerned are told: like the job of
-- a mail, added by the transaction that makes it, with the owner's rights, and it only names it.
CREATE FUNCTION joining_is_to_lapse() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = pg_catalog, pg_temp AS $$
BEGIN
  PERFORM graphile_worker.add_job('lapse-joining', json_build_object('workshopId', NEW.workshop_id, 'joiningId', NEW.joining_id),
    run_at => NEW.expires_at, max_attempts => 32767, job_key => 'joining:' || NEW.joining_id);
  RETURN NULL;
END $$;
REVOKE EXECUTE ON FUNCTION joining_is_to_lapse FROM PUBLIC;
CREATE TRIGGER joining_is_to_lapse AFTER INSERT ON joining FOR EACH ROW WHEN (NEW.status = 'open') EXECUTE FUNCTION joining_is_to_lapse();

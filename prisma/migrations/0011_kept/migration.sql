-- What has served is not kept for ever: the worker, who signs in as the owner, deletes it once a day. Of these tables
-- the owner sees only what may be deleted, and the application's role still deletes nothing. For how long each is
-- kept, lib/contracts/kept.ts says to people, too.
DROP TRIGGER is_immutable ON receipt;
CREATE TRIGGER is_immutable BEFORE UPDATE ON receipt FOR EACH ROW EXECUTE FUNCTION is_immutable();

DO $$
DECLARE served record;
BEGIN
  FOR served IN VALUES
    ('receipt', 'at <= now() - interval ''30 days'''),
    ('mail', 'coalesce(sent_at, failed_at) <= now() - interval ''90 days'''),
    ('notice', 'read_at <= now() - interval ''90 days''')
  LOOP
    EXECUTE format('CREATE POLICY owner_finds ON %I FOR SELECT TO CURRENT_USER USING (%s)', served.column1, served.column2);
    EXECUTE format('CREATE POLICY owner_deletes ON %I FOR DELETE TO CURRENT_USER USING (%s)', served.column1, served.column2);
  END LOOP;
END $$;

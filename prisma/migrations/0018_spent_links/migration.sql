-- Links that open nothing any more hold addresses of people who may never have joined: they go like what 0011_kept lists.
CREATE POLICY owner_finds ON invitation FOR SELECT TO CURRENT_USER USING (coalesce(used_at, withdrawn_at, expires_at) <= now() - interval '90 days');
CREATE POLICY owner_deletes ON invitation FOR DELETE TO CURRENT_USER USING (coalesce(used_at, withdrawn_at, expires_at) <= now() - interval '90 days');

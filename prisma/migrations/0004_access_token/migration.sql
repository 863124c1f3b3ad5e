-- Tokens with which a workshop's own scripts come in, each a member's own. Only the hash of a token is kept.
CREATE TABLE access_token (
  workshop_id  uuid NOT NULL REFERENCES workshop,
  token_id     uuid NOT NULL DEFAULT gen_random_uuid(),
  member_id    uuid NOT NULL,
  name         text NOT NULL CHECK (length(trim(name)) BETWEEN 1 AND 60),
  -- The first characters, by which people tell their tokens apart.
  prefix       text NOT NULL,
  token_hash   text NOT NULL CHECK (token_hash ~ '^[0-9a-f]{64}$'),
  scopes       text[] NOT NULL CHECK (scopes <@ ARRAY['read','plan','book'] AND cardinality(scopes) > 0),
  created_at   timestamptz NOT NULL,
  last_used_at timestamptz,
  revoked_at   timestamptz,
  PRIMARY KEY (workshop_id, token_id),
  FOREIGN KEY (workshop_id, member_id) REFERENCES member,
  CONSTRAINT access_token_once UNIQUE (workshop_id, token_hash)
);
CREATE INDEX access_token_hash ON access_token (token_hash);
CREATE INDEX access_token_of_member ON access_token (workshop_id, member_id);

-- How many requests a token still has: one bucket for all processes. Unlogged, because a request must not wait for
-- the disk for it; after a crash every bucket is full again, which hurts nobody.
CREATE UNLOGGED TABLE token_allowance (
  workshop_id uuid NOT NULL,
  token_id    uuid NOT NULL,
  requests    double precision NOT NULL CHECK (requests >= 0),
  at          timestamptz NOT NULL,
  PRIMARY KEY (workshop_id, token_id),
  FOREIGN KEY (workshop_id, token_id) REFERENCES access_token
) WITH (fillfactor = 50);

DO $$
DECLARE t text;
BEGIN
  FOREACH t IN ARRAY ARRAY['access_token','token_allowance'] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %I FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY one_workshop ON %I
      USING (workshop_id = current_workshop()) WITH CHECK (workshop_id = current_workshop())', t);
  END LOOP;
END $$;
-- Whoever holds a token finds that one token, before a workshop is known.
CREATE POLICY own_token ON access_token FOR SELECT
  USING (token_hash = nullif(current_setting('lehrbook.token', true), ''));

-- Whose token this is, and one request off its allowance, in one statement; no row for a token that opens nothing.
-- `wait_seconds` is null, or how long until the next request when none is left. It runs with the rights of its caller:
-- the token's hash opens the token, the token names the workshop, and both names are taken back before it returns
-- (a SET clause would do that too, but only a superuser may write one for names of one's own).
CREATE FUNCTION use_token(wanted_hash text, used_at timestamptz, burst double precision, per_second double precision)
RETURNS TABLE (workshop_id uuid, workshop_name text, time_zone text, token_id uuid, token_name text, scopes text[],
               member_id uuid, person_id uuid, name text, email text, roles text[], wait_seconds double precision)
LANGUAGE plpgsql AS $$
#variable_conflict use_column
DECLARE
  token  access_token%ROWTYPE;
  left_over double precision;
BEGIN
  PERFORM set_config('lehrbook.token', wanted_hash, true);
  SELECT * INTO token FROM access_token WHERE token_hash = wanted_hash AND revoked_at IS NULL;
  IF NOT FOUND THEN
    PERFORM set_config('lehrbook.token', '', true);
    RETURN;
  END IF;
  PERFORM set_config('lehrbook.workshop', token.workshop_id::text, true);
  IF NOT EXISTS (SELECT FROM member m WHERE m.workshop_id = token.workshop_id AND m.member_id = token.member_id AND m.active) THEN
    PERFORM set_config('lehrbook.workshop', '', true), set_config('lehrbook.token', '', true);
    RETURN;
  END IF;
  -- A clock that is behind another process's gives nothing back twice.
  INSERT INTO token_allowance AS a (workshop_id, token_id, requests, at)
    VALUES (token.workshop_id, token.token_id, burst - 1, used_at)
    ON CONFLICT (workshop_id, token_id) DO UPDATE
      SET requests = least(burst, a.requests + per_second * greatest(0, extract(epoch FROM used_at - a.at))) - 1,
          at = greatest(a.at, used_at)
      WHERE least(burst, a.requests + per_second * greatest(0, extract(epoch FROM used_at - a.at))) >= 1
    RETURNING a.requests INTO left_over;
  IF left_over IS NULL THEN
    SELECT greatest(0, (1 - a.requests) / per_second - extract(epoch FROM used_at - a.at)) INTO wait_seconds
      FROM token_allowance a WHERE a.workshop_id = token.workshop_id AND a.token_id = token.token_id;
  ELSE
    -- To the minute: telling when a token was last used is not worth a write for every request.
    UPDATE access_token t SET last_used_at = used_at
     WHERE t.workshop_id = token.workshop_id AND t.token_id = token.token_id
       AND (t.last_used_at IS NULL OR t.last_used_at < used_at - interval '1 minute');
  END IF;
  RETURN QUERY
    SELECT w.workshop_id, w.name, w.time_zone, token.token_id, token.name, token.scopes,
           m.member_id, m.person_id, m.name, m.email, m.roles, wait_seconds
      FROM member m JOIN workshop w ON w.workshop_id = m.workshop_id
     WHERE m.workshop_id = token.workshop_id AND m.member_id = token.member_id;
  PERFORM set_config('lehrbook.workshop', '', true), set_config('lehrbook.token', '', true);
END $$;

-- By which token something was done, and what a repeated request asked for when it was first made.
ALTER TABLE audit ADD COLUMN token_id uuid,
  ADD CONSTRAINT audit_token_fkey FOREIGN KEY (workshop_id, token_id) REFERENCES access_token;
ALTER TABLE receipt ADD COLUMN request_hash text;

REVOKE EXECUTE ON FUNCTION use_token FROM PUBLIC;
GRANT EXECUTE ON FUNCTION use_token TO lehrbook_app;
GRANT SELECT, INSERT, UPDATE (last_used_at, revoked_at) ON access_token TO lehrbook_app;
GRANT SELECT, INSERT, UPDATE ON token_allowance TO lehrbook_app;

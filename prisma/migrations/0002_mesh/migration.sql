-- Pieces given by a scanned or modelled mesh. The file itself is not kept: what is calculated from it is.

CREATE TABLE mesh (
  workshop_id uuid NOT NULL REFERENCES workshop,
  mesh_id     uuid NOT NULL DEFAULT gen_random_uuid(),
  member_id   uuid NOT NULL,
  file_name   text NOT NULL CHECK (length(file_name) BETWEEN 1 AND 200),
  file_bytes  integer NOT NULL CHECK (file_bytes > 0),
  sha256      text NOT NULL CHECK (sha256 ~ '^[0-9a-f]{64}$'),
  unit        text NOT NULL CHECK (unit IN ('mm','cm','m','inch')),
  up          text NOT NULL CHECK (up IN ('+x','-x','+y','-y','+z','-z')),
  state       text NOT NULL DEFAULT 'waiting'
              CHECK (state IN ('waiting','reading','checking','filling','solving','done','refused')),
  percent     smallint NOT NULL DEFAULT 0 CHECK (percent BETWEEN 0 AND 100),
  -- The process that reads it says every few seconds that it still does.
  touched_at  timestamptz NOT NULL,
  problems    jsonb,
  triangles   integer CHECK (triangles > 0),
  body        jsonb,
  drawing     bytea,
  created_at  timestamptz NOT NULL DEFAULT now(),
  PRIMARY KEY (workshop_id, mesh_id),
  FOREIGN KEY (workshop_id, member_id) REFERENCES member,
  CONSTRAINT mesh_done_is_whole CHECK ((state = 'done') = (body IS NOT NULL AND drawing IS NOT NULL AND triangles IS NOT NULL)),
  CONSTRAINT mesh_refused_has_reason CHECK ((state = 'refused') = (problems IS NOT NULL))
);
CREATE INDEX mesh_of_member ON mesh (workshop_id, member_id, created_at);

-- Plans rest on it: once read, a mesh never changes.
CREATE TRIGGER is_immutable BEFORE UPDATE ON mesh
  FOR EACH ROW WHEN (OLD.state IN ('done','refused')) EXECUTE FUNCTION is_immutable();

-- A casting or a plan that names a mesh names one of its own workshop, and that mesh stays.
ALTER TABLE casting ADD COLUMN mesh_id uuid GENERATED ALWAYS AS ((input #>> '{piece,meshId}')::uuid) STORED,
  ADD FOREIGN KEY (workshop_id, mesh_id) REFERENCES mesh;
CREATE INDEX casting_of_mesh ON casting (workshop_id, mesh_id);
ALTER TABLE plan ADD COLUMN mesh_id uuid GENERATED ALWAYS AS ((inputs #>> '{piece,meshId}')::uuid) STORED,
  ADD FOREIGN KEY (workshop_id, mesh_id) REFERENCES mesh;
CREATE INDEX plan_of_mesh ON plan (workshop_id, mesh_id);

ALTER TABLE mesh ENABLE ROW LEVEL SECURITY;
ALTER TABLE mesh FORCE ROW LEVEL SECURITY;
CREATE POLICY one_workshop ON mesh
  USING (workshop_id = current_workshop()) WITH CHECK (workshop_id = current_workshop());
-- DELETE: what no casting and no plan names is forgotten after a while; the foreign keys keep the rest.
GRANT SELECT, INSERT, UPDATE, DELETE ON mesh TO lehrbook_app;

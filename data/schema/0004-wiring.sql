-- Fittings, cylindrical fuses, and the figures circuits are worked out from. Ranges are those of the field
-- table, as in 0001. SQLite cannot widen a CHECK, so three tables are made anew with their rows; foreign keys
-- are off while a migration runs, and all of them are checked before it counts.

CREATE TABLE new_part (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64 AND id NOT GLOB '*[^a-z0-9-]*' AND id NOT GLOB '-*'),
  kind TEXT NOT NULL CHECK (kind IN ('panel', 'controller', 'storage', 'inverter', 'dcdc', 'conductor', 'fuse', 'fitting')),
  UNIQUE (id, kind)
) STRICT;
INSERT INTO new_part (id, kind) SELECT id, kind FROM part;
DROP TABLE part;
ALTER TABLE new_part RENAME TO part;

CREATE TABLE new_fuse (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64 AND id NOT GLOB '*[^a-z0-9-]*' AND id NOT GLOB '-*'),
  maker TEXT NOT NULL CHECK (length(maker) <= 200),
  model TEXT NOT NULL CHECK (length(model) <= 200),
  notes TEXT NOT NULL CHECK (length(notes) <= 20000),
  weight_kg REAL NOT NULL CHECK (weight_kg BETWEEN 0 AND 2000),
  form TEXT NOT NULL CHECK (form IN ('blade', 'midi', 'mega', 'anl', 'class-t', 'terminal', 'gpv')),
  rating_a REAL NOT NULL CHECK (rating_a BETWEEN 0.05 AND 5000),
  max_v REAL NOT NULL CHECK (max_v BETWEEN 1 AND 2000),
  interrupt_a REAL NOT NULL CHECK (interrupt_a BETWEEN 1 AND 1000000),
  kind TEXT NOT NULL DEFAULT 'fuse' CHECK (kind = 'fuse'),
  FOREIGN KEY (id, kind) REFERENCES part (id, kind) ON DELETE CASCADE
) STRICT;
INSERT INTO new_fuse (id, maker, model, notes, weight_kg, form, rating_a, max_v, interrupt_a)
  SELECT id, maker, model, notes, weight_kg, form, rating_a, max_v, interrupt_a FROM fuse;
DROP TABLE fuse;
ALTER TABLE new_fuse RENAME TO fuse;

-- An internal resistance of 0 was accepted and meant that it was not known.
CREATE TABLE new_storage (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64 AND id NOT GLOB '*[^a-z0-9-]*' AND id NOT GLOB '-*'),
  maker TEXT NOT NULL CHECK (length(maker) <= 200),
  model TEXT NOT NULL CHECK (length(model) <= 200),
  notes TEXT NOT NULL CHECK (length(notes) <= 20000),
  weight_kg REAL NOT NULL CHECK (weight_kg BETWEEN 0 AND 2000),
  chemistry TEXT NOT NULL REFERENCES chemistry (id),
  nominal_v REAL NOT NULL CHECK (nominal_v BETWEEN 1 AND 120),
  capacity_ah REAL NOT NULL CHECK (capacity_ah BETWEEN 0.1 AND 20000),
  rated_hours REAL NOT NULL CHECK (rated_hours BETWEEN 0.1 AND 240),
  depth_limit REAL CHECK (depth_limit BETWEEN 0.01 AND 1),
  peukert REAL CHECK (peukert BETWEEN 1 AND 2),
  charge_v REAL CHECK (charge_v BETWEEN 1 AND 160),
  max_charge_a REAL NOT NULL CHECK (max_charge_a BETWEEN 0.01 AND 20000),
  min_charge_a REAL CHECK (min_charge_a BETWEEN 0 AND 20000),
  max_discharge_a REAL NOT NULL CHECK (max_discharge_a BETWEEN 0.01 AND 20000),
  surge_discharge_a REAL CHECK (surge_discharge_a BETWEEN 0.01 AND 50000),
  max_series INTEGER NOT NULL CHECK (max_series BETWEEN 1 AND 100),
  max_parallel INTEGER NOT NULL CHECK (max_parallel BETWEEN 1 AND 100),
  internal_mohm REAL CHECK (internal_mohm BETWEEN 0.01 AND 10000),
  heated INTEGER NOT NULL CHECK (heated IN (0, 1)),
  heater_w REAL CHECK (heater_w BETWEEN 1 AND 1000),
  length_mm INTEGER NOT NULL CHECK (length_mm BETWEEN 10 AND 10000),
  width_mm INTEGER NOT NULL CHECK (width_mm BETWEEN 10 AND 10000),
  height_mm INTEGER NOT NULL CHECK (height_mm BETWEEN 10 AND 10000),
  must_not_turn INTEGER NOT NULL CHECK (must_not_turn IN (0, 1)),
  kind TEXT NOT NULL DEFAULT 'storage' CHECK (kind = 'storage'),
  FOREIGN KEY (id, kind) REFERENCES part (id, kind) ON DELETE CASCADE
) STRICT;
INSERT INTO new_storage (id, maker, model, notes, weight_kg, chemistry, nominal_v, capacity_ah, rated_hours,
    depth_limit, peukert, charge_v, max_charge_a, min_charge_a, max_discharge_a, surge_discharge_a, max_series,
    max_parallel, internal_mohm, heated, heater_w, length_mm, width_mm, height_mm, must_not_turn)
  SELECT id, maker, model, notes, weight_kg, chemistry, nominal_v, capacity_ah, rated_hours,
    depth_limit, peukert, charge_v, max_charge_a, min_charge_a, max_discharge_a, surge_discharge_a, max_series,
    max_parallel, CASE WHEN internal_mohm >= 0.01 THEN internal_mohm END, heated, heater_w, length_mm,
    width_mm, height_mm, must_not_turn FROM storage;
DROP TABLE storage;
ALTER TABLE new_storage RENAME TO storage;
CREATE INDEX storage_by_chemistry ON storage (chemistry);

-- What each role needs is what wb_row_conflict asks.
CREATE TABLE fitting (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64 AND id NOT GLOB '*[^a-z0-9-]*' AND id NOT GLOB '-*'),
  maker TEXT NOT NULL CHECK (length(maker) <= 200),
  model TEXT NOT NULL CHECK (length(model) <= 200),
  notes TEXT NOT NULL CHECK (length(notes) <= 20000),
  weight_kg REAL NOT NULL CHECK (weight_kg BETWEEN 0 AND 2000),
  role TEXT NOT NULL CHECK (role IN ('holder', 'lug', 'switch', 'block', 'bus')),
  form TEXT NOT NULL CHECK (form IN ('blade', 'midi', 'mega', 'anl', 'class-t', 'terminal', 'gpv', 'none')),
  max_a REAL CHECK (max_a BETWEEN 0.05 AND 5000),
  max_v REAL CHECK (max_v BETWEEN 1 AND 2000),
  min_area_mm2 REAL CHECK (min_area_mm2 BETWEEN 0.01 AND 2000),
  max_area_mm2 REAL CHECK (max_area_mm2 BETWEEN 0.01 AND 2000),
  ways INTEGER NOT NULL CHECK (ways BETWEEN 0 AND 100),
  kind TEXT NOT NULL DEFAULT 'fitting' CHECK (kind = 'fitting'),
  CHECK (form <> 'none' OR role NOT IN ('holder', 'block')),
  CHECK (max_a IS NOT NULL OR role = 'lug'),
  CHECK (max_v IS NOT NULL OR role IN ('lug', 'bus')),
  CHECK (role <> 'lug' OR (min_area_mm2 IS NOT NULL AND max_area_mm2 IS NOT NULL)),
  CHECK (min_area_mm2 <= max_area_mm2),
  CHECK (role <> 'block' OR ways >= 1),
  FOREIGN KEY (id, kind) REFERENCES part (id, kind) ON DELETE CASCADE
) STRICT;

ALTER TABLE controller ADD COLUMN start_headroom_v REAL CHECK (start_headroom_v BETWEEN 0 AND 100);
ALTER TABLE chemistry ADD COLUMN end_v_per_cell REAL CHECK (end_v_per_cell BETWEEN 0.5 AND 10);
ALTER TABLE chemistry ADD COLUMN cell_mohm_100ah REAL CHECK (cell_mohm_100ah BETWEEN 0.01 AND 100);

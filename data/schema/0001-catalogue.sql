-- The catalogue. Ranges are those of the field table (app/core/part/part_fields.c); a test compares
-- them. Money is whole minor units of an ISO 4217 currency. A missing figure is NULL.

-- Every part of every kind: ids are unique across kinds.
CREATE TABLE part (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64 AND id NOT GLOB '*[^a-z0-9-]*' AND id NOT GLOB '-*'),
  kind TEXT NOT NULL CHECK (kind IN ('panel', 'controller', 'storage', 'inverter', 'dcdc', 'conductor', 'fuse')),
  UNIQUE (id, kind)
) STRICT;

CREATE TABLE chemistry (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64 AND id NOT GLOB '*[^a-z0-9-]*' AND id NOT GLOB '-*'),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 200),
  family TEXT NOT NULL CHECK (family IN ('lead-acid', 'lithium', 'other')),
  gassing TEXT NOT NULL CHECK (gassing IN ('none', 'valve-regulated', 'vented')),
  cell_v REAL NOT NULL CHECK (cell_v BETWEEN 0.5 AND 10),
  charge_v_per_cell REAL NOT NULL CHECK (charge_v_per_cell BETWEEN 0.5 AND 10),
  depth_limit REAL NOT NULL CHECK (depth_limit BETWEEN 0.01 AND 1),
  charge_efficiency REAL NOT NULL CHECK (charge_efficiency BETWEEN 0.01 AND 1),
  discharge_efficiency REAL NOT NULL CHECK (discharge_efficiency BETWEEN 0.01 AND 1),
  peukert REAL NOT NULL CHECK (peukert BETWEEN 1 AND 2),
  min_charge_c REAL CHECK (min_charge_c BETWEEN -100 AND 60),
  self_discharge_pct_month REAL NOT NULL CHECK (self_discharge_pct_month BETWEEN 0 AND 100),
  calendar_years REAL NOT NULL CHECK (calendar_years BETWEEN 0.1 AND 100)
) STRICT;

CREATE TABLE shop (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64 AND id NOT GLOB '*[^a-z0-9-]*' AND id NOT GLOB '-*'),
  name TEXT NOT NULL CHECK (length(name) BETWEEN 1 AND 200),
  shipping_minor INTEGER NOT NULL CHECK (shipping_minor BETWEEN 0 AND 9007199254740992),
  currency TEXT NOT NULL CHECK (currency GLOB '[A-Z][A-Z][A-Z]')
) STRICT;

CREATE TABLE panel (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64 AND id NOT GLOB '*[^a-z0-9-]*' AND id NOT GLOB '-*'),
  maker TEXT NOT NULL CHECK (length(maker) <= 200),
  model TEXT NOT NULL CHECK (length(model) <= 200),
  notes TEXT NOT NULL CHECK (length(notes) <= 20000),
  weight_kg REAL NOT NULL CHECK (weight_kg BETWEEN 0 AND 2000),
  power_w REAL NOT NULL CHECK (power_w BETWEEN 0.1 AND 2000),
  voc_v REAL NOT NULL CHECK (voc_v BETWEEN 0.5 AND 500),
  vmp_v REAL NOT NULL CHECK (vmp_v BETWEEN 0.4 AND 500),
  isc_a REAL NOT NULL CHECK (isc_a BETWEEN 0.01 AND 100),
  imp_a REAL NOT NULL CHECK (imp_a BETWEEN 0.01 AND 100),
  voc_coeff_pct_k REAL CHECK (voc_coeff_pct_k BETWEEN -1 AND 0),
  isc_coeff_pct_k REAL CHECK (isc_coeff_pct_k BETWEEN -0.5 AND 1),
  power_coeff_pct_k REAL CHECK (power_coeff_pct_k BETWEEN -1 AND 0),
  noct_c REAL CHECK (noct_c BETWEEN 20 AND 90),
  cells INTEGER NOT NULL CHECK (cells BETWEEN 0 AND 600),
  max_system_v REAL CHECK (max_system_v BETWEEN 10 AND 2000),
  series_fuse_a REAL CHECK (series_fuse_a BETWEEN 0.5 AND 100),
  length_mm INTEGER NOT NULL CHECK (length_mm BETWEEN 10 AND 10000),
  width_mm INTEGER NOT NULL CHECK (width_mm BETWEEN 10 AND 10000),
  thickness_mm INTEGER NOT NULL CHECK (thickness_mm BETWEEN 0 AND 500),
  build TEXT NOT NULL CHECK (build IN ('rigid', 'flexible')),
  mount_kg REAL NOT NULL CHECK (mount_kg BETWEEN 0 AND 200),
  kind TEXT NOT NULL DEFAULT 'panel' CHECK (kind = 'panel'),
  CHECK (vmp_v < voc_v),
  CHECK (imp_a <= isc_a),
  FOREIGN KEY (id, kind) REFERENCES part (id, kind) ON DELETE CASCADE
) STRICT;

CREATE TABLE controller (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64 AND id NOT GLOB '*[^a-z0-9-]*' AND id NOT GLOB '-*'),
  maker TEXT NOT NULL CHECK (length(maker) <= 200),
  model TEXT NOT NULL CHECK (length(model) <= 200),
  notes TEXT NOT NULL CHECK (length(notes) <= 20000),
  weight_kg REAL NOT NULL CHECK (weight_kg BETWEEN 0 AND 2000),
  technology TEXT NOT NULL CHECK (technology IN ('pwm', 'mppt')),
  max_pv_v REAL NOT NULL CHECK (max_pv_v BETWEEN 5 AND 2000),
  max_pv_a REAL NOT NULL CHECK (max_pv_a BETWEEN 0.1 AND 1000),
  max_pv_w_12v REAL CHECK (max_pv_w_12v BETWEEN 1 AND 50000),
  rated_output_a REAL NOT NULL CHECK (rated_output_a BETWEEN 0.1 AND 1000),
  bus_12v INTEGER NOT NULL CHECK (bus_12v IN (0, 1)),
  bus_24v INTEGER NOT NULL CHECK (bus_24v IN (0, 1)),
  bus_48v INTEGER NOT NULL CHECK (bus_48v IN (0, 1)),
  efficiency REAL NOT NULL CHECK (efficiency BETWEEN 0.01 AND 1),
  idle_w REAL NOT NULL CHECK (idle_w BETWEEN 0 AND 200),
  headroom_v REAL NOT NULL CHECK (headroom_v BETWEEN 0 AND 100),
  profile_adjustable INTEGER NOT NULL CHECK (profile_adjustable IN (0, 1)),
  profiles TEXT NOT NULL CHECK (length(profiles) <= 20000 AND profiles NOT GLOB '*[^a-z0-9 -]*'),
  kind TEXT NOT NULL DEFAULT 'controller' CHECK (kind = 'controller'),
  FOREIGN KEY (id, kind) REFERENCES part (id, kind) ON DELETE CASCADE
) STRICT;

CREATE TABLE storage (
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
  internal_mohm REAL CHECK (internal_mohm BETWEEN 0 AND 10000),
  heated INTEGER NOT NULL CHECK (heated IN (0, 1)),
  length_mm INTEGER NOT NULL CHECK (length_mm BETWEEN 10 AND 10000),
  width_mm INTEGER NOT NULL CHECK (width_mm BETWEEN 10 AND 10000),
  height_mm INTEGER NOT NULL CHECK (height_mm BETWEEN 10 AND 10000),
  kind TEXT NOT NULL DEFAULT 'storage' CHECK (kind = 'storage'),
  FOREIGN KEY (id, kind) REFERENCES part (id, kind) ON DELETE CASCADE
) STRICT;
CREATE INDEX storage_by_chemistry ON storage (chemistry);

CREATE TABLE inverter (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64 AND id NOT GLOB '*[^a-z0-9-]*' AND id NOT GLOB '-*'),
  maker TEXT NOT NULL CHECK (length(maker) <= 200),
  model TEXT NOT NULL CHECK (length(model) <= 200),
  notes TEXT NOT NULL CHECK (length(notes) <= 20000),
  weight_kg REAL NOT NULL CHECK (weight_kg BETWEEN 0 AND 2000),
  bus_v INTEGER NOT NULL CHECK (bus_v IN (12, 24, 48)),
  waveform TEXT NOT NULL CHECK (waveform IN ('pure-sine', 'modified-sine', 'square')),
  continuous_w REAL NOT NULL CHECK (continuous_w BETWEEN 1 AND 100000),
  surge_w REAL NOT NULL CHECK (surge_w BETWEEN 1 AND 300000),
  idle_w REAL NOT NULL CHECK (idle_w BETWEEN 0 AND 1000),
  min_v REAL CHECK (min_v BETWEEN 1 AND 100),
  max_v REAL CHECK (max_v BETWEEN 5 AND 150),
  kind TEXT NOT NULL DEFAULT 'inverter' CHECK (kind = 'inverter'),
  FOREIGN KEY (id, kind) REFERENCES part (id, kind) ON DELETE CASCADE
) STRICT;

CREATE TABLE dcdc (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64 AND id NOT GLOB '*[^a-z0-9-]*' AND id NOT GLOB '-*'),
  maker TEXT NOT NULL CHECK (length(maker) <= 200),
  model TEXT NOT NULL CHECK (length(model) <= 200),
  notes TEXT NOT NULL CHECK (length(notes) <= 20000),
  weight_kg REAL NOT NULL CHECK (weight_kg BETWEEN 0 AND 2000),
  input_v INTEGER NOT NULL CHECK (input_v IN (12, 24, 48)),
  output_v INTEGER NOT NULL CHECK (output_v IN (12, 24, 48)),
  output_a REAL NOT NULL CHECK (output_a BETWEEN 0.1 AND 1000),
  efficiency REAL NOT NULL CHECK (efficiency BETWEEN 0.01 AND 1),
  profile_adjustable INTEGER NOT NULL CHECK (profile_adjustable IN (0, 1)),
  profiles TEXT NOT NULL CHECK (length(profiles) <= 20000 AND profiles NOT GLOB '*[^a-z0-9 -]*'),
  kind TEXT NOT NULL DEFAULT 'dcdc' CHECK (kind = 'dcdc'),
  FOREIGN KEY (id, kind) REFERENCES part (id, kind) ON DELETE CASCADE
) STRICT;

CREATE TABLE conductor (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64 AND id NOT GLOB '*[^a-z0-9-]*' AND id NOT GLOB '-*'),
  maker TEXT NOT NULL CHECK (length(maker) <= 200),
  model TEXT NOT NULL CHECK (length(model) <= 200),
  notes TEXT NOT NULL CHECK (length(notes) <= 20000),
  weight_kg REAL NOT NULL CHECK (weight_kg BETWEEN 0 AND 2000),
  system TEXT NOT NULL CHECK (system IN ('awg', 'metric')),
  size TEXT NOT NULL CHECK (length(size) BETWEEN 1 AND 200),
  area_mm2 REAL NOT NULL CHECK (area_mm2 BETWEEN 0.01 AND 2000),
  r20_ohm_km REAL NOT NULL CHECK (r20_ohm_km BETWEEN 0.005 AND 2000),
  insulation_c INTEGER NOT NULL CHECK (insulation_c IN (60, 75, 90, 105, 125, 200)),
  kind TEXT NOT NULL DEFAULT 'conductor' CHECK (kind = 'conductor'),
  FOREIGN KEY (id, kind) REFERENCES part (id, kind) ON DELETE CASCADE
) STRICT;

CREATE TABLE fuse (
  id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64 AND id NOT GLOB '*[^a-z0-9-]*' AND id NOT GLOB '-*'),
  maker TEXT NOT NULL CHECK (length(maker) <= 200),
  model TEXT NOT NULL CHECK (length(model) <= 200),
  notes TEXT NOT NULL CHECK (length(notes) <= 20000),
  weight_kg REAL NOT NULL CHECK (weight_kg BETWEEN 0 AND 2000),
  form TEXT NOT NULL CHECK (form IN ('blade', 'midi', 'mega', 'anl', 'class-t', 'terminal')),
  rating_a REAL NOT NULL CHECK (rating_a BETWEEN 0.05 AND 5000),
  max_v REAL NOT NULL CHECK (max_v BETWEEN 1 AND 2000),
  interrupt_a REAL NOT NULL CHECK (interrupt_a BETWEEN 1 AND 1000000),
  kind TEXT NOT NULL DEFAULT 'fuse' CHECK (kind = 'fuse'),
  FOREIGN KEY (id, kind) REFERENCES part (id, kind) ON DELETE CASCADE
) STRICT;

CREATE TABLE offer (
  part_id TEXT NOT NULL REFERENCES part (id) ON DELETE CASCADE,
  shop_id TEXT NOT NULL REFERENCES shop (id),
  price_minor INTEGER NOT NULL CHECK (price_minor BETWEEN 0 AND 9007199254740992),
  currency TEXT NOT NULL CHECK (currency GLOB '[A-Z][A-Z][A-Z]'),
  date TEXT NOT NULL CHECK (date GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]' AND date IS date(date)),
  PRIMARY KEY (part_id, shop_id, date)
) STRICT;
CREATE INDEX offer_by_shop ON offer (shop_id);

-- Points of the curves of parts and chemistries, in order of x.
CREATE TABLE curve_point (
  part_id TEXT REFERENCES part (id) ON DELETE CASCADE,
  chemistry_id TEXT REFERENCES chemistry (id) ON DELETE CASCADE,
  curve TEXT NOT NULL CHECK (curve IN ('capacity_by_c', 'cycles_by_depth', 'freezing_by_depth', 'efficiency')),
  position INTEGER NOT NULL CHECK (position BETWEEN 0 AND 15),
  x REAL NOT NULL CHECK (x BETWEEN -1e9 AND 1e9),
  y REAL NOT NULL CHECK (CASE curve
    WHEN 'capacity_by_c' THEN y BETWEEN 0 AND 2
    WHEN 'cycles_by_depth' THEN y BETWEEN 1 AND 1000000
    WHEN 'freezing_by_depth' THEN y BETWEEN -150 AND 20
    WHEN 'efficiency' THEN y BETWEEN 0.01 AND 1
    END),
  CHECK ((part_id IS NULL) <> (chemistry_id IS NULL)),
  UNIQUE (part_id, curve, position),
  UNIQUE (chemistry_id, curve, position)
) STRICT;

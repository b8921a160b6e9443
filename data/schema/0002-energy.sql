-- Figures of the hourly year: efficiency of a panel in low light, power of a battery's heater, what a
-- chemistry takes near full charge. Ranges are those of the field table, as in 0001.

ALTER TABLE panel ADD COLUMN low_light_pct REAL CHECK (low_light_pct BETWEEN 50 AND 105);
ALTER TABLE storage ADD COLUMN heater_w REAL CHECK (heater_w BETWEEN 1 AND 1000);
ALTER TABLE chemistry ADD COLUMN charge_efficiency_full REAL CHECK (charge_efficiency_full BETWEEN 0.01 AND 1);
ALTER TABLE chemistry ADD COLUMN accept_c REAL CHECK (accept_c BETWEEN 0.001 AND 10);
ALTER TABLE chemistry ADD COLUMN accept_from REAL CHECK (accept_from BETWEEN 0 AND 0.999);
ALTER TABLE chemistry ADD COLUMN accept_full_c REAL CHECK (accept_full_c BETWEEN 0 AND 10)
  CHECK ((accept_c IS NULL) = (accept_from IS NULL) AND (accept_c IS NULL) = (accept_full_c IS NULL))
  CHECK (accept_full_c <= accept_c);

-- A catalogue made before gets them for the rows it started with, where they are still of the family
-- they were of. The person's own rows are left without: the program then says what it assumes. The
-- values are those of starting-catalogue.json; a test compares them.
UPDATE chemistry SET charge_efficiency_full = 0.6, accept_c = 0.3, accept_from = 0.8, accept_full_c = 0.01
  WHERE id = 'agm' AND family = 'lead-acid';
UPDATE chemistry SET charge_efficiency_full = 0.5, accept_c = 0.25, accept_from = 0.8, accept_full_c = 0.02
  WHERE id = 'flooded' AND family = 'lead-acid';
UPDATE chemistry SET charge_efficiency_full = 0.6, accept_c = 0.2, accept_from = 0.8, accept_full_c = 0.01
  WHERE id = 'gel' AND family = 'lead-acid';
UPDATE chemistry SET accept_c = 1, accept_from = 0.95, accept_full_c = 0.05
  WHERE id = 'lfp' AND family = 'lithium';
UPDATE chemistry SET accept_c = 1, accept_from = 0.9, accept_full_c = 0.05
  WHERE id = 'nmc' AND family = 'lithium';
UPDATE storage SET heater_w = 45 WHERE id = 'b-hobstone-12v-100-lfp-heated' AND heated = 1;
UPDATE storage SET heater_w = 80 WHERE id = 'b-hobstone-12v-200-lfp-heated' AND heated = 1;
UPDATE panel SET low_light_pct = 94 WHERE build = 'flexible' AND id IN (
  'p-papyrel-165-flexible');
UPDATE panel SET low_light_pct = 94.5 WHERE build = 'flexible' AND id IN (
  'p-papyrel-200-flexible', 'p-papyrel-270-flexible', 'p-sundrell-110-flexible', 'p-sundrell-150-flexible',
  'p-sundrell-55-flexible');
UPDATE panel SET low_light_pct = 95 WHERE build = 'rigid' AND id IN (
  'p-orrelith-250-rigid');
UPDATE panel SET low_light_pct = 95.5 WHERE build = 'rigid' AND id IN (
  'p-brambleray-100-rigid', 'p-brambleray-120-rigid');
UPDATE panel SET low_light_pct = 96 WHERE build = 'rigid' AND id IN (
  'p-brambleray-160-rigid', 'p-orrelith-100-rigid', 'p-tarnfeld-300-rigid');
UPDATE panel SET low_light_pct = 96.5 WHERE build = 'rigid' AND id IN (
  'p-orrelith-175-rigid', 'p-tarnfeld-190-rigid', 'p-tarnfeld-200-rigid', 'p-tarnfeld-335-rigid',
  'p-tarnfeld-90-rigid');
UPDATE panel SET low_light_pct = 97 WHERE build = 'rigid' AND id IN (
  'p-quernlight-130-rigid', 'p-quernlight-240-rigid', 'p-quernlight-375-rigid', 'p-quernlight-410-rigid',
  'p-tarnfeld-215-rigid');
UPDATE panel SET low_light_pct = 97.5 WHERE build = 'rigid' AND id IN (
  'p-sundrell-430-rigid', 'p-sundrell-450-rigid');

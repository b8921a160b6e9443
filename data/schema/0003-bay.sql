-- How a battery may stand in the bay. A catalogue made before said nothing of it: there each may be turned.

ALTER TABLE storage ADD COLUMN must_not_turn INTEGER NOT NULL DEFAULT 0 CHECK (must_not_turn IN (0, 1));

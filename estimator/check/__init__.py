"""Step 2: rows become records, or a list of problems; the torch kit, from records and the tables."""

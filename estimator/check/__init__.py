"""Step 2: rows become records, or a list of problems."""

"""Step 1: a file becomes rows that remember their cells."""

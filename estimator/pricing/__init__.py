"""Step 4: quantities times rates become money. Knows no files."""

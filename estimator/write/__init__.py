"""Step 5: results become workbooks, cards and pages."""

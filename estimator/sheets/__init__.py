"""What every workbook looks like, stated once: sheet, column, unit, needs, why, example."""

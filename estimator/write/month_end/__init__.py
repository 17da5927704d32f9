"""The month end's outputs: the terminal's few lines, JSON, the workbook, and the page for the supplier."""

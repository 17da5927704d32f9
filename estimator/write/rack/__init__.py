"""The answer of ``rack`` written out: terminal text, JSON, workbook, settings card."""

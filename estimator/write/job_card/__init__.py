"""The job card: one page for the bench, as a workbook and as a PDF, that comes back as rows of the work log."""

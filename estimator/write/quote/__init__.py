"""The customer's page, as a workbook and as a PDF: prices and words, and nothing of what the shop pays or takes."""

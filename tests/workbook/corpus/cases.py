"""All cases of the corpus."""

from tests.workbook.corpus import cells, languages, layouts, steelwork

CASES = [*languages.CASES, *layouts.CASES, *cells.CASES, *steelwork.CASES]

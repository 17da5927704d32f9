"""All cases of the corpus."""

from tests.workbook.corpus import cells, languages, layouts

CASES = [*languages.CASES, *layouts.CASES, *cells.CASES]

"""All cases of the corpus."""

from corpus import cells, languages, layouts

CASES = [*languages.CASES, *layouts.CASES, *cells.CASES]

"""All cases of the corpus."""

from tests.workbook.corpus import cells, customers, languages, layouts, remarks, rounds, shop_lists, steelwork, words

CASES = [
    *(*languages.CASES, *layouts.CASES, *cells.CASES),
    *(*steelwork.CASES, *words.CASES, *shop_lists.CASES, *rounds.CASES, *remarks.CASES, *customers.CASES),
]

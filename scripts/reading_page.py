"""The reference page on reading: heading wordings by column and language, notations with what each reads to."""

from __future__ import annotations

from estimator.problems import all_codes
from estimator.read.counts import read_count
from estimator.read.cut_list import sheet_gauges_in
from estimator.read.hole_cells import read_hole_cell
from estimator.read.hole_words import take_holes
from estimator.read.lengths import read_length
from estimator.read.numbers import Refused
from estimator.read.sizes import read_size
from estimator.read.text import BLANK_MARKS, DITTO_MARKS
from estimator.sheets.cut_list import CUT_LIST
from estimator.sheets.word_tables import word_table, words_of
from estimator.sheets.wordings import READING_COLUMNS, false_friends, wordings

__all__ = ["reading_page"]

_LENGTHS = (
    *("3/8", '1-1/2"', "1 1/2 in", "1½", '1.1/2"', "0.375", '.375"', "5'-3 1/2\"", "7'-3/4\"", "5'-3", "10mm", "10 MM"),
    *(
        "2.5m",
        "12,5",
        "1 200,5",
        "1,234.5",
        "t=12",
        "12 THK",
        "PL 3/8",
        "20PL",
        "8 mm Stark",
        "ép. 10",
        "Лист8",
        "-- 30",
    ),
    *("10 ga", "ga 10", '3/4" (19MM)', '11 gauge (0.12", 3mm)', "12 ±0.5", "Ø22", "L=1200"),
)
_NO_LENGTHS = (
    *(
        "1,234",
        "12-18mm",
        "11/2",
        "1/3",
        "3/8 mm",
        "5'-14\"",
        "1'200",
        "~12",
        "12?",
        "16 swg",
        "12 m2",
        "-12",
        "see dwg",
    ),
    *("6mm/1/4in", "0.190 (3/16) thick", "10x150", "12 16", "l0mm", "1e3", "s 10", "#10", "12 mm max"),
)
_SIZES = (
    *("10x150x300", "125 x 80 x 8", "20*2*1300", "PL3/8x6x12", "PL3/8 x 6 x 0'-8\"", "— 10x150x300", "PLT10*160"),
    *("945x180mm", "2x1m", "FB 50x10", 'Flat, 1/4" X 3-1/2"', "10 THK CHEQUER PLATE", "1/4 Hot rolled Steel"),
    *("380mm-circle-disc", "ring 400x250x25", "SHS 40x40x3x1200", "L3X3X1/4", "PIPE 114.3x6.3", "Round bar 25"),
    *("RH300*150*6.5*9", "UB 203x133x25", "U 80x45x6", "HEA 200", "W12x26", "bearing plate 300x300x25"),
    *("PL 10x150x300 4xØ22", '300x300x20 4 holes 7/8"', "14 OD x 9 ID", "OD 400 ID 250 x 20", "Ø400/Ø250"),
)
_NO_SIZES = (
    *("3*50*50*800", "(20*20*3)*1455", "Ø82,5X22,2", "150mm x 3000mm x 1.5m", "PLATE 1100", "20x20x300", "12"),
    *("M16x60", "bolt M16", "20PL 1220mm", "T-BAR 100x100x10", "ROUND BAR 100x50", "6+PL3/8+A36"),
)
_HOLE_CELLS = ("4 @ 13/16", "6 x 1-1/16", "4 Ø22", "4 x 22 mm", "2 off 18", "4 x 22", "2x3", "4-13/16")
_HOLES = (
    *("pl10x150x300 4xØ22", "10x150x300, 2-Ø18 holes", "300x300x20 4 no. 22 dia holes", "disc 10xØ300"),
    *("300x200x10 4 otw. Ø18", "300x200x10 4xm16", "300x200x10 2 slots 18x30", "300x200x10 4xØ22 2xØ18"),
)
_COUNTS = ("4", "4 ea", "x6", "6x", "(4)", "5 szt.", "5 шт", "Nr. 4", "2x3", "2+2", "2 sets", "1 set", "2 sets of 4")
_NO_COUNTS = ("ALL", "0,3m", "10 @ 1200", "1-2", "2.5", "2 pairs", "4/side", "1,200", "4?")
_LANGUAGES = {
    "en": "English",
    "de": "German",
    "fr": "French",
    "es": "Spanish",
    "pt": "Portuguese",
    "it": "Italian",
    "pl": "Polish",
    "ru": "Russian",
    "zh": "Chinese",
    "vi": "Vietnamese",
}


def reading_page() -> str:
    """Return the page."""
    parts = [
        _HEAD,
        *_headings(),
        _NOTATIONS,
        *_notations(),
        _FORMS,
        *_forms(),
        _ROWS,
        *_rows(),
        _SHAPES,
        *_shapes(),
        _WORK,
        *_works(),
    ]
    return "\n".join([*parts, _CANNOT, *_materials(), _CODES, *_codes()])


_HEAD = """# How a cut list is read

Any layout may be sent; these are the words and notations that are understood. What is not plain is said as a warning, what
has two readings is asked. Wordings and notations are common practice of the trade, no source.

## Headings

Capitals, accents, dots and line breaks make no difference; a unit may stand behind the heading (`Length (mm)`, `Länge mm`,
`Длина, мм`) or in a row of units below. `--columns "thickness=D,length=F"` names a column that has another heading.
"""
_NOTATIONS = """
## Notations

A bare fraction is in inches. Bare numbers take the unit of the heading, else of the number format, of the title block, of
the other cells, else the shop book's; anything but the first three is said as a warning.
"""
_FORMS = """
## Plates, flats and sections

Of three sizes of a plate the smallest is the thickness. These words say that a size is something else; the first that is
found counts, and a word for plate beside another makes it a plate (*bearing plate*). A section takes one cut across it.
"""
_ROWS = """
## Rows that are no pieces

Every row of the sheet is counted: priced, title, heading, units, subtotal, note, blank, other table or problem.
"""
_CODES = """
## What is said

The codes of files, tables and cells; what each needs, why and what to do stands in [problems](problems.md).
"""
_SHAPES = """
## Shapes that words name

Words of a size, description, note, material or mark, where no cell types the shape. A triangle with two sides is taken as a
right one, and said; what has no model is asked for by its cut length. A star stands for any ending.
"""
_WORK = """
## Work that words ask for

Words are never priced. A row whose note, description or column that nobody knows holds one of these is told of, unless the
row, or another row of its mark, prices the work. A star stands for any ending; words in brackets count in notes only, for in
a description they name parts.
"""
_ORDERS = """
## Rows that are held, and the customer's steel

A row whose words say that it is not to be cut is asked about; words in brackets count only where they begin a sentence and
nothing but a reason follows. Words that give the steel to the customer are told of; what is typed under Steel counts.
"""
_CANNOT = """
## What a torch cannot cut

A row that names one of these is refused, with the reason.
"""


def _headings() -> list[str]:
    """Return one table for each column that has wordings."""
    meanings = READING_COLUMNS | {column.name: column.needs for column in CUT_LIST.columns}
    out = []
    for column, by_language in wordings().items():
        rows = [(_LANGUAGES[language], ", ".join(words)) for language, words in by_language.items()]
        out.append(f"\n### `{column}`\n\n{meanings[column]}\n\n{_table(('language', 'headings'), rows)}")
    listed = ", ".join(false_friends())
    return [*out, f"\n### Never read\n\nThese look like a column and are carried through untouched: {listed}.\n"]


def _notations() -> list[str]:
    """Return tables of what is read and what is refused, as the reader itself answers."""
    gauges = sheet_gauges_in()
    tables = [("Lengths", _LENGTHS, _NO_LENGTHS), ("Sizes", _SIZES, _NO_SIZES), ("Quantities", _COUNTS, _NO_COUNTS)]
    out = []
    for title, good, bad in tables:
        rows = [(f"`{text}`", _answer(title, text, gauges)) for text in (*good, *bad)]
        out.append(f"\n### {title}\n\n{_table(('typed', 'read as, or why not'), rows)}")
    return out


def _answer(title: str, text: str, gauges: dict[int, object]) -> str:
    if title == "Quantities":
        count = read_count(text)
        if isinstance(count, Refused):
            return f"*refused:* {count.reason}"
        return f"{count.value}" + (f" (warned: {count.remark})" if count.remark else "")
    read = read_length(text, None, gauges) if title == "Lengths" else read_size(text, None, gauges)  # type: ignore[arg-type]
    if isinstance(read, Refused):
        return f"*refused:* {read.reason}"
    label = f", {read.label}" if title == "Lengths" and getattr(read, "label", "") else ""
    return f"{read}{label}" + (f" (warned: {read.remark})" if read.remark else "")


def _forms() -> list[str]:
    """Return the words of each form, and how holes in words are read."""
    rows = [(row["form"], row["use"], ", ".join(words_of(row["words"]))) for row in word_table("section_words")]
    holes = [(f"`{text}`", _holes(text)) for text in _HOLES]
    cells = [(f"`{text}`", str(read_hole_cell(text) or "not read as a size")) for text in _HOLE_CELLS]
    beside = _table(("typed", "read as"), cells)
    return [
        _table(("form", "use", "words"), rows),
        f"\n### Holes in a size or description\n\n{_table(('typed', 'read as, or why not'), holes)}",
        f"\n### Count and size in a column of holes\n\n{beside}",
    ]


def _holes(text: str) -> str:
    rest, holes = take_holes(text)
    return f"*refused:* {holes.reason}" if isinstance(holes, Refused) else f"{holes or 'no holes'}; left: {rest}"


def _rows() -> list[str]:
    """Return how rows are told apart."""
    ditto = " ".join(f"`{mark}`" for mark in sorted(DITTO_MARKS))
    blank = " ".join(f"`{mark}`" for mark in sorted(BLANK_MARKS) if mark)
    return [
        _table(
            ("row", "how it is told"),
            [
                (
                    "total",
                    "a word such as *total*, *sum*, *Summe*, *RAZEM*, *ИТОГО* in any column, or the sum of the rows above",
                ),
                ("title", "one text alone; a thickness in it holds for the rows below, and is said"),
                (
                    "title that multiplies",
                    "*FRAME A (x3)*: multiplied where 3 does not divide every quantity below, else asked",
                ),
                (
                    "assembly",
                    "a number such as 1 above 1.1 without sizes of its own: multiplies its parts as a title does",
                ),
                ("note", "a long text, or one that begins as notes do"),
                ("the same again", f"repeats the cell above: {ditto}"),
                ("blank cell", f"blank, or {blank}"),
                ("heading once more", "the same headings; others begin another table"),
                ("no headings at all", "read where sizes and whole numbers leave no doubt, and said; else asked"),
            ],
        )
    ]


def _codes() -> list[str]:
    kept = {code: stated for code, stated in all_codes().items() if int(code[1:]) < 150 or 200 < int(code[1:]) < 270}
    return [_table(("code", "level", "what it says"), [(f"`{c}`", str(s.level), s.fact) for c, s in kept.items()])]


def _shapes() -> list[str]:
    rows = []
    for row in word_table("shape_words"):
        words = ", ".join(words_of(row["words"])).replace("*", "\\*")
        rows.append((row["says"], {"": "the cut length", "ask": "the shape"}.get(row["taken_as"], "nothing"), words))
    return [_table(("shape", "what is asked", "words"), rows)]


def _works() -> list[str]:
    rows = []
    for row in word_table("work_words"):
        in_notes = ", ".join(words_of(row["in_notes"])).replace("*", "\\*")
        words = ", ".join(words_of(row["words"])).replace("*", "\\*") + (f" ({in_notes})" if in_notes else "")
        alone = ", ".join(words_of(row["alone"])).replace("*", "\\*")
        words = "; ".join(filter(None, (words, f"in a row without a size: {alone}" if alone else "")))
        rows.append(
            (row["work"], row["do"].replace("{angle}", "the angle").replace("{minutes}", "Minutes each"), words)
        )
    return [_table(("work", "what to type", "words"), rows)]


def _orders() -> list[str]:
    rows = []
    for row in word_table("row_words"):
        alone = f" ({', '.join(words_of(row['alone']))})" if row["alone"] else ""
        rows.append((row["says"], (", ".join(words_of(row["words"])) + alone).replace("*", "\\*")))
    return [_table(("what the words say", "words"), rows)]


def _materials() -> list[str]:
    rows = []
    for row in word_table("uncuttable"):
        words = ", ".join((*words_of(row["words"]), *words_of(row["grades"])))
        rows.append((row["material"], row["why"], words))
    return [_table(("material", "why", "words and grades"), rows)]


def _table(heads: tuple[str, ...], rows: list[tuple[str, ...]]) -> str:
    lines = ["| " + " | ".join(heads) + " |", "|" + "---|" * len(heads)]
    lines += ["| " + " | ".join(cell.replace("|", "\\|") for cell in row) + " |" for row in rows]
    return "\n".join(lines) + "\n"

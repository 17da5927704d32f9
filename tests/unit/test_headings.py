"""Headings in customers' words. The wordings are common practice, no source; the list in the first test was gathered
from public cut lists and bills of materials."""

import pytest

from estimator.read.headings import heading_key, match_heading, near_heading, unit_in_cell
from estimator.sheets.cut_list import CUT_LIST
from estimator.sheets.wordings import READING_COLUMNS, false_friends, wordings

SEEN = {
    "mark": ["PART ", "item/part", "item_id", "cut_id", "piece", "MARK", "ID", "Марка элемента", "零件編號", "Part #"],
    "item": ["Item", "ITEM NO.", "POS", "Position", "#", "Index", "Поз.", "Позиция", "Lp.", "Nr.", "No."],
    "description": ["Name", "part name", "Désignation", "Bezeichnung", "Nazwa", "Mô tả", "Descrição"],
    "quantity": [
        *("Qty", "Qty.", "QTY", "qty", "Quantity", "Quant.", "Quantidade", "Quantité", "amount", "# Parts Req"),
        *(
            "# req in assy",
            "Ilość",
            "Ilość (szt.)",
            "Stückzahl",
            "Anzahl",
            "menge",
            "Кол-во",
            "шт",
            "數量",
            "QTY\nCANT.",
        ),
        *("No. off", "Qty Req'd", "Cant.", "Q.tà", "Qté", "pcs", "Pieces"),
    ],
    "quantity_total": ["Total Qty", "Qty Total", "Quantity (total)", "Gesamtmenge"],
    "thickness_mm": [
        *("thickness", "Thick", "thickness_gauge", "Толщина, мм", "THK", "t [mm]", "Plate Thickness", "Blechdicke"),
        *("Épaisseur (mm)", "Espesor", "spessore", "Grubość", "厚度", "Gauge", "Material thickness"),
    ],
    "length": [
        *("length", "Length (mm)", "Length (ft)", "length_in", "Länge", "Długość (cm)", "Длина, мм", "Comprimento"),
        *("長度", "Cut to", "DIM A", "Longueur", "Lunghezza mm", "L (mm)"),
    ],
    "total_cut_length_mm": ["Длина общая", "Total length", "Gesamtlänge"],
    "width": ["width", "DIM B", "Ширина, мм", "Breite", "Width\nBreite\n[mm]", "Larghezza"],
    "size": [
        *("Dimensions (mm)", "Wymiary (mm)", "Größe", "Size", "Size (in x in)", "size/specs", "blank_size", "Dimensão"),
        *("dimention", "規格尺寸", "Profile", "Сечение"),
    ],
    "material": ["Material", "MATERIAL/SUPPLIER", "Matériau", "Type", "Category", "材質"],
    "grade": ["Grade", "Сталь", "Steel grade", "Nuance"],
    "unit": ["unit", "UNIT", "Unid. Medida"],
    "mass_each": ["Peso", "weight", "Weight (kg)", "Standard Weight", "Масса, кг", "M/kg"],
    "cut_length_mm": ["Cut length", "cut_length_mm", "Perimeter (m)", "Schnittlänge"],
    "pierces": ["Pierces", "Starts", "Einstiche"],
    "holes": ["Holes", "No. of holes", "Holes Qty"],
    "hole_diameter_mm": ["Hole Dia.", "Hole diameter (mm)", "Holes Ø"],
}
NEVER = [
    *("kerf_allowance_in", "inside_radius_mm", "Parts/Pkg", "RL THK", "ORIFICE PLATE", "Gantry Plate", "U-Bolt 3/8"),
    *(
        "Thickness of wall build-up",
        "Stock length",
        "Qty in stock",
        "Customer PO",
        "T1",
        "Colour",
        "Drawn by",
        "12",
        "",
    ),
]
UNITS = {
    "Thickness (mm)": "mm",
    "Länge mm": "mm",
    "Длина, мм": "mm",
    "Długość (cm)": "cm",
    "Length (ft)": "ft",
    "length_in": "in",
    "Size (in x in)": "in",
    "Perimeter (m)": "m",
    "Thickness in mm": "mm",
    'Thk (")': "in",
    "cut_length_mm": "mm",
    "Масса, кг": "kg",
    "Total weight (lbs)": "lb",
    "Qty (pcs)": "",
    "Thickness": "",
}


@pytest.mark.parametrize(("column", "text"), [(column, text) for column, texts in SEEN.items() for text in texts])
def test_a_heading_that_was_seen_means_its_column(column: str, text: str) -> None:
    found = match_heading(text)
    assert found is not None
    assert found.column == column


@pytest.mark.parametrize("text", NEVER)
def test_a_false_friend_or_an_unknown_heading_means_nothing(text: str) -> None:
    assert match_heading(text) is None


@pytest.mark.parametrize(("text", "unit"), UNITS.items())
def test_a_heading_names_its_unit(text: str, unit: str) -> None:
    found = match_heading(text)
    assert found is not None
    assert found.unit == unit


@pytest.mark.parametrize(
    ("text", "column"), [("Tickness", "thickness_mm"), ("Qunatity", "quantity"), ("Lenght (mm)", "length")]
)
def test_a_slip_of_the_pen_is_allowed_for_and_not_sure(text: str, column: str) -> None:
    assert match_heading(text) is None
    found = near_heading(text)
    assert found is not None
    assert (found.column, found.sure) == (column, False)


@pytest.mark.parametrize("text", ["Peirced", "Colour", "Bay", "Weld", "Heat no", "Customer"])
def test_a_word_of_its_own_is_not_taken_for_a_slip(text: str) -> None:
    assert near_heading(text) is None


def test_every_heading_and_house_name_of_the_blank_cut_list_means_its_column() -> None:
    for column in CUT_LIST.columns:
        for text in (column.heading, column.name):
            found = match_heading(text)
            assert found is not None
            assert found.column == column.name


def test_every_wording_stands_under_one_column_only_and_is_found_there() -> None:
    seen: dict[str, str] = {heading_key(word): "" for word in false_friends()}
    house = {heading_key(column.heading): column.name for column in CUT_LIST.columns}
    for column, by_language in wordings().items():
        assert column in READING_COLUMNS or any(column == one.name for one in CUT_LIST.columns)
        for words in by_language.values():
            for word in words:
                key = heading_key(word)
                assert key, word
                assert seen.setdefault(key, column) == column, word
                assert house.get(key, column) == column, word


def test_every_promised_language_has_the_main_columns() -> None:
    for column in ("quantity", "thickness_mm", "length", "width", "size", "description", "mark"):
        assert {"en", "de", "fr", "es", "pt", "it", "pl", "ru"} <= set(wordings()[column])


@pytest.mark.parametrize(
    ("text", "unit"), [("mm", "mm"), ("[mm]", "mm"), ("(in.)", "in"), ("pcs", "other"), ("кг", "kg"), ("S275", None)]
)
def test_a_cell_of_a_units_row_is_told(text: str, unit: str | None) -> None:
    assert unit_in_cell(text) == unit

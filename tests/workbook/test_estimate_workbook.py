"""What holds for every priced workbook, whatever is in the list."""

from __future__ import annotations

import io
import re
import zipfile
from dataclasses import replace

import numpy as np
import openpyxl
import pytest

from estimator.check.torch_kit import built_in_work_rates
from estimator.pricing.job import Estimate
from estimator.pricing.plates_bought import plates_bought
from estimator.pricing.second_look import second_look
from estimator.problems import WorkbookProblemsError
from estimator.write.estimate import workbook as module
from estimator.write.estimate.rate_rows import READING_RATES
from estimator.write.estimate.workbook import estimate_workbook
from estimator.write.second_look_json import second_look_json
from tests.samples.jobs import NAN, a_bit_of_everything, changed_shop, estimated, plates


def made(estimate: Estimate, **options: bool) -> bytes:
    file = io.BytesIO()
    estimate_workbook(estimate, **options)(file)
    return file.getvalue()


@pytest.fixture(scope="module")
def everything() -> bytes:
    return made(estimated(a_bit_of_everything()))


def formulas(data: bytes) -> dict[tuple[str, str], str]:
    return {
        (sheet.title, cell.coordinate): str(cell.value)
        for sheet in openpyxl.load_workbook(io.BytesIO(data))
        for row in sheet.iter_rows()
        for cell in row
        if cell.data_type == "f"
    }


def test_two_runs_on_the_same_job_give_the_same_bytes(everything: bytes) -> None:
    assert made(estimated(a_bit_of_everything())) == everything


def test_a_viewer_that_cannot_calculate_reads_a_value_in_every_formula_cell(everything: bytes) -> None:
    values = openpyxl.load_workbook(io.BytesIO(everything), data_only=True)
    places = formulas(everything)
    assert len(places) > 1000
    blank_texts = [place for place, formula in places.items() if formula.endswith('&""')]
    empty = [place for place in places if values[place[0]][place[1]].value is None and place not in blank_texts]
    assert empty == []


def test_no_formula_holds_a_number_but_zero_one_sixty_and_a_hundred(everything: bytes) -> None:
    for place, formula in formulas(everything).items():
        bare = re.sub(r'"[^"]*"|\'[^\']*\'!', "", formula)
        bare = re.sub(r"\$?[A-Z]{1,3}\$?\d+|[A-Za-z_][A-Za-z_0-9]*", "", bare)
        assert set(re.findall(r"\d+\.?\d*", bare)) <= {"0", "1", "60", "100"}, (place, formula)


def test_each_column_of_the_lines_has_one_pattern(everything: bytes) -> None:
    patterns: dict[tuple[str, str], set[str]] = {}
    for (sheet, cell), formula in formulas(everything).items():
        if sheet in ("Lines", "Line costs", "Line work"):
            letters, row = re.match(r"([A-Z]+)(\d+)", cell).groups()  # type: ignore[union-attr]
            patterns.setdefault((sheet, letters), set()).add(re.sub(rf"(?<=[A-Z]){row}\b", "#", formula))
    assert len(patterns) > 50
    assert {place: len(found) for place, found in patterns.items() if len(found) > 1} == {}


HOSTILE = [
    "=1+1",
    "+1",
    "-1",
    "@SUM(A1)",
    "{=1}",
    "http://a.example",
    "<r><t>x</t></r>",
    "a\x1b[31mb",
    "\u202eback",
    "=cmd|'/c calc'!A0",
]


def test_no_formula_link_or_markup_is_made_from_a_customers_text() -> None:
    cuts = a_bit_of_everything(mark=HOSTILE, description=HOSTILE, drawing=HOSTILE, note=HOSTILE)
    title = replace(cuts.title, customer="=HYPERLINK(1)", job="@x", quote_number="=9", revision="+B")
    data = made(estimated(replace(cuts, title=title)))
    for formula in formulas(data).values():
        assert not any(text.lstrip("=+-@{") in formula for text in ("=1+1", "@SUM(A1)", "=HYPERLINK", "cmd|"))
    parts = zipfile.ZipFile(io.BytesIO(data))
    assert not [name for name in parts.namelist() if "externalLink" in name]
    links = [parts.read(name).decode() for name in parts.namelist() if name.endswith(".rels")]
    assert not [link for link in links if "a.example" in link]
    lines = openpyxl.load_workbook(io.BytesIO(data))["Lines"]
    shown = {str(cell.value) for row in lines.iter_rows() for cell in row if cell.data_type == "s"}
    assert {"=1+1", "+1", "-1", "@SUM(A1)", "http://a.example", "a[31mb"} <= shown


def test_every_rate_on_its_sheet_is_used_and_those_that_decide_a_reading_are_not(everything: bytes) -> None:
    used = set(re.findall(r"[a-z][a-z_0-9]+", " ".join(formulas(everything).values())))
    names = set(openpyxl.load_workbook(io.BytesIO(everything)).defined_names)
    rates = names & set(built_in_work_rates())
    assert rates & set(READING_RATES) & used == set()
    assert rates - set(READING_RATES) - used == set()
    assert len(rates) > 50


def test_a_row_without_a_price_stays_in_its_place_and_the_total_says_so() -> None:
    cuts = plates(6)
    thick = cuts.thickness_mm.copy()
    thick[2] = 999.0
    with pytest.raises(WorkbookProblemsError):
        estimated(replace(cuts, thickness_mm=thick))
    estimate = estimated(replace(cuts, thickness_mm=thick), partial=True)
    book = openpyxl.load_workbook(io.BytesIO(made(estimate)), data_only=True)
    lines = book["Lines"]
    marks = [lines.cell(row, 2).value for row in range(6, 12)]
    assert marks == ["P0", "P0", "NOT PRICED", "P1", "P2", "P2"]
    assert [lines.cell(8, column).value for column in (1, 4)] == [None, None]
    said = " ".join(str(cell.value) for row in lines.iter_rows(min_row=8, max_row=8) for cell in row)
    assert "E270" in said
    assert any("INCOMPLETE" in str(cell.value) for cell in book["Answer"]["A"])


def test_values_alone_are_written_when_asked_and_for_very_long_lists(monkeypatch: pytest.MonkeyPatch) -> None:
    estimate = estimated(plates(5))
    live, dead = made(estimate), made(estimate, values_only=True)
    assert formulas(dead) == {}
    values = openpyxl.load_workbook(io.BytesIO(live), data_only=True)
    alone = openpyxl.load_workbook(io.BytesIO(dead))
    for row in values["Lines"].iter_rows():
        for cell in row:
            assert alone["Lines"][cell.coordinate].value == cell.value
    assert "VALUES ONLY" in str([cell.value for cell in alone["Answer"]["A"]])
    monkeypatch.setattr(module, "VALUES_ONLY_ABOVE", 4)
    assert formulas(made(estimate)) == {}


def test_the_shops_paper_and_currency_are_on_every_sheet() -> None:
    book = openpyxl.load_workbook(io.BytesIO(made(estimated(plates(3), changed_shop(paper="Letter", currency="XTS")))))
    assert {sheet.page_setup.paperSize for sheet in book} == {1}
    assert "XTS" in str([cell.value for cell in book["Lines"][5]])


def test_sheets_stand_in_the_order_of_reading_with_the_answer_first(everything: bytes) -> None:
    book = openpyxl.load_workbook(io.BytesIO(everything))
    assert book.sheetnames == [
        "Answer",
        "Lines",
        "Build-up",
        "Gas",
        "Tip settings",
        "Rates",
        "How worked out",
        "Job rows",
        "Line costs",
        "Line work",
        "Second look",
        "Problems",
        "Checks",
        "Sources",
        "Record",
    ]
    assert book.active.title == "Answer"


def test_the_second_look_stands_on_a_sheet_in_the_json_and_in_the_engine_alike(everything: bytes) -> None:
    estimate = estimated(a_bit_of_everything())
    look, plates, told = second_look(estimate), plates_bought(estimate), second_look_json(estimate)
    sheet = openpyxl.load_workbook(io.BytesIO(everything), data_only=True)["Second look"]
    texts = [str(cell.value) for row in sheet.iter_rows() for cell in row if cell.value is not None]
    for check in look.sense:
        assert check.words in texts
    assert [check["words"] for check in told["sense"]] == [check.words for check in look.sense]
    assert len(plates.buys) > 1
    assert look.cheaper
    assert [buy["plates"] for buy in told["plates"]] == [buy.option.plates for buy in plates.buys]
    shown = {row[0].value: row for row in sheet.iter_rows() if row[0].value}
    for buy in plates.buys:
        row = shown[f"{buy.thickness_mm:g} mm"]
        assert (row[2].value, row[5].value) == (buy.option.plates, pytest.approx(buy.price))
    for one, said in zip(look.cheaper, told["cheaper_not_burnt"], strict=True):
        assert (said["way"], float(said["saving"])) == (one.way, pytest.approx(one.saving, abs=0.005))
        assert said["mark"] == estimate.cuts.mark[one.line]
    assert any("Values of the run that priced this job" in text for text in texts)


def test_own_figures_stand_in_typed_cells_and_win() -> None:
    from estimator.check.example_shop import example_shop
    from estimator.pricing.job import JobOrder, estimate_job
    from tests.samples.jobs import DATE

    minutes, prices = np.array([NAN, 77.0, NAN]), np.array([NAN, NAN, 41.5])
    estimate = estimate_job(plates(3), example_shop(), JobOrder(date=DATE), my_minutes=minutes, my_price_each=prices)
    lines = openpyxl.load_workbook(io.BytesIO(made(estimate)), data_only=True)["Lines"]
    heads = {str(cell.value): cell.column for cell in lines[4]}
    assert lines.cell(7, heads["My minutes"]).style == "Typed"
    assert lines.cell(7, heads["Man-minutes"]).value == 77.0
    assert lines.cell(8, heads["Price each"]).value == 41.5


def test_every_typed_cell_says_what_it_does_and_warns_of_what_cannot_be(everything: bytes) -> None:
    book = openpyxl.load_workbook(io.BytesIO(everything))
    for name in ("Lines", "Rates", "Tip settings", "How worked out"):
        sheet = book[name]
        rules = sheet.data_validations.dataValidation
        said = {cell for rule in rules if rule.prompt for cells in rule.sqref.ranges for cell in cells.cells}
        checked = {cell for rule in rules if rule.type for cells in rule.sqref.ranges for cell in cells.cells}
        typed = {
            (cell.row, cell.column) for row in sheet.iter_rows() for cell in row if cell.style in ("Typed", "Assumed")
        }
        assert typed, name
        numbers = {place for place in typed if isinstance(sheet.cell(*place).value, int | float)}
        assert numbers <= checked, name
        # Beside a setting that has no such figure the cell is blank.
        assert {place for place in typed if sheet.cell(*place).value is not None} <= said, name


def test_a_working_pressure_of_acetylene_over_15_psi_is_warned_of_in_its_cell(everything: bytes) -> None:
    sheet = openpyxl.load_workbook(io.BytesIO(everything))["Tip settings"]
    column = next(c.column for row in sheet.iter_rows() for c in row if c.value == "Fuel pressure")
    rule = next(
        r
        for r in sheet.data_validations.dataValidation
        if any(cells.min_col == column for cells in r.sqref.ranges) and r.type
    )
    # 15 psi is 1.0342 bar: 29 CFR 1910.253(a)(2).
    assert float(rule.formula2) == pytest.approx(1.0342, abs=1e-4)


def test_the_line_to_be_worked_out_is_picked_from_a_drop_down_of_all_rows(everything: bytes) -> None:
    book = openpyxl.load_workbook(io.BytesIO(everything))
    (rule,) = book["How worked out"].data_validations.dataValidation
    assert (rule.type, rule.formula1) == ("list", "line_list_row")
    assert not rule.showDropDown  # the attribute hides the arrow
    sheet, cells = book.defined_names["line_list_row"].attr_text.split("!")
    rows = [cell.value for (cell,) in book[sheet.strip("'")][cells.replace("$", "")]]
    assert rows == list(range(5, 15))


def test_four_charts_answer_questions_and_are_told_apart_without_colour(everything: bytes) -> None:
    parts = zipfile.ZipFile(io.BytesIO(everything))
    charts = [parts.read(name).decode() for name in parts.namelist() if name.startswith("xl/charts/chart")]
    titles = " ".join("".join(re.findall(r"<a:t>([^<]*)</a:t>", chart)) for chart in charts)
    for question in (
        "Where does the money go",
        "Which lines carry the cost",
        "one set cost",
        "Which tip takes the oxygen",
    ):
        assert question in titles
    for chart in charts:
        series = re.findall(r"<c:ser>.*?</c:ser>", chart, re.DOTALL)
        looks = {"".join(re.findall(r'<a:pattFill prst="(\w+)"', one)) or "solid" for one in series}
        assert len(looks) == len(series)


def test_the_properties_name_the_shop_and_the_job_and_nothing_of_the_program(everything: bytes) -> None:
    properties = openpyxl.load_workbook(io.BytesIO(everything)).properties
    estimate = estimated(a_bit_of_everything())
    assert properties.title == "Estimate Q-0117"
    assert properties.creator == estimate.shop.shop.shop_name
    assert properties.subject == "Invented Machines · Frames"


def test_columns_of_settings_have_one_pattern_and_job_rows_differ_in_counts_and_minutes(everything: bytes) -> None:
    patterns: dict[tuple[str, str], set[str]] = {}
    for (sheet, cell), formula in formulas(everything).items():
        if sheet in ("Tip settings", "Job rows"):
            letters, row = re.match(r"([A-Z]+)(\d+)", cell).groups()  # type: ignore[union-attr]
            patterns.setdefault((sheet, letters), set()).add(re.sub(rf"(?<=[A-Z]){row}\b", "#", formula))
    several = {place for place, found in patterns.items() if len(found) > 1}
    assert ("Job rows", "C") in several
    assert several <= {("Job rows", "B"), ("Job rows", "C"), ("Job rows", "H")}
    assert len(patterns) > 20


def test_the_sheet_of_rates_begins_with_the_shops_own_figures_and_says_which_are_not_there() -> None:
    shop = changed_shop(prices_are_examples=False, discount=0.0, overhead_share=0.0, delivery=0.0, minimum_job=60.0)
    sheet = openpyxl.load_workbook(io.BytesIO(made(estimated(plates(2), shop))))["Rates"]
    rows = [(str(row[0].value), row[1].value, row[7].value) for row in sheet.iter_rows(min_row=5) if row[0].value]
    names = [name for name, _, _ in rows]
    assert names[0] == "Labour"
    assert names[1].startswith("Labour rate 1")
    assert (
        names.index("Markup") < names.index("Gas and cylinders") < names.index("Discount") < names.index("Work rates")
    )
    status = {name: said for name, _, said in rows}
    absent = ("Discount", "Overhead on direct cost", "Delivery", "Rush")
    assert {status[name] for name in absent} == {"none given: 0 is taken"}
    assert status["Minimum per job"] == "typed in the shop book"
    assert names.index("Minimum per job") < names.index("Gas and cylinders")
    assert "typed in the shop book" not in {said for _, value, said in rows if value in (0, None)}

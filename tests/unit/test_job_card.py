"""The job card goes tip by tip, says what the bench must know of every line, and holds no price."""

from __future__ import annotations

import datetime as dt
import io
import re
import zipfile
from dataclasses import replace

import numpy as np
import openpyxl
import pytest

from estimator.pricing.job import Estimate
from estimator.pricing.job_card import JobCard, job_card
from estimator.quantities.cut_sizes import drop_disc_mm, larger_by_kerf_mm, triangle_path_mm
from estimator.write.job_card.pdf import job_card_pdf
from estimator.write.job_card.words import (
    boxes,
    card_json,
    cut_words,
    facts,
    group_words,
    keep_words,
    log_row_words,
    note_words,
    piece_words,
)
from estimator.write.job_card.workbook import job_card_workbook
from tests.samples.estimates import own_shop
from tests.samples.jobs import a_bit_of_everything, estimated, plates


@pytest.fixture(scope="module")
def everything() -> Estimate:
    return estimated(a_bit_of_everything(), own_shop())


@pytest.fixture(scope="module")
def card(everything: Estimate) -> JobCard:
    return job_card([everything], quote="Q-0117 revision A", job_number="J-9", work_from=dt.date(2026, 11, 16))


def pages(data: bytes) -> int:
    return len(re.findall(rb"/Type\s*/Page\b", data))


@pytest.mark.parametrize(("a", "b", "kerf"), [(150.0, 150.0, 2.1), (30.0, 40.0, 2.0), (600.0, 90.0, 3.5)])
def test_the_path_around_a_triangle_lies_half_a_kerf_outside_of_every_side(a: float, b: float, kerf: float) -> None:
    """Source: plane geometry; distances from the incentre, which the two triangles share, to their sides."""
    path_a, path_b = triangle_path_mm(a, b, kerf)
    radius = (a + b - np.hypot(a, b)) / 2
    path_radius = (path_a + path_b - np.hypot(path_a, path_b)) / 2
    assert path_radius - radius == pytest.approx(kerf / 2)
    assert path_a / path_b == pytest.approx(a / b)


def test_a_piece_cut_along_the_path_has_its_size() -> None:
    kerf = 2.5
    assert larger_by_kerf_mm(300.0, kerf) - 2 * kerf / 2 == 300.0
    hole_path = larger_by_kerf_mm(60.0, -kerf)
    assert hole_path + 2 * kerf / 2 == 60.0
    assert drop_disc_mm(60.0, kerf) == hole_path - 2 * kerf / 2


def test_a_tip_stays_in_until_its_work_is_done_thin_plate_first(card: JobCard) -> None:
    tips = [group.tip for group in card.groups]
    assert tips == sorted(tips, key=tips.index), "no tip comes back"
    assert len(set(tips)) == sum(1 for i, tip in enumerate(tips) if i == 0 or tips[i - 1] != tip)
    cutting = [g for g in card.groups if g.guide in ("by hand", "on a track")]
    for tip in dict.fromkeys(g.tip for g in cutting):
        thicknesses = [g.thickness_mm for g in cutting if g.tip == tip]
        assert thicknesses == sorted(thicknesses)
    assert [g.guide for g in card.groups][-2:] == ["heating", ""], "heating and work without a torch come last"


def test_every_line_and_piece_of_the_list_is_on_the_card(card: JobCard, everything: Estimate) -> None:
    assert card.pieces == everything.cuts.quantity.sum()
    assert sorted(line.mark for g in card.groups for line in g.lines) == sorted(everything.cuts.mark)


def test_pressures_are_those_of_the_setting_with_the_lever_down(card: JobCard, everything: Estimate) -> None:
    settings = everything.job.settings
    group = next(g for g in card.groups if g.guide == "by hand" and g.thickness_mm == 10.0)
    index = int(everything.job.lines.setting[everything.cuts.mark.index("G2")])
    assert group.oxygen_bar == settings.oxygen_pressure_bar[index]
    name, set_to = group_words(group, card)
    assert name == f"Tip {group.tip}, 10 mm, by hand"
    assert f"oxygen {group.oxygen_bar:.2g} bar, acetylene {group.fuel_bar:.2g} bar, lever down; about" in set_to


def line_of(card: JobCard, mark: str) -> tuple[str, str, str]:
    line = next(one for g in card.groups for one in g.lines if one.mark == mark)
    return piece_words(line, card), cut_words(line, card), note_words(line, card)


def test_a_line_says_its_size_its_path_and_what_else_is_done(card: JobCard) -> None:
    assert line_of(card, "P1") == (
        "Base plate, rectangle 300 x 300 x 20, 4 holes Ø 22",
        "302.5 x 302.5, drill 4 Ø 22",
        "straightedge; cuts shared with the next piece; edges touch up",
    )
    piece, path, _ = line_of(card, "R4")
    assert (piece, path) == ("Ring, ring 400 x 250 x 25", "Ø 402.7, inside Ø 247.3")
    assert "bevel 30° on 600 mm, root face 2 mm, tip" in line_of(card, "B6")[2]
    assert line_of(card, "L7")[2].startswith("straightedge")
    assert line_of(card, "X9")[2] == "saw; 6 min of work each"
    assert line_of(card, "H8")[2] == "heat"


def test_a_piece_over_the_limit_is_supported_before_the_last_cut(everything: Estimate) -> None:
    heavy = estimated(plates(12), own_shop())
    card = job_card([heavy], quote="Q-1")
    masses = dict(zip(heavy.cuts.row.tolist(), heavy.job.lines.mass_each_kg.tolist(), strict=True))
    lines = [line for g in card.groups for line in g.lines]
    assert {round(line.mass_each_kg, 6) for line in lines if line.heavy} == {
        round(mass, 6) for mass in masses.values() if mass > 25.0
    }
    assert any(line.heavy for line in lines)
    assert all(("SUPPORT BEFORE THE LAST CUT" in note_words(line, card)) == line.heavy for line in lines)
    assert "piece falls" in [one.key for one in card.cautions]
    light = plates(12).take([int(np.argmin(heavy.job.lines.mass_each_kg))])
    card_of_light = job_card([estimated(light, own_shop())], quote="Q-1")
    assert "piece falls" not in [one.key for one in card_of_light.cautions]


def test_discs_worth_keeping_are_named_with_their_mass(card: JobCard) -> None:
    kerf = next(g.kerf_mm for g in card.groups if g.thickness_mm == 25.0)
    mass = np.pi / 4 * (0.250 - 2 * kerf / 1000) ** 2 * 0.025 * 7850
    assert f"25 mm: 2 discs Ø {250 - 2 * kerf:.0f} mm, {mass:.1f} kg each" in keep_words(card)


def test_an_inch_shop_reads_inches_and_psi() -> None:
    card = job_card([estimated(plates(2), own_shop(units="in"))], quote="Q-1")
    name, set_to = group_words(card.groups[0], card)
    assert " in, " in name
    assert "psi" in set_to
    assert "in/min" in set_to


def test_an_inch_shop_reads_pounds_and_the_discs_it_keeps_in_inches(card: JobCard) -> None:
    lb = 1 / 0.45359237  # by definition
    plain = job_card([estimated(plates(12), own_shop(units="in"))], quote="Q-1")
    heavy = [line for group in plain.groups for line in group.lines if line.heavy]
    assert heavy
    assert all(f"{line.mass_each_kg * lb:.0f} LB: SUPPORT" in note_words(line, plain) for line in heavy)
    pounds = job_card([estimated(a_bit_of_everything(), own_shop(units="in"))], quote="Q-1")
    kerf = next(g.kerf_mm for g in card.groups if g.thickness_mm == 25.0)
    mass = np.pi / 4 * (0.250 - 2 * kerf / 1000) ** 2 * 0.025 * 7850
    assert f"2 discs Ø {(250 - 2 * kerf) / 25.4:.1f} in, {mass * lb:.1f} lb each" in keep_words(pounds)
    said = [text for g in pounds.groups for line in g.lines for text in (*line.notes, piece_words(line, pounds))]
    assert not [text for text in said if re.search(r"\d (mm|kg)\b", text)]


def test_variations_stand_among_the_lines_of_the_quote(everything: Estimate) -> None:
    extra = estimated(replace(plates(1), mark=["X1"]), own_shop())
    card = job_card([everything, extra], quote="Q-0117 revision A + variation 1")
    marks = [line.mark for g in card.groups for line in g.lines]
    assert sorted(marks) == sorted([*everything.cuts.mark, "X1"])
    assert len({(g.tip, g.guide, g.thickness_mm) for g in card.groups if g.tip}) == sum(1 for g in card.groups if g.tip)


def test_a_job_of_eight_lines_prints_on_one_page_and_twice_the_same() -> None:
    card = job_card([estimated(plates(8), own_shop())], quote="Q-1")
    data = job_card_pdf(card)
    assert pages(data) == 1
    assert job_card_pdf(card) == data


def test_a_long_job_prints_on_more_pages_at_a_size_that_can_be_read() -> None:
    assert pages(job_card_pdf(job_card([estimated(plates(120), own_shop())], quote="Q-1"))) > 1


def test_pieces_get_a_box_each_and_many_pieces_one_at_every_ten_that_says_how_many_are_done() -> None:
    assert boxes(30) == [""] * 30
    assert boxes(31) == ["10", "20", "30", "31"]
    assert boxes(200) == [str(10 * n) for n in range(1, 21)]
    assert boxes(100_000)[-1] == "100000"
    assert len(boxes(100_000)) <= 30


def test_the_rows_for_the_log_are_what_the_quote_reckons_with(card: JobCard, everything: Estimate) -> None:
    lines, metres = everything.job.lines, everything.job.lines.metres
    burns = lines.setting >= 0
    assert sum(row.cut_length_m for row in card.log_rows) == pytest.approx(np.nansum(metres.cut_m[burns]))
    assert sum(row.pieces for row in card.log_rows) == everything.cuts.quantity[burns].sum()
    assert {row.operation for row in card.log_rows} == {"cut", "heat"}
    ring = next(row for row in card.log_rows if row.thickness_mm == 25.0)
    assert ring.cut_length_m == pytest.approx(2 * np.pi * (0.400 + 0.250))
    assert (ring.pieces, ring.pierces, ring.edge_starts) == (2, 2, 2), "two rings: each a hole pierced, an edge started"
    assert log_row_words(ring, card) == "25 mm, circle guide, 2 pieces, 4.08 m, 2 pierces, 2 edge starts"


def test_an_inch_shop_reads_feet_in_the_rows_for_the_log() -> None:
    card = job_card([estimated(plates(1), own_shop(units="in"))], quote="Q-1")
    assert f"{card.log_rows[0].cut_length_m / 0.3048:.1f} ft" in log_row_words(card.log_rows[0], card)


def test_the_card_holds_no_money(card: JobCard, everything: Estimate) -> None:
    file = io.BytesIO()
    job_card_workbook(card)(file)
    parts = zipfile.ZipFile(file)
    everything_said = " ".join(parts.read(name).decode("utf-8", "replace") for name in parts.namelist())
    everything_said += str(card_json(card))
    minor = 100.0
    amounts = {everything.totals.total / minor, everything.totals.taxable / minor, everything.totals.cost / minor}
    amounts |= set((everything.lines.price / minor).tolist()) | set((everything.lines.cost / minor).tolist())
    for amount in amounts:
        assert f"{amount:.2f}" not in everything_said
    assert everything.shop.shop.currency not in everything_said


def test_the_workbook_has_a_row_for_each_line_and_blank_rows_for_the_log(card: JobCard) -> None:
    file = io.BytesIO()
    job_card_workbook(card)(file)
    sheet = openpyxl.load_workbook(file)["Job card"]
    marks = [cell.value for cell in sheet["A"]]
    assert all(line.mark in marks for g in card.groups for line in g.lines)
    heads = next(row for row in sheet.iter_rows(values_only=True) if row[0] == "Row of the log")
    assert [head for head in heads if head] == [
        "Row of the log", "Date, who", "Hours on / off", "Oxygen cylinder on / off", "Fuel cylinder on / off",
        "What went wrong",
    ]  # fmt: skip
    assert all(log_row_words(row, card) in marks for row in card.log_rows)
    assert dict(facts(card))["Begins"] == "2026-11-16"

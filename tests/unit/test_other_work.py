"""Work that is not burning: the sheet, its records, the built-in rows and the minutes."""

from itertools import pairwise

import numpy as np
import pytest
from pydantic import ValidationError

from estimator.check.other_work import OtherWork, built_in_other_work, find_other_work, with_built_in
from estimator.quantities.other_work import hole_volume_cm3, minutes_per_unit, units_of_work
from estimator.read.cells import Book, SheetCells
from estimator.read.own_sheets import read_records
from estimator.reference import table
from estimator.sheets.other_work import OTHER_WORK
from estimator.words import MoreBy, Per

NAN = float("nan")


def built_in(name):
    work = find_other_work(name, list(built_in_other_work()))
    assert work is not None, name
    return work


def test_a_22_mm_hole_in_20_mm_takes_about_three_minutes_by_magnetic_drill():
    """Common practice, no source: 2.5 to 3 min, marked and punched."""
    drill = built_in("drill hole")
    minutes = minutes_per_unit(drill.minutes, more_min=drill.more_min, size=hole_volume_cm3(22, 20))
    assert 2.5 <= minutes <= 3.1


def test_a_drilled_hole_takes_longer_the_larger_and_the_thicker():
    drill = built_in("drill hole")
    sizes = [(14, 10), (22, 10), (22, 20), (30, 20)]
    minutes = [minutes_per_unit(drill.minutes, more_min=drill.more_min, size=hole_volume_cm3(d, t)) for d, t in sizes]
    assert all(a < b for a, b in pairwise(minutes))


def test_twenty_small_caps_are_sawn_or_sheared_in_20_to_25_minutes():
    """Common practice, no source: caps of 120 x 6 mm flat."""
    saw, shear = built_in("saw"), built_in("shear")
    assert 20 <= 20 * minutes_per_unit(saw.minutes, more_min=saw.more_min, size=7.2) <= 25
    assert 20 <= 20 * shear.minutes <= 25


def test_site_work_costs_an_hour_and_a_half_to_two_before_the_torch_is_lit():
    """Common practice, no source."""
    names = ("travel", "load and unload the cart", "permit and blankets")
    assert 90 <= sum(built_in(name).minutes for name in names) <= 120


def test_the_fire_watch_is_an_hour_without_rest():
    watch = built_in("Fire watch")
    assert (watch.minutes, watch.rest_allowed, watch.per) == (60.0, False, "job")
    assert watch.status == "memory"  # the hour is recalled; half an hour was seen


def test_scrap_lies_at_four_to_eight_tonnes_a_man_day():
    scrap = built_in("scrap")
    assert 4 <= 8 * 60 / scrap.minutes <= 8
    assert 6 <= scrap.oxygen_m3 <= 12
    assert 1 <= scrap.fuel_kg <= 2


def test_minutes_that_the_cutting_model_also_uses_come_from_the_work_rates():
    rates = table("work_rates")
    touch_up = rates.where(name="touch_up_min_per_m")
    assert built_in("grind touch up").minutes == touch_up.column("likely")[0]


def test_every_built_in_row_says_where_it_is_from_and_none_claims_to_be_seen():
    for work in built_in_other_work():
        assert work.status in {"common practice, no source", "judgement", "memory"}, work.name


def test_a_shops_own_row_stands_before_the_built_in_one_of_its_name():
    own = OtherWork(name="Drill  Hole", per="hole", minutes=4.0)
    rows = with_built_in([own])
    assert find_other_work("drill-hole", rows) is own
    assert len(rows) == len(built_in_other_work())


def test_minutes_outside_their_own_range_are_refused():
    with pytest.raises(ValidationError, match="between the low and the high"):
        OtherWork(name="saw", per="piece", minutes=2.0, minutes_low=3.0)


def test_extra_minutes_that_grow_with_nothing_are_refused():
    with pytest.raises(ValidationError, match="what they grow with"):
        OtherWork(name="saw", per="piece", minutes=2.0, more_min=0.1)


def test_the_sheet_states_every_field_that_a_shop_types():
    typed = {column.name for column in OTHER_WORK.columns}
    assert typed == set(OtherWork.model_fields) - {"place"}
    assert OTHER_WORK.column("per").choices == Per.words()
    assert OTHER_WORK.column("more_by").choices == MoreBy.words()


def test_holes_and_metres_are_per_piece_times_the_quantity():
    count = units_of_work(
        [Per.HOLE, Per.METRE, Per.KG, Per.TONNE, Per.JOB, Per.PIECE],
        quantity=[8, 6, 2, 2, 1, 5],
        holes=[4, NAN, NAN, NAN, NAN, NAN],
        length_mm=[NAN, 2200, NAN, NAN, NAN, NAN],
        mass_kg=[NAN, NAN, 15, 1500, NAN, NAN],
    )
    assert count.units == pytest.approx([32, 13.2, 30, 3, 1, 5])
    assert not count.counted_by_quantity.any()


def test_a_line_without_a_measure_counts_its_units_by_quantity_and_says_so():
    count = units_of_work([Per.TONNE], quantity=[5], holes=[NAN], length_mm=[NAN], mass_kg=[NAN])
    assert (count.units[0], count.counted_by_quantity[0]) == (5, True)


def test_doubling_the_quantity_doubles_every_kind_of_unit():
    per = np.array(list(Per))
    known = {"holes": np.full(7, 3.0), "length_mm": np.full(7, 750.0), "mass_kg": np.full(7, 12.0)}
    once = units_of_work(per, quantity=np.full(7, 4.0), **known).units
    assert units_of_work(per, quantity=np.full(7, 8.0), **known).units == pytest.approx(2 * once)


def test_the_sheet_reads_into_the_record(tmp_path):
    rows = [[column.heading for column in OTHER_WORK.columns], [column.example for column in OTHER_WORK.columns]]
    book = Book(path=tmp_path / "shop.xlsx", sha256="", kind="xlsx", sheets=[SheetCells("Other work", rows)])
    records, problems = read_records(book, OTHER_WORK, OtherWork)
    assert problems == []
    assert (records[0].name, records[0].per_code, records[0].more_by_code) == ("saw", Per.PIECE, MoreBy.CM2_OF_SECTION)
    assert records[0].spread == (0.5 / 0.8, 1.5 / 0.8)

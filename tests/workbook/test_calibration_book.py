"""The report of a calibration with quotes: quoted beside actual, class by class."""

from dataclasses import replace

import openpyxl
import pytest

from estimator.tasks_calibrate import calibrate
from estimator.write.calibration_book import calibration_workbook
from estimator.write.calibration_text import calibration_json
from estimator.write.save import save
from tests.simulate_log import logged_by, true_shop, work_of, write_log


@pytest.fixture
def found(tmp_path):
    log = logged_by(true_shop(paid_hours=1.25), work_of(9, seed=5), seed=6)
    entries = tuple(e.model_copy(update={"quote_number": e.job.replace("J", "Q")}) for e in log.entries)
    path = write_log(tmp_path / "work_log.xlsx", log.model_copy(update={"entries": entries}))
    quoted = {}
    for entry in entries:  # quoted by somebody who left a fifth of the minutes out
        quoted[entry.quote_number] = quoted.get(entry.quote_number, 0.0) + entry.paid_time_min / 1.25
    return calibrate(path, quoted_min=quoted)


def test_the_sheet_shows_each_class_and_each_job(found, tmp_path):
    save(tmp_path / "report.xlsx", calibration_workbook(found))
    sheet = openpyxl.load_workbook(tmp_path / "report.xlsx", data_only=True)["Quoted and actual"]
    rows = [[v for v in row if v is not None] for row in sheet.iter_rows(min_row=5, values_only=True)]
    cut = rows[0]
    assert cut[:2] == ["cut by hand", 9]
    assert cut[2] == pytest.approx(1.25, abs=0.01)
    assert 1.2 < cut[5] <= 1.25
    jobs = [row for row in rows if row and str(row[0]).startswith("Q-")]
    assert len(jobs) == 9
    assert all(row[4] == pytest.approx(1.25, abs=0.01) for row in jobs)


def test_json_carries_the_suggested_correction(found):
    (each,) = calibration_json(found)["quoted"]
    assert each["work_class"] == "cut by hand"
    assert each["correction"] == pytest.approx(1.25, abs=0.05)
    assert each["trend"].startswith("no clear trend")


def test_without_quotes_there_is_no_such_sheet(tmp_path):
    path = write_log(tmp_path / "work_log.xlsx", logged_by(true_shop(), work_of(4, seed=5), seed=6))
    save(tmp_path / "report.xlsx", calibration_workbook(calibrate(path)))
    assert "Quoted and actual" not in openpyxl.load_workbook(tmp_path / "report.xlsx").sheetnames


def test_an_inch_shop_sees_its_logged_gas_in_cubic_feet_and_the_same_ratios(found, tmp_path):
    learned = found.learned
    form = learned.before.shop.model_copy(update={"units": "in"})
    inch = replace(found, learned=replace(learned, before=learned.before.model_copy(update={"shop": form})))
    rows = []
    for name, calibration in (("mm", found), ("in", inch)):
        save(tmp_path / f"{name}.xlsx", calibration_workbook(calibration))
        book = openpyxl.load_workbook(tmp_path / f"{name}.xlsx", data_only=True)
        sheet = next(sheet for sheet in book if sheet["E4"].value == "Logged")
        rows.append([[cell.value for cell in row] for row in sheet.iter_rows(min_row=5) if row[4].value is not None])
    assert {row[5] for row in rows[0]} == {"min", "m³"}
    for metric, feet in zip(*rows, strict=True):
        # an ideal gas: 15 °C is 288.15 K, 70 °F is 294.261 K; real gases lie within 0.2 % of it
        each = 1.0 if metric[5] == "min" else 294.261 / 288.15 / 0.3048**3
        assert feet[5] == ("min" if metric[5] == "min" else "ft³")
        assert feet[4] == pytest.approx(metric[4] * each, rel=2e-3)
        assert feet[9] == metric[9]

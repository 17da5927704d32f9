"""National Institute of Standards and Technology, Statistical Reference Datasets, linear regression (public domain).

Certified values of NoInt1, NoInt2, Norris and Longley. Tolerance: the digits named, against 15 certified ones; a
normal-equations solver keeps 7 to 9 on Longley and would fail.
"""

import csv
from pathlib import Path

import numpy as np
import pytest

from estimator.learning.fit import fit_line, fit_linear


def test_no_int_1_slope_through_the_origin():
    fit = fit_linear(np.arange(60.0, 71.0)[:, np.newaxis], np.arange(130.0, 141.0))
    assert fit.coefficients[0] == pytest.approx(2.07438016528926, rel=1e-12)
    assert fit.standard_errors[0] == pytest.approx(0.165289256198347e-01, rel=1e-12)
    assert fit.residual_sd == pytest.approx(3.56753034006338, rel=1e-12)
    assert fit.freedom == 10


def test_no_int_2_slope_through_the_origin():
    fit = fit_linear([[4], [5], [6]], [3, 4, 4])
    assert fit.coefficients[0] == pytest.approx(0.727272727272727, rel=1e-12)
    assert fit.standard_errors[0] == pytest.approx(0.420827318078432e-01, rel=1e-12)
    assert fit.residual_sd == pytest.approx(0.369274472937998, rel=1e-12)


def test_norris_line():
    with (Path(__file__).parent / "data" / "nist_norris.csv").open(encoding="ascii", newline="") as file:
        rows = np.array([(float(row["x"]), float(row["y"])) for row in csv.DictReader(file)])
    fit = fit_line(rows[:, 0], rows[:, 1])
    assert len(rows) == 36
    assert fit.coefficients == pytest.approx([-0.262323073774029, 1.00211681802045], rel=1e-12)
    assert fit.standard_errors == pytest.approx([0.232818234301152, 0.429796848199937e-03], rel=1e-12)
    assert fit.residual_sd == pytest.approx(0.884796396144373, rel=1e-12)


def test_longley_keeps_ten_digits():
    longley = pytest.importorskip("statsmodels.datasets").longley.load()
    design = np.column_stack([np.ones(16), np.asarray(longley.exog, dtype=float)])
    fit = fit_linear(design, np.asarray(longley.endog, dtype=float))
    certified = [
        -3482258.63459582,
        15.0618722713733,
        -0.358191792925910e-01,
        -2.02022980381683,
        -1.03322686717359,
        -0.511041056535807e-01,
        1829.15146461355,
    ]
    assert fit.coefficients == pytest.approx(certified, rel=1e-10)
    assert fit.residual_sd == pytest.approx(304.854073561965, rel=1e-10)
    assert fit.standard_errors[0] == pytest.approx(890420.383607373, rel=1e-9)

"""Joint Committee for Guides in Metrology, JCGM 100:2008 (GUM), Annex H: worked examples of uncertainty.

Figures of H.1 and H.3 seen through two open implementations; the readings of H.2 (table H.2) are from memory, and the
printed results follow from them. Tolerance: half of the last printed digit, or one digit where the guide rounds its
inputs before the next step.
"""

import math

import numpy as np
import pytest

from estimator.learning.fit import fit_line, fit_linear
from tests.gum_propagation import covariance_of, propagate_first_order

THERMOMETER_C = np.array([21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511])
CORRECTION_C = -np.array([0.171, 0.169, 0.166, 0.159, 0.164, 0.165, 0.156, 0.157, 0.159, 0.161, 0.160])

VOLTS = np.array([5.007, 4.994, 5.005, 4.990, 4.999])
AMPERES = np.array([19.663, 19.639, 19.640, 19.685, 19.678]) / 1000
RADIANS = np.array([1.0456, 1.0438, 1.0468, 1.0428, 1.0433])


def end_gauge_length_nm(inputs):
    standard, difference, expansion_difference, temperature, expansion, temperature_difference = inputs
    return standard + difference - standard * (expansion_difference * temperature + expansion * temperature_difference)


def impedance(inputs):
    volts, amperes, radians = inputs
    return [volts / amperes * math.cos(radians), volts / amperes * math.sin(radians), volts / amperes]


def test_end_gauge_of_annex_h_1():
    inputs = [50_000_623, 215, 0, -0.1, 11.5e-6, 0]
    u = [25, 9.7, 0.58e-6, 0.41, 1.2e-6, 0.029]
    length = propagate_first_order(end_gauge_length_nm, inputs, covariance_of(u))
    assert length.values[0] == pytest.approx(50_000_838, abs=0.5)  # H.1.3.4
    assert length.standard_uncertainties[0] == pytest.approx(32, abs=0.5)  # H.1.4


def test_resistance_and_reactance_of_annex_h_2_with_correlated_readings():
    readings = np.array([VOLTS, AMPERES, RADIANS])
    found = propagate_first_order(impedance, readings.mean(axis=1), np.cov(readings) / VOLTS.size)
    resistance, reactance, magnitude = found.values
    assert resistance == pytest.approx(127.732, abs=0.0005)  # table H.4
    assert reactance == pytest.approx(219.85, abs=0.005)
    assert magnitude == pytest.approx(254.26, abs=0.005)
    u_resistance, u_reactance, u_magnitude = found.standard_uncertainties
    assert 0.070 <= u_resistance <= 0.0715  # 0.071 in table H.4; 0.070 by the other approach of H.2.4
    assert u_reactance == pytest.approx(0.30, abs=0.005)
    assert u_magnitude == pytest.approx(0.24, abs=0.005)


def test_correlations_of_annex_h_2_results():
    readings = np.array([VOLTS, AMPERES, RADIANS])
    found = propagate_first_order(impedance, readings.mean(axis=1), np.cov(readings) / VOLTS.size)
    # Table H.4, from memory: r(R, X) −0.588, r(R, Z) −0.485, r(X, Z) 0.993.
    assert found.correlation[0, 1] == pytest.approx(-0.588, abs=0.0006)
    assert found.correlation[0, 2] == pytest.approx(-0.485, abs=0.0006)
    assert found.correlation[1, 2] == pytest.approx(0.993, abs=0.0006)


def test_the_printed_correlations_of_annex_h_2_give_the_printed_uncertainties():
    correlation = [[1, -0.36, 0.86], [-0.36, 1, -0.65], [0.86, -0.65, 1]]
    matrix = covariance_of([0.0032, 9.5e-6, 0.00075], correlation)
    found = propagate_first_order(impedance, [4.9990, 19.661e-3, 1.04446], matrix)
    # Tolerance 2 %: the printed uncertainties and correlations have two digits.
    assert found.standard_uncertainties == pytest.approx([0.071, 0.295, 0.236], rel=0.02)


def test_calibration_line_of_annex_h_3():
    fit = fit_line(THERMOMETER_C, CORRECTION_C, origin=20.0)
    assert fit.coefficients == pytest.approx([-0.1712, 0.00218], abs=0.00005)  # H.3.3
    assert fit.standard_errors[0] == pytest.approx(0.0029, abs=0.00005)
    assert fit.standard_errors[1] == pytest.approx(0.00067, abs=0.000005)
    correlation = fit.covariance[0, 1] / np.prod(fit.standard_errors)
    assert correlation == pytest.approx(-0.930, abs=0.0005)
    assert fit.residual_sd == pytest.approx(0.0035, abs=0.00005)


def test_prediction_of_annex_h_3_at_30_degrees():
    value, u = fit_line(THERMOMETER_C, CORRECTION_C, origin=20.0).at([1.0, 30.0 - 20.0])
    assert value == pytest.approx(-0.1494, abs=0.00005)  # H.3.4
    assert u == pytest.approx(0.0041, abs=0.00005)


def test_a_common_error_in_annex_h_3_adds_doubt_to_the_offset_and_none_to_the_slope():
    """H.3.5: the error moves the line as the line through what it adds to each reading; doubts add in quadrature."""
    design = np.column_stack([np.ones_like(THERMOMETER_C), THERMOMETER_C - 20.0])
    plain = fit_line(THERMOMETER_C, CORRECTION_C, origin=20.0)
    moved = fit_linear(design, np.ones_like(THERMOMETER_C)).coefficients
    both = np.hypot(plain.standard_errors, 0.005 * np.abs(moved))
    assert both[0] == pytest.approx(0.005769, abs=0.0000005)
    assert both[1] == pytest.approx(plain.standard_errors[1], rel=1e-12)

"""What a cubic metre of gas really costs, once fees are paid and the gas left in the cylinder is counted.

The same rule serves the estimate, the comparison of suppliers and the month end. Knows no units: volumes come in as m³
at 15 °C and 101.325 kPa.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["cylinder_price", "gas_cost_per_m3", "gas_left_uncredited_m3"]


def cylinder_price(price: ArrayLike, content_m3: ArrayLike, priced_amount_m3: ArrayLike) -> NDArray[np.float64]:
    """Price of one full cylinder whose gas is priced by an amount (per 100 ft³, per kg, per m³).

    Parameters
    ----------
    price : array_like of float, any shape
        Price of the priced amount [money], zero or above.
    content_m3 : array_like of float, same shape
        Content of the full cylinder [m³], above zero.
    priced_amount_m3 : array_like of float, same shape
        The amount the price is for [m³], above zero.

    Returns
    -------
    ndarray of float
        Price of one cylinder [money], not rounded.

    Raises
    ------
    ValueError
        When a price is below zero, or a volume is not above zero.

    Notes
    -----
    ``price x content / priced amount``. Both volumes must be of one reference state.

    Source: definition.

    Examples
    --------
    A price of 9.00 per 100 ft³ on a cylinder of 250 ft³:

    >>> round(float(cylinder_price(9.00, content_m3=250 * 0.02774, priced_amount_m3=100 * 0.02774)), 9)
    22.5
    """
    content = _above_zero("content_m3", content_m3)
    amount = _above_zero("priced_amount_m3", priced_amount_m3)
    return np.asarray(_zero_or_above("price", price) * content / amount, dtype=np.float64)


def gas_left_uncredited_m3(heel_m3: ArrayLike, credited_share: ArrayLike) -> NDArray[np.float64]:
    """Gas left in a returned cylinder that the supplier does not pay back.

    Parameters
    ----------
    heel_m3 : array_like of float, any shape
        Gas left at change-over [m³], zero or above.
    credited_share : array_like of float, same shape
        Share of that gas the supplier credits, from 0 (the usual) to 1.

    Returns
    -------
    ndarray of float
        Gas paid for and lost with each cylinder [m³].

    Raises
    ------
    ValueError
        When a volume is below zero or a share lies outside 0 to 1.

    Notes
    -----
    ``heel x (1 - share credited)``. Source: definition.

    Examples
    --------
    >>> float(gas_left_uncredited_m3(0.5, credited_share=0))
    0.5
    """
    share = np.asarray(credited_share, dtype=np.float64)
    if not np.all((share >= 0) & (share <= 1)):
        raise ValueError(f"credited_share must lie from 0 to 1, got {credited_share!r}")
    return np.asarray(_zero_or_above("heel_m3", heel_m3) * (1 - share), dtype=np.float64)


def gas_cost_per_m3(
    price: ArrayLike, cylinder_fees: ArrayLike, content_m3: ArrayLike, uncredited_m3: ArrayLike
) -> NDArray[np.float64]:
    """Cost of one cubic metre of gas that reaches the torch.

    Parameters
    ----------
    price : array_like of float, any shape
        Price of one full cylinder [money], zero or above.
    cylinder_fees : array_like of float, same shape
        Fees charged with each cylinder [money], zero or above.
    content_m3 : array_like of float, same shape
        Content of the full cylinder [m³], above zero.
    uncredited_m3 : array_like of float, same shape
        Gas left at change-over and not credited [m³], below the content.

    Returns
    -------
    ndarray of float
        Cost of a cubic metre [money per m³], not rounded.

    Raises
    ------
    ValueError
        When money is below zero or the gas left is not below the content.

    Notes
    -----
    ``(price + fees) / (content - gas left and not credited)``. Rent, delivery and invoice fees are not in it.

    Source: definition.

    Examples
    --------
    A cylinder of 10 m³ at 47.00 with a fee of 2.00, 0.2 m³ going back unpaid:

    >>> round(float(gas_cost_per_m3(47.00, cylinder_fees=2.00, content_m3=10, uncredited_m3=0.2)), 9)
    5.0
    """
    content = _above_zero("content_m3", content_m3)
    usable = content - _zero_or_above("uncredited_m3", uncredited_m3)
    if not np.all(usable > 0):
        raise ValueError(f"uncredited_m3 must be below content_m3, got {uncredited_m3!r} of {content_m3!r}")
    paid = _zero_or_above("price", price) + _zero_or_above("cylinder_fees", cylinder_fees)
    return np.asarray(paid / usable, dtype=np.float64)


def _zero_or_above(name: str, values: ArrayLike) -> NDArray[np.float64]:
    array = np.asarray(values, dtype=np.float64)
    if not np.all(np.isfinite(array)) or np.any(array < 0):
        raise ValueError(f"{name} must be zero or above, got {values!r}")
    return array


def _above_zero(name: str, values: ArrayLike) -> NDArray[np.float64]:
    array = np.asarray(values, dtype=np.float64)
    if not np.all(np.isfinite(array)) or np.any(array <= 0):
        raise ValueError(f"{name} must be above zero, got {values!r}")
    return array

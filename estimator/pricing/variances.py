"""The accountant's split of a cost against its standard: price, usage, and usage into mix and yield."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["mix_variance", "price_variance", "usage_variance", "yield_variance"]


def price_variance(paid: ArrayLike, bought: ArrayLike, standard_price: ArrayLike) -> NDArray[np.float64]:
    """Return what was paid beyond the standard price of what was bought.

    Parameters
    ----------
    paid : array_like of float, any shape
        Money paid.
    bought : array_like of float, same shape
        Quantity bought.
    standard_price : array_like of float, same shape
        Standard price of one unit of it.

    Returns
    -------
    ndarray of float
        Money; above zero is dearer.

    Notes
    -----
    ``paid - bought x standard price``; on the quantity bought, so that stock carries the standard price.
    Source: OpenStax, Principles of Accounting 2, Managerial Accounting, direct materials variances.

    Examples
    --------
    >>> float(price_variance(74_760, 89_000, 0.85))
    -890.0
    """
    return np.asarray(paid, dtype=np.float64) - _product(bought, standard_price)


def usage_variance(used: ArrayLike, standard_quantity: ArrayLike, standard_price: ArrayLike) -> NDArray[np.float64]:
    """Return what was used beyond the standard quantity, at the standard price.

    Parameters
    ----------
    used : array_like of float, any shape
        Quantity used.
    standard_quantity : array_like of float, same shape
        Quantity that the work should have taken.
    standard_price : array_like of float, same shape
        Standard price of one unit.

    Returns
    -------
    ndarray of float
        Money; above zero is more used.

    Notes
    -----
    ``(used - standard quantity) x standard price``. Source: OpenStax, as ``price_variance``.

    Examples
    --------
    >>> float(usage_variance(89_000, 8 * 11_000, 0.85))
    850.0
    """
    over = np.asarray(used, dtype=np.float64) - np.asarray(standard_quantity, dtype=np.float64)
    return _product(over, standard_price)


def mix_variance(used: ArrayLike, standard_quantity: ArrayLike, standard_price: ArrayLike) -> NDArray[np.float64]:
    """Return the part of the usage variance of each input that comes from another ratio of the inputs.

    Parameters
    ----------
    used, standard_quantity, standard_price : array_like of float, shape (n,)
        Of each input; quantities in one unit, their sum above zero.

    Returns
    -------
    ndarray of float, shape (n,)
        Money; above zero is dearer.

    Notes
    -----
    ``(used - all used x standard share) x standard price``; with ``yield_variance`` it adds up to the usage variance.
    Source: published answer of a mix and yield exercise (opentuition.com, paper F5).

    Examples
    --------
    >>> standard = 23_180 * np.array([50, 40, 20]) / 100
    >>> float(mix_variance([13_200, 7_600, 5_600], standard, [10, 5, 9]).sum().round(6))
    9200.0
    """
    quantity, standard = np.asarray(used, dtype=np.float64), np.asarray(standard_quantity, dtype=np.float64)
    if standard.sum() <= 0:
        raise ValueError("the standard quantities must add up to more than zero")
    return _product(quantity - quantity.sum() * standard / standard.sum(), standard_price)


def yield_variance(used: ArrayLike, standard_quantity: ArrayLike, standard_price: ArrayLike) -> NDArray[np.float64]:
    """Return the part of the usage variance of each input that comes from using more of all of them.

    Parameters
    ----------
    used, standard_quantity, standard_price : array_like of float, shape (n,)
        As for ``mix_variance``.

    Returns
    -------
    ndarray of float, shape (n,)
        Money; above zero is more used.

    Notes
    -----
    ``(all used x standard share - standard quantity) x standard price``. Source: as ``mix_variance``.

    Examples
    --------
    >>> standard = 23_180 * np.array([50, 40, 20]) / 100
    >>> float(yield_variance([13_200, 7_600, 5_600], standard, [10, 5, 9]).sum().round(6))
    7216.0
    """
    whole = usage_variance(used, standard_quantity, standard_price)
    return whole - mix_variance(used, standard_quantity, standard_price)


def _product(quantity: ArrayLike, price: ArrayLike) -> NDArray[np.float64]:
    return np.asarray(np.asarray(quantity, dtype=np.float64) * np.asarray(price, dtype=np.float64))

"""What fits on one screen of a terminal: a long table keeps the rows that matter and says where all of them stand."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["ROWS", "rows_shown"]

ROWS = 8
"""Rows of a table that is shown whole: a screen of some 30 lines holds the answer and its warnings beside them."""
_KEPT = 5
"""Rows that are kept of a longer one."""


def rows_shown(weight: ArrayLike, *, whole: bool = False) -> NDArray[np.int64]:
    """Return which rows of a table are shown, in their own order.

    Parameters
    ----------
    weight : array_like, shape (n,)
        How much each row matters, as its amount.
    whole : bool
        Whether all were asked for.

    Returns
    -------
    ndarray of int64
        Every row where they fit, else the heaviest five; of equal ones the earlier.

    Notes
    -----
    Source: definition.

    Examples
    --------
    >>> rows_shown([5, 1, 9]).tolist()
    [0, 1, 2]
    >>> rows_shown([1.0] * 8 + [2.0]).tolist()
    [0, 1, 2, 3, 8]
    """
    amounts = np.asarray(weight, dtype=np.float64)
    if whole or amounts.size <= ROWS:
        return np.arange(amounts.size, dtype=np.int64)
    return np.sort(np.argsort(-amounts, kind="stable")[:_KEPT]).astype(np.int64)

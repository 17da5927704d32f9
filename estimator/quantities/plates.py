"""Plates to buy: a count and a percentage by area. No nesting is drawn, so the count is an estimate, not a promise.

Prices of plates and the choice between sizes on offer belong to pricing.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["PlateNeed", "PlateOption", "pieces_per_plate", "plate_need", "spaced_area_mm2"]

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class PlateOption:
    """One thickness bought in one of the sizes on offer."""

    offer: int
    """Index of the size on offer."""
    thickness_mm: float
    plates: int
    lines: NDArray[np.int64]
    """Lines that are cut out of these plates."""
    line_shares: Floats
    """Each such line's share of the plates, by area with spacing; the shares add to 1."""
    taken_share: float
    """Area of the pieces with their spacing over the area bought, 1 at most."""
    too_large: NDArray[np.int64]
    """Lines of this thickness with a piece larger than this plate; not counted here."""
    used_share: float
    """Net area of the pieces over the area bought."""
    plate_mass_kg: float
    piece_mass_kg: float
    kerf_mass_kg: float
    drop_mass_kg: float
    """What is left over: plates less pieces less kerf."""


@dataclass(frozen=True, slots=True)
class PlateNeed:
    """Every way to buy the plates of a list from the sizes on offer, and the lines that none of them serves."""

    options: list[PlateOption]
    larger_than_any_plate: NDArray[np.int64]
    """Lines whose piece fits on no plate of its thickness: it must be joined or bought to size."""
    thickness_not_on_offer: NDArray[np.int64]
    fill_factor: float

    def how_counted(self) -> str:
        """Say how far the count may be trusted, for print beside it."""
        return (
            f"counted by area, {self.fill_factor * 100:.0f} % of each plate taken as usable; no nesting was drawn, "
            "so lay out the pieces before you order"
        )


def spaced_area_mm2(
    length_mm: ArrayLike, width_mm: ArrayLike, *, spacing_mm: float, rectangle_share: ArrayLike = 1.0
) -> Floats:
    """Area of plate that one piece takes with the gap to its neighbours.

    Parameters
    ----------
    length_mm, width_mm : array_like of float, shape (n,)
        Sides of the rectangle round the piece. [mm]
    spacing_mm : float
        Gap between pieces, kerf and bridge together (5 is common practice). [mm]
    rectangle_share : array_like of float, shape (n,) or scalar
        Part of that rectangle which the piece takes: 1, or 0.5 for right triangles that pair up.

    Returns
    -------
    ndarray of float, shape (n,)
        Area with spacing. [mm²]

    Notes
    -----
    ``(length + spacing)(width + spacing) * share``. A disc takes its square. Source: definition.

    Examples
    --------
    >>> spaced_area_mm2(295, 195, spacing_mm=5)
    array(60000.)
    """
    length, width = np.asarray(length_mm, dtype=np.float64), np.asarray(width_mm, dtype=np.float64)
    return np.asarray((length + spacing_mm) * (width + spacing_mm) * np.asarray(rectangle_share))


def pieces_per_plate(
    length_mm: ArrayLike,
    width_mm: ArrayLike,
    *,
    plate_length_mm: float,
    plate_width_mm: float,
    spacing_mm: float,
    rectangle_share: ArrayLike = 1.0,
) -> Floats:
    """Pieces of one kind that a plate gives when they lie in rows, the better way round.

    Parameters
    ----------
    length_mm, width_mm : array_like of float, shape (n,)
        Sides of the rectangle round the piece. [mm]
    plate_length_mm, plate_width_mm : float
        Sides of the plate. [mm]
    spacing_mm : float
        Gap between pieces; the plate's own edges need none. [mm]
    rectangle_share : array_like of float, shape (n,) or scalar
        Part of the rectangle which the piece takes: 0.5 lets two share it.

    Returns
    -------
    ndarray of float, shape (n,)
        Whole pieces; 0 when the piece is larger than the plate.

    Notes
    -----
    Source: geometry of a grid.

    Examples
    --------
    >>> pieces_per_plate([300, 1300], [300, 1300], plate_length_mm=2500, plate_width_mm=1250, spacing_mm=5)
    array([32.,  0.])
    """
    length, width = (np.asarray(v, dtype=np.float64) + spacing_mm for v in (length_mm, width_mm))
    plate = plate_length_mm + spacing_mm, plate_width_mm + spacing_mm
    along = np.floor(plate[0] / length + 1e-9) * np.floor(plate[1] / width + 1e-9)
    across = np.floor(plate[0] / width + 1e-9) * np.floor(plate[1] / length + 1e-9)
    return np.asarray(np.floor(np.maximum(along, across) / np.asarray(rectangle_share)))


def plate_need(
    *,
    thickness_mm: ArrayLike,
    length_mm: ArrayLike,
    width_mm: ArrayLike,
    net_area_mm2: ArrayLike,
    rectangle_share: ArrayLike,
    kerf_area_mm2: ArrayLike,
    quantity: ArrayLike,
    offer_thickness_mm: ArrayLike,
    offer_length_mm: ArrayLike,
    offer_width_mm: ArrayLike,
    spacing_mm: float,
    fill_factor: float,
    steel_kg_m3: float,
    thickness_within_mm: float = 0.05,
) -> PlateNeed:
    """Count the plates of each thickness in each size on offer.

    Parameters
    ----------
    thickness_mm, length_mm, width_mm : array_like of float, shape (n,)
        Thickness and the rectangle round one piece of each line. [mm]
    net_area_mm2 : array_like of float, shape (n,)
        Area of one piece itself. [mm²]
    rectangle_share : array_like of float, shape (n,)
        Part of the rectangle which one piece takes from its neighbours.
    kerf_area_mm2 : array_like of float, shape (n,)
        Burnt length times kerf for one piece. [mm²]
    quantity : array_like of float, shape (n,)
        Pieces of each line.
    offer_thickness_mm, offer_length_mm, offer_width_mm : array_like of float, shape (m,)
        Plates on offer. [mm]
    spacing_mm : float
        Gap between pieces (common practice, no source). [mm]
    fill_factor : float
        Part of a plate that is taken as usable, above 0 and up to 1 (judgement).
    steel_kg_m3 : float
        Density of steel. [kg/m³]
    thickness_within_mm : float
        How near a plate's thickness must be to count as the line's. [mm]

    Returns
    -------
    PlateNeed
        Options in the order of the offers, and the flagged lines.

    Raises
    ------
    ValueError
        When the fill factor is not above 0 and up to 1, or a size or quantity is not above zero.

    Notes
    -----
    Each piece takes the larger of area with spacing over usable area and one over the pieces that lie in rows on the
    plate; the sum over all lines of the thickness is rounded up. So the count is never below net area over plate area.

    Source: definition.

    Examples
    --------
    >>> need = plate_need(thickness_mm=[20], length_mm=[300], width_mm=[300], net_area_mm2=[90000],
    ...                   rectangle_share=[1], kerf_area_mm2=[1500], quantity=[40],
    ...                   offer_thickness_mm=[20], offer_length_mm=[2500], offer_width_mm=[1250],
    ...                   spacing_mm=5, fill_factor=0.85, steel_kg_m3=7850)
    >>> need.options[0].plates, round(need.options[0].used_share, 3)
    (2, 0.576)
    """
    if not 0 < fill_factor <= 1:
        raise ValueError(f"fill_factor must be above 0 and up to 1, got {fill_factor}")
    t_mm, a_mm, b_mm, net, share, q = _above_zero(
        thickness_mm, length_mm, width_mm, net_area_mm2, rectangle_share, quantity
    )
    pieces = _Pieces(t_mm, a_mm, b_mm, net, share, q, np.atleast_1d(np.asarray(kerf_area_mm2, dtype=np.float64)))
    offers = list(zip(*_above_zero(offer_thickness_mm, offer_length_mm, offer_width_mm), strict=True))
    same = np.array([np.abs(pieces.thickness_mm - offer[0]) <= thickness_within_mm for offer in offers])
    same = same.reshape(len(offers), pieces.thickness_mm.size)
    fits = np.zeros_like(same)
    options = []
    for index, (plate_t_mm, plate_length_mm, plate_width_mm) in enumerate(offers):
        of_plate = pieces.share_of_plate(plate_length_mm, plate_width_mm, spacing_mm, fill_factor)
        fits[index] = same[index] & np.isfinite(of_plate)
        if same[index].any():
            plate_mm2 = plate_length_mm * plate_width_mm
            options.append(
                _option(index, plate_t_mm, plate_mm2, pieces, of_plate, same[index], spacing_mm, steel_kg_m3)
            )
    return PlateNeed(
        options=options,
        larger_than_any_plate=np.flatnonzero(same.any(axis=0) & ~fits.any(axis=0)),
        thickness_not_on_offer=np.flatnonzero(~same.any(axis=0)),
        fill_factor=fill_factor,
    )


@dataclass(frozen=True, slots=True)
class _Pieces:
    thickness_mm: Floats
    length_mm: Floats
    width_mm: Floats
    net_mm2: Floats
    rectangle_share: Floats
    quantity: Floats
    kerf_mm2: Floats

    def share_of_plate(self, plate_length_mm: float, plate_width_mm: float, spacing_mm: float, fill: float) -> Floats:
        """Share of a plate that one piece of each line takes; infinite when it is larger than the plate."""
        in_rows = pieces_per_plate(
            self.length_mm,
            self.width_mm,
            plate_length_mm=plate_length_mm,
            plate_width_mm=plate_width_mm,
            spacing_mm=spacing_mm,
            rectangle_share=self.rectangle_share,
        )
        by_area = self.spaced_mm2(spacing_mm) / (plate_length_mm * plate_width_mm * fill)
        with np.errstate(divide="ignore"):
            return np.maximum(np.minimum(by_area, 1.0), 1.0 / in_rows)

    def spaced_mm2(self, spacing_mm: float) -> Floats:
        return spaced_area_mm2(
            self.length_mm, self.width_mm, spacing_mm=spacing_mm, rectangle_share=self.rectangle_share
        )


def _option(
    index: int,
    thickness_mm: float,
    plate_mm2: float,
    pieces: _Pieces,
    share: Floats,
    same: NDArray[np.bool_],
    spacing_mm: float,
    steel_kg_m3: float,
) -> PlateOption:
    lines = np.flatnonzero(same & np.isfinite(share))
    q = pieces.quantity[lines]
    plates = int(np.ceil(np.round((q * share[lines]).sum(), 9)))
    taken = q * pieces.spaced_mm2(spacing_mm)[lines]
    kg_mm2 = thickness_mm * steel_kg_m3 * 1e-9
    net, kerf, bought = (q * pieces.net_mm2[lines]).sum(), (q * pieces.kerf_mm2[lines]).sum(), plates * plate_mm2
    return PlateOption(
        offer=index,
        thickness_mm=float(thickness_mm),
        plates=plates,
        lines=lines,
        line_shares=taken / taken.sum() if lines.size else taken,
        taken_share=min(float(taken.sum() / bought), 1.0) if bought else 0.0,
        too_large=np.flatnonzero(same & ~np.isfinite(share)),
        used_share=float(net / bought) if bought else 0.0,
        plate_mass_kg=float(bought * kg_mm2),
        piece_mass_kg=float(net * kg_mm2),
        kerf_mass_kg=float(kerf * kg_mm2),
        drop_mass_kg=float((bought - net - kerf) * kg_mm2),
    )


def _above_zero(*values: ArrayLike) -> list[Floats]:
    arrays = [np.atleast_1d(np.asarray(value, dtype=np.float64)) for value in values]
    for array in arrays:
        if not np.all(array > 0):
            raise ValueError(f"sizes, areas and quantities must be above zero, got {array[~(array > 0)][:3].tolist()}")
    return arrays

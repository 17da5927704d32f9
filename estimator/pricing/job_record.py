"""A priced job as plain data and back: all that pricing it again needs, so that an estimate stands on its own."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field, fields, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from estimator import __version__
from estimator.check.cut_list import NOT_COLUMNS, CutList, ReadAs, TitleBlock
from estimator.check.shop_book import ShopBook
from estimator.check.shop_book_reading import SHOP_TABLES
from estimator.pricing.job import Estimate, JobOrder, Reopened, estimate_job
from estimator.problems import Level, Place, Problem
from estimator.quantities.typed_settings import SettingKey
from estimator.words import BLANK

__all__ = ["JobRecord", "job_record", "record_data", "record_from_data"]

Floats = NDArray[np.float64]

_FORM = 1
"""Number of this form of the data; it rises when an older engine could not read it."""


@dataclass(slots=True)
class JobRecord:
    """A priced job as it was put in and as it came out."""

    cuts: CutList
    """The priced lines, sections worked out, each with its labour rate."""
    shop: ShopBook
    """As it stood on the job's date."""
    order: JobOrder
    engine: str
    total_minor: int
    errors: list[Problem] = field(default_factory=list)
    """What keeps rows of the list out of the price."""
    my_minutes: Floats = field(default_factory=lambda: np.empty(0))
    my_price_each: Floats = field(default_factory=lambda: np.empty(0))
    """The owner's own figures that stood in it when it was written; NaN where none."""
    reopened: Reopened = field(default_factory=Reopened)
    """Rates and settings of another estimate that it was priced with, as a variation is."""

    def priced(self, **typed: Any) -> Estimate:
        """Price the job again, as ``estimate_job`` does; what an owner typed goes in by name."""
        own = {"my_minutes": self.my_minutes, "my_price_each": self.my_price_each}
        typed = {"reopened": self.reopened, **{name: v for name, v in own.items() if len(v)}, **typed}
        return estimate_job(self.cuts, self.shop, self.order, problems=list(self.errors), **typed)


def job_record(estimate: Estimate) -> JobRecord:
    """Return what pricing a job again needs.

    Parameters
    ----------
    estimate : Estimate
        The priced job.

    Returns
    -------
    JobRecord
        What the run decided (fuel, rates' names, discount, rush) is in its order, so that nothing is decided anew.
    """
    order = replace(
        estimate.order,
        date=estimate.date,
        fuel=estimate.kit.fuel,
        labour_rate=estimate.job_labour,
        discount=estimate.discount,
        rush=estimate.rush,
        partial=True,
        strict=False,
    )
    errors = [problem for problem in estimate.problems if problem.level is Level.ERROR]
    cuts = replace(estimate.cuts, labour_rate=list(estimate.labour_rate))
    return JobRecord(
        cuts,
        estimate.shop,
        order,
        __version__,
        estimate.totals.total,
        errors,
        my_minutes=estimate.my_minutes,
        my_price_each=estimate.my_price_each,
        reopened=replace(estimate.reopened, new_lines=False, lit_at={}) if estimate.reopened else Reopened(),
    )


def record_data(record: JobRecord) -> dict[str, Any]:
    """Return a record as plain data, blanks left out.

    Parameters
    ----------
    record : JobRecord
        The job.

    Returns
    -------
    dict
        Strings, numbers, lists and dicts; the way back is ``record_from_data``.
    """
    cuts, shop = record.cuts, record.shop
    columns = {f.name: _plain_column(getattr(cuts, f.name)) for f in fields(cuts) if f.name not in NOT_COLUMNS}
    tables = {
        name: [row.model_dump(mode="json", exclude={"place"}, exclude_defaults=True) for row in getattr(shop, name)]
        for name in SHOP_TABLES
    }
    order = asdict(record.order) | {"date": record.order.date and record.order.date.isoformat()}
    return {
        "form": _FORM,
        "engine": record.engine,
        "total_minor": record.total_minor,
        "order": order,
        "my_minutes": _plain_column(record.my_minutes),
        "my_price_each": _plain_column(record.my_price_each),
        "work_rates": dict(record.reopened.work_rates),
        "settings": [[list(key), _blank_for_nan(row)] for key, row in record.reopened.settings.items()],
        "list": {
            "file": cuts.file,
            "sha256": cuts.sha256,
            "lines": len(cuts),
            "title": asdict(cuts.title),
            "columns": {name: values for name, values in columns.items() if values is not None},
            "read_as": [asdict(one) for one in cuts.read_as],
            "carried": {name: [_plain_cell(cell) for cell in cells] for name, cells in cuts.unknown.items()},
        },
        "shop": {
            "file": shop.file,
            "sha256": shop.sha256,
            "form": shop.shop.model_dump(mode="json", exclude_defaults=True),
            "tables": {name: rows for name, rows in tables.items() if rows},
        },
        "errors": [asdict(problem) | {"level": str(problem.level)} for problem in record.errors],
    }


def record_from_data(data: Mapping[str, Any]) -> JobRecord:
    """Return a record from plain data.

    Parameters
    ----------
    data : mapping
        What ``record_data`` gave.

    Returns
    -------
    JobRecord

    Raises
    ------
    ValueError, KeyError, TypeError
        When the data are not of this form.
    """
    if data["form"] != _FORM:
        raise ValueError(f"form {data['form']} of the record is not known, {_FORM} is")
    order = dict(data["order"])
    order["date"] = dt.date.fromisoformat(order["date"]) if order["date"] else None
    errors = [
        Problem(**{**one, "level": Level(one["level"]), "place": Place(**one["place"])}) for one in data["errors"]
    ]
    return JobRecord(
        cuts=_cuts(data["list"]),
        shop=_shop(data["shop"]),
        order=JobOrder(**order),
        engine=str(data["engine"]),
        total_minor=int(data["total_minor"]),
        errors=errors,
        my_minutes=_floats(data["my_minutes"]),
        my_price_each=_floats(data["my_price_each"]),
        reopened=Reopened(
            work_rates={str(name): float(value) for name, value in data["work_rates"].items()},
            settings={SettingKey(*key): _nan_for_blank(row) for key, row in data["settings"]},
        ),
    )


def _plain_column(values: Sequence[str] | NDArray[Any]) -> list[Any] | None:
    """Return a column's values with None for blanks; None for a column of blanks alone."""
    if isinstance(values, np.ndarray):
        blank = np.isnan(values) if values.dtype.kind == "f" else values == (BLANK if values.dtype == np.int8 else 0)
        if blank.all():
            return None
        plain = values.tolist()
        return [None if value != value else value for value in plain] if values.dtype.kind == "f" else plain
    return list(values) if any(values) else None


def _plain_cell(cell: object) -> str | float | None:
    """Return a cell that is not read as plain data: what is neither number nor blank as its text."""
    if cell is None or (isinstance(cell, float) and np.isfinite(cell)):
        return cell
    return str(cell)


def _blank_for_nan(row: Mapping[str, float]) -> dict[str, float | None]:
    return {name: None if value != value else value for name, value in row.items()}


def _nan_for_blank(row: Mapping[str, float | None]) -> dict[str, float]:
    return {name: np.nan if value is None else float(value) for name, value in row.items()}


def _floats(values: Sequence[float | None] | None) -> Floats:
    return np.array([np.nan if value is None else value for value in values or ()], dtype=np.float64)


def _cuts(data: Mapping[str, Any]) -> CutList:
    lines, columns = int(data["lines"]), data["columns"]
    made: dict[str, Any] = {}
    empty = CutList(mark=[], quantity=np.empty(0), thickness_mm=np.empty(0))
    for item in fields(CutList):
        if item.name in NOT_COLUMNS:
            continue
        like = getattr(empty, item.name)
        values = columns.get(item.name)
        if isinstance(like, list):
            made[item.name] = [str(value) for value in values] if values else [""] * lines
        elif values is not None:
            plain = [np.nan if value is None else value for value in values]
            made[item.name] = np.array(plain, dtype=like.dtype)
        elif item.name in ("quantity", "thickness_mm"):
            made[item.name] = np.full(lines, np.nan)
    title = dict(data["title"]) | {"other": tuple((str(k), str(v)) for k, v in data["title"]["other"])}
    return CutList(
        **made,
        title=TitleBlock(**title),
        read_as=[ReadAs(**one) for one in data["read_as"]],
        unknown={str(name): list(cells) for name, cells in data["carried"].items()},
        file=str(data["file"]),
        sha256=str(data["sha256"]),
    )


def _shop(data: Mapping[str, Any]) -> ShopBook:
    tables = {
        name: tuple(model.model_validate(row) for row in data["tables"].get(name, ()))
        for name, (_, model) in SHOP_TABLES.items()
    }
    return ShopBook.model_validate({"shop": data["form"], "file": data["file"], "sha256": data["sha256"], **tables})

"""Native charts, each the answer to one question: told apart by everybody, and in grey by their labels."""

from __future__ import annotations

from collections.abc import Sequence

from xlsxwriter.chart import Chart

from estimator.write.book import OutputBook
from estimator.write.styles import CHART_COLOURS, series_fill

__all__ = ["bar_chart", "line_chart"]

_FONT = {"size": 9}
_QUIET = {"color": "#D9D9D9", "width": 0.5}


def bar_chart(
    book: OutputBook,
    *,
    title: str,
    sheet: str,
    categories: tuple[int, int, int, int],
    series: Sequence[tuple[str, int]],
    axis: str,
    stacked: bool = False,
    number: str = "",
    size: tuple[int, int] = (620, 300),
) -> Chart:
    """Return a chart of lying bars, the first category on top.

    Parameters
    ----------
    book : OutputBook
        The workbook.
    title : str
        The question it answers.
    sheet : str
        Sheet of its figures.
    categories : tuple of int
        First row, column, last row, column of the names, from 0.
    series : sequence of (name, column)
        Columns of figures in the rows of the categories.
    axis : str
        What the axis counts, with its unit.
    stacked : bool
        Whether series stand behind each other in one bar.
    number : str
        Number format of the labels; none for unlabelled bars.
    size : tuple of int
        Width and height in pixels.

    Returns
    -------
    Chart
        Ready to insert.
    """
    chart = book.add_chart({"type": "bar", **({"subtype": "stacked"} if stacked else {})})
    first, column, last, _ = categories
    for index, (name, figures) in enumerate(series):
        chart.add_series(
            {
                "name": name,
                "categories": [sheet, first, column, last, column],
                "values": [sheet, first, figures, last, figures],
                "border": {"color": CHART_COLOURS[index]},
                "gap": 60,
                **series_fill(index),
                **({"data_labels": {"value": True, "num_format": number, "font": _FONT}} if number else {}),
            }
        )
    chart.set_title({"name": title, "overlay": False, "name_font": {"size": 11, "bold": True}})
    chart.set_y_axis({"reverse": True, "num_font": _FONT, "line": _QUIET, "crossing": "max"})
    chart.set_x_axis(
        {"name": axis, "name_font": _FONT, "num_font": _FONT, "major_gridlines": {"visible": True, "line": _QUIET}}
    )
    _finish(chart, len(series), size)
    return chart


def line_chart(
    book: OutputBook,
    *,
    title: str,
    sheet: str,
    categories: tuple[int, int, int, int],
    series: Sequence[tuple[str, int]],
    axes: tuple[str, str],
    size: tuple[int, int] = (620, 300),
) -> Chart:
    """Return a chart of one figure against another, with a marker at each point.

    Parameters
    ----------
    book : OutputBook
        The workbook.
    title : str
        The question it answers.
    sheet : str
        Sheet of its figures.
    categories : tuple of int
        First row, column, last row, column of the figures along the foot, from 0.
    series : sequence of (name, column)
        Columns of figures in the same rows.
    axes : tuple of str
        What foot and side count, with their units.
    size : tuple of int
        Width and height in pixels.

    Returns
    -------
    Chart
        Ready to insert.
    """
    chart = book.add_chart({"type": "line"})
    first, column, last, _ = categories
    for index, (name, figures) in enumerate(series):
        chart.add_series(
            {
                "name": name,
                "categories": [sheet, first, column, last, column],
                "values": [sheet, first, figures, last, figures],
                "line": {"color": CHART_COLOURS[index], "width": 2},
                "marker": {"type": ("circle", "square", "diamond")[index], "size": 6},
            }
        )
    foot, side = axes
    chart.set_title({"name": title, "overlay": False, "name_font": {"size": 11, "bold": True}})
    chart.set_x_axis({"name": foot, "name_font": _FONT, "num_font": _FONT})
    chart.set_y_axis(
        {"name": side, "name_font": _FONT, "num_font": _FONT, "major_gridlines": {"visible": True, "line": _QUIET}}
    )
    _finish(chart, len(series), size)
    return chart


def _finish(chart: Chart, series: int, size: tuple[int, int]) -> None:
    chart.set_legend({"none": True} if series == 1 else {"position": "bottom", "font": _FONT})
    chart.set_chartarea({"border": {"none": True}})
    chart.set_size({"width": size[0], "height": size[1]})

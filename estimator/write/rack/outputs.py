"""The files that ``rack`` writes: the workbook, and the settings card as a PDF when it is asked for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path

from estimator.cautions import CONDITIONS, cautions
from estimator.check.shop_book import ShopBook
from estimator.pricing.rack.card import card_of_report, card_of_settings
from estimator.pricing.rack.report import RackReport
from estimator.pricing.settings_card import TipSetting
from estimator.problems import Problem
from estimator.write.left_alone import REPLACED, left_alone
from estimator.write.rack.card_pdf import card_note, card_pdf
from estimator.write.rack.card_words import thickness_words
from estimator.write.rack.workbook import rack_workbook
from estimator.write.save import save
from estimator.write.target import check_targets

__all__ = ["write_rack", "write_settings_card"]


def write_rack(
    report: RackReport, target: Path, *, card: Path | None, inputs: Iterable[Path], usual: bool, force: bool
) -> tuple[list[tuple[Path, str]], list[Problem]]:
    """Write the outputs of a plan.

    Parameters
    ----------
    report : RackReport
        The finished plan.
    target : Path
        The workbook.
    card : Path or None
        The settings card, where one is wanted.
    inputs : iterable of Path
        Files that the run read; no output may be one of them.
    usual : bool
        Whether the workbook has its usual name, under which one that was left alone is replaced.
    force : bool
        Whether existing outputs may be replaced.

    Returns
    -------
    tuple of (list of (Path, str), list of Problem)
        What was written, and what the disk said.

    Raises
    ------
    WorkbookProblemsError
        When an output may not or could not be written.
    """
    read = list(inputs)
    anew = left_alone([target]) if usual and not force else []
    check_targets([target, *([card] if card else [])], inputs=read, force=force, anew=anew)
    problems = save(target, rack_workbook(report), inputs=read, force=force or bool(anew))
    written = [(target, "the plan, line by line, with the settings card" + REPLACED * bool(anew))]
    if card is not None:
        problems += save(card, _card(report), inputs=read, force=force)
        written.append((card, "the settings card, two tips a page"))
    return written, problems


def write_settings_card(found: Sequence[TipSetting], shop: ShopBook, target: Path, *, force: bool) -> list[Problem]:
    """Write the card of one thickness.

    Parameters
    ----------
    found : sequence of TipSetting
        By hand and on a track.
    shop : ShopBook
        Whose paper and name the card has.
    target : Path
        The PDF.
    force : bool
        Whether an existing file may be replaced.

    Returns
    -------
    list of Problem
        What the disk said.

    Raises
    ------
    WorkbookProblemsError
        When the file may not or could not be written.
    """
    one = found[0]
    page = card_pdf(
        card_of_settings(found, inch=shop.shop.units == "in"),
        cautions([one.fuel] if one.fuel in CONDITIONS else []),
        title=f"Settings card: {thickness_words(one.thickness_mm)} with oxygen and {one.fuel}",
        note=card_note(shop),
        paper=shop.shop.paper,
    )
    return save(target, page, force=force)


def _card(report: RackReport) -> bytes:
    shop = report.estimates[0].shop
    names = ", ".join(one.cuts.title.job or one.cuts.file for one in report.estimates)
    return card_pdf(
        card_of_report(report),
        report.cautions,
        title=f"Settings card: {names}",
        note=card_note(shop),
        paper=shop.shop.paper,
    )

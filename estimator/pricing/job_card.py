"""The job card as data: what goes to the bench with the steel, tip by tip and plate by plate, without a price."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np

from estimator.cautions import Caution, cautions
from estimator.check.flags import flag_lines
from estimator.pricing.card_log import CardLogRow, card_log_rows
from estimator.pricing.job import Estimate
from estimator.pricing.rack.report import rack_conditions
from estimator.pricing.rack.steps import rack_steps
from estimator.quantities.cut_sizes import drop_disc_mm
from estimator.quantities.torch_settings import Settings
from estimator.words import BLANK, EdgeFinish, MadeFrom, Method, Shape, Steel, Surface, WordCode, Work

__all__ = ["CardGroup", "CardLine", "JobCard", "job_card"]

_ALWAYS = ("manual first", "lever down", "fire watch")
_OF_THE_CYLINDERS = ("all", "acetylene", "propane")
_SAID_ALREADY = ("theirs", "coated")
"""Flags that a line's own notes say."""
_KEEP_FROM_KG = 2.0
"""Discs that fall out of rings and holes are named from this mass on. Source: judgement."""


@dataclass(frozen=True, slots=True)
class CardLine:
    """One line of the list as the bench needs it; NaN where a size is not known."""

    mark: str
    drawing: str
    description: str
    quantity: int
    is_piece: bool
    """Whether it makes pieces, and does not work on those of another line."""
    thickness_mm: float
    """Of the plate; NaN where the list gives none."""
    shape: str
    size_a_mm: float
    size_b_mm: float
    cut_length_mm: float
    """For lines without a shape."""
    holes: int
    hole_diameter_mm: float
    from_flat: bool
    """Whether it is cut off a flat of its width, so that only its length is cut."""
    drilled: bool
    """Whether the holes are drilled and not burnt."""
    kerf_mm: float
    mass_each_kg: float
    heavy: bool
    """Whether a piece is too heavy for one person, so that it is supported before the last cut."""
    notes: tuple[str, ...]
    """What else is done, and what to mind."""


@dataclass(slots=True)
class CardGroup:
    """Lines that are cut with one setting, one after the other."""

    tip: str
    guide: str
    """by hand, on a track, heating; empty for work without a torch."""
    thickness_mm: float
    """Along the cut; NaN where it does not matter [mm]."""
    oxygen_bar: float = np.nan
    fuel_bar: float = np.nan
    speed_mm_min: float = np.nan
    kerf_mm: float = np.nan
    lines: list[CardLine] = field(default_factory=list)
    keep: list[str] = field(default_factory=list)
    """What is left over and kept."""


@dataclass(frozen=True, slots=True)
class JobCard:
    """The whole card."""

    job_number: str
    quote_number: str
    quote: str
    """What the quote is called, its revision and variations named."""
    customer: str
    title: str
    work_from: dt.date | None
    fuel: str
    offcut_word: str
    paper: str
    inch: bool
    shop: str
    groups: tuple[CardGroup, ...]
    cautions: tuple[Caution, ...]
    log_rows: tuple[CardLogRow, ...]
    """What the work fills in the log, hours left out."""

    @property
    def pieces(self) -> int:
        """Pieces of the whole job."""
        return sum(line.quantity for group in self.groups for line in group.lines if line.is_piece)


def job_card(
    estimates: Sequence[Estimate],
    *,
    quote: str,
    quote_number: str = "",
    job_number: str = "",
    work_from: dt.date | None = None,
) -> JobCard:
    """Return the card of a job: the quote that was won, and its variations.

    Parameters
    ----------
    estimates : sequence of Estimate
        The quote's estimate first, then those of its variations.
    quote : str
        What the quote is called, its revision and variations named.
    quote_number : str
        Its number, as the work log has it.
    job_number : str
        The number under which the work is logged.
    work_from : datetime.date, optional
        Day the work begins.

    Returns
    -------
    JobCard
        Thin plate first; work without a torch last.
    """
    groups: dict[tuple[str, str, float], CardGroup] = {}
    for estimate in estimates:
        _put_lines(groups, estimate)
    first = estimates[0]
    steps = rack_steps(estimates, torches=1, by_tip=False)
    held = [condition for condition in rack_conditions(estimates, steps) if condition not in _OF_THE_CYLINDERS]
    wanted = [one for one in cautions(held) if one.key in _ALWAYS or one.applies_to not in _OF_THE_CYLINDERS]
    shop = first.shop.shop
    return JobCard(
        job_number=job_number,
        quote_number=quote_number,
        quote=quote,
        customer=first.cuts.title.customer,
        title=first.cuts.title.job,
        work_from=work_from,
        fuel=first.kit.fuel,
        offcut_word=shop.offcut_word,
        paper=shop.paper,
        inch=shop.units == "in",
        shop=shop.shop_name,
        groups=tuple(_in_tip_order(groups.values())),
        cautions=tuple(wanted),
        log_rows=card_log_rows(estimates),
    )


def _put_lines(groups: dict[tuple[str, str, float], CardGroup], estimate: Estimate) -> None:
    settings, lines, cuts = estimate.job.settings, estimate.job.lines, estimate.cuts
    flagged: dict[int, list[str]] = {}
    for flag in flag_lines(cuts):
        if flag.kind not in _SAID_ALREADY:
            said = f"not finished by flame ({flag.kind})" if flag.rough_only else f"{flag.kind}: '{flag.word}'"
            flagged.setdefault(flag.line, []).append(said)
    for line in range(len(cuts)):
        group = _group(groups, settings, int(lines.setting[line]))
        group.lines.append(_line(estimate, line, group.kerf_mm, flagged.get(line, [])))
        group.keep += _left_over(estimate, line, group.kerf_mm)


def _group(groups: dict[tuple[str, str, float], CardGroup], settings: Settings, setting: int) -> CardGroup:
    """Return the group of a setting, made where it is the first line of it."""
    if setting < 0:
        return groups.setdefault(("", "", np.inf), CardGroup("", "", np.nan))
    flame = bool(settings.is_flame[setting])
    guide = "heating" if flame else "on a track" if settings.machine[setting] else "by hand"
    thickness = float(settings.thickness_mm[setting])
    key = (settings.tip[setting], guide, 0.0 if flame else round(thickness, 6))
    if key not in groups:
        groups[key] = CardGroup(
            tip=settings.tip[setting],
            guide=guide,
            thickness_mm=thickness,
            oxygen_bar=float(settings.oxygen_pressure_bar[setting]),
            fuel_bar=float(settings.fuel_pressure_bar[setting]),
            speed_mm_min=np.nan if flame else float(settings.speed_mm_min[setting]),
            kerf_mm=0.0 if flame else float(settings.kerf_mm[setting]),
        )
    return groups[key]


def _in_tip_order(groups: Iterable[CardGroup]) -> list[CardGroup]:
    """Return the groups so that a tip stays in until its work is done: thin plate first, work without a torch last."""
    every = list(groups)
    thinnest: dict[str, float] = {}
    for group in every:
        own = 1e9 if group.guide == "heating" else group.thickness_mm
        thinnest[group.tip] = min(thinnest.get(group.tip, np.inf), own)
    return sorted(
        every,
        key=lambda g: (not g.tip, thinnest[g.tip], g.tip, np.nan_to_num(g.thickness_mm), g.guide),
    )


def _line(estimate: Estimate, line: int, kerf_mm: float, flags: Sequence[str]) -> CardLine:
    cuts, x = estimate.cuts, estimate.job.lines
    mass = float(np.nan_to_num(x.mass_each_kg[line]))
    return CardLine(
        mark=cuts.mark[line] or f"row {cuts.row[line]}",
        drawing=cuts.drawing[line],
        description=cuts.description[line],
        quantity=int(cuts.quantity[line]),
        is_piece=bool(cuts.is_piece[line]),
        thickness_mm=float(cuts.thickness_mm[line]),
        shape=_word(Shape, cuts.shape[line]),
        size_a_mm=float(cuts.size_a_mm[line]),
        size_b_mm=float(cuts.size_b_mm[line]),
        cut_length_mm=float(cuts.cut_length_mm[line]),
        holes=int(np.nan_to_num(cuts.holes[line])),
        hole_diameter_mm=float(cuts.hole_diameter_mm[line]),
        from_flat=bool(cuts.made_from[line] == MadeFrom.FLAT),
        drilled=bool(x.metres.drilled_holes_each[line] > 0),
        kerf_mm=0.0 if np.isnan(kerf_mm) else kerf_mm,
        mass_each_kg=mass,
        heavy=mass > estimate.work.handling_limit_kg,
        notes=(*_work_notes(estimate, line), *flags),
    )


def _work_notes(estimate: Estimate, line: int) -> list[str]:
    """Return what is done beyond the plain cut, in a few words each."""
    cuts, x = estimate.cuts, estimate.job.lines
    notes = []
    work = _word(Work, cuts.work[line])
    if work not in ("", "cut"):
        notes.append(cuts.other_work[line] or work)
    if np.nan_to_num(cuts.minutes_each[line]) > 0:
        notes.append(f"{cuts.minutes_each[line]:g} min of work each")
    if cuts.method[line] not in (BLANK, Method.FREE_HAND):
        notes.append(_word(Method, cuts.method[line]))
    if cuts.made_from[line] > 0:
        notes.append(f"from {_word(MadeFrom, cuts.made_from[line])}")
    mill = [(cuts.mill_sides[line], "side"), (cuts.mill_ends[line], "end")]
    notes += [f"{count:.0f} mill {what}{'s' if count > 1 else ''} stay" for count, what in mill if count > 0]
    if cuts.shared_cuts[line]:
        notes.append("cuts shared with the next piece")
    if np.nan_to_num(cuts.stack[line]) > 1:
        notes.append(f"stack of {cuts.stack[line]:.0f}")
    if np.nan_to_num(cuts.bevel_deg[line]) > 0:
        notes.append(_bevel(estimate, line))
    if x.metres.start_holes_each[line] > 0:
        notes.append(f"drill {x.metres.start_holes_each[line]:.0f} start holes")
    if cuts.edge_finish[line] > 0:
        notes.append(f"edges {_word(EdgeFinish, cuts.edge_finish[line])}")
    if cuts.surface[line] > 0:
        notes.append({Surface.RUSTY: "rusty", Surface.PAINTED: "strip the paint along the cut"}[cuts.surface[line]])
    if cuts.steel[line] == Steel.THEIRS:
        notes.append("customer's steel")
    return [*notes, *([cuts.note[line]] if cuts.note[line] else [])]


def _bevel(estimate: Estimate, line: int) -> str:
    cuts, units = estimate.cuts, estimate.shop.shown
    setting = int(estimate.job.lines.bevel_setting[line])
    said = f"bevel {cuts.bevel_deg[line]:g}°"
    if np.isnan(cuts.bevel_length_mm[line]):
        return f"{said} all round"
    said += f" on {units.words(cuts.bevel_length_mm[line], 'mm', '.4g' if units.inch else '.0f')}"
    if np.nan_to_num(cuts.root_face_mm[line]) > 0:
        said += f", root face {units.words(cuts.root_face_mm[line], 'mm', '.3g' if units.inch else 'g')}"
    return said if setting < 0 else f"{said}, tip {estimate.job.settings.tip[setting]}"


def _left_over(estimate: Estimate, line: int, kerf_mm: float) -> list[str]:
    """Return the discs that fall out and are worth keeping, and whose steel it is."""
    cuts, units = estimate.cuts, estimate.shop.shown
    inside = []
    if cuts.shape[line] == Shape.RING:
        inside.append((float(cuts.size_b_mm[line]), 1))
    elif np.nan_to_num(cuts.holes[line]) > 0 and estimate.job.lines.metres.drilled_holes_each[line] == 0:
        inside.append((float(cuts.hole_diameter_mm[line]), int(cuts.holes[line])))
    kept = []
    for hole, each in inside:
        disc = drop_disc_mm(hole, 0.0 if np.isnan(kerf_mm) else kerf_mm)
        volume_m3 = np.pi / 4.0 * disc**2 * float(cuts.thickness_mm[line]) / 1e9
        mass = volume_m3 * estimate.work.steel_density_kg_m3
        if mass >= _KEEP_FROM_KG:
            count = each * int(cuts.quantity[line])
            theirs = ", the customer's" if cuts.steel[line] == Steel.THEIRS else ""
            size = units.words(disc, "mm", ".1f" if units.inch else ".0f")
            weight = units.words(mass, "kg", ".1f")
            kept.append(f"{count} disc{'s' if count > 1 else ''} Ø {size}, {weight} each{theirs}")
    return kept


def _word(words: type[WordCode], code: int) -> str:
    return "" if code == BLANK else words(int(code)).word

"""Take one invented job the whole way, and write docs/one_job.md with the figures that it came to.

From the list over three revisions, a variation, the job card and the week's gas to the log and the month end. Every
name, size and price is invented. Run from the project's folder: ``python -m scripts.make_one_job``. A test takes the
same steps, compares every figure along the way, and holds the page to them.
"""

from __future__ import annotations

import argparse
import json
import shutil
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import openpyxl
from typer.testing import CliRunner

from estimator.check.work_log import read_work_log
from estimator.cli import app
from estimator.pricing.modelled_log import modelled_log
from estimator.read.load import load_book
from estimator.sheets.agreed_prices import AGREED_PRICES, SUPPLIER_TERMS
from estimator.sheets.bills import BILL_LINES, BILLS
from estimator.sheets.cylinder_counts import DELIVERIES, RACK_COUNTS
from estimator.sheets.statement import Sheet
from estimator.sheets.work_log import WORK_LOG
from estimator.tasks_quote import reopen_estimate
from estimator.write.book import OutputBook, write_book
from estimator.write.own_sheets import write_own_sheet
from estimator.write.save import save
from scripts.make_month_end_sample import ACETYLENE, OXYGEN, PRICE_ROWS, TERM_ROWS, Row, of
from scripts.make_samples import SAMPLES

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "one_job.md"
NUMBER, JOB = "Q-0001", "J-31"
HEAD = "Customer,Example Works (invented)\nJob,Machine frames\nDate,2026-11-02\n\n"
COLUMNS = "Mark,Drawing,Description,Qty,Thickness mm,Shape,Size A,Size B,Holes,Hole diameter,Steel,Method\n"
LINES = (
    "P1,D-12 A,Base plate,8,20,rectangle,300,300,4,22,ours,straightedge",
    "P2,D-12 A,Gusset,24,10,right triangle,150,150,,,ours,straightedge",
    "P3,D-13,Ring,2,25,ring,400,250,,,ours,circle guide",
    "P4,D-14,Side plate,2,16,rectangle,1200,400,,,ours,straightedge",
)
MORE_GUSSETS = LINES[1].replace(",24,", ",32,")
EXTRA = "P9,,Stiffener,4,12,rectangle,250,120,,,ours,straightedge"
TEMPLATE = """<!-- Made by scripts/make_one_job.py; edit what it is made from. -->

# One job, the whole way

An invented job of an invented shop, from the customer's mail to the month end. Every figure below is what the program
gave when this page was made, and a test holds that each is the same wherever it stands: on the sheet, on the customer's
page, in the register, at the bench and in the month end.

## The list, and the sheet I worked on

The mail holds {marks}.

    kerfledger estimate frames.csv

The estimate says what each line takes. I drill the base plates at the bench and know my own time, so I type {my_minutes}
under *My minutes*, and why, and save. The quote follows the sheet, not the list:

    kerfledger quote frames_estimate.xlsx --pdf

**{number} revision A: {price_a} before tax, {total_a} with it.** The register is made with it, and the estimate is kept
as it was quoted.

## Two revisions

The customer wants more gussets. The new list is priced with what I had typed on the lines, under the same number:

    kerfledger estimate frames.csv --from frames_estimate.xlsx
    kerfledger quote frames_estimate_2.xlsx --number Q-0001 --pdf

{changes_b}

Then the side plates are too dear. I type {my_price} under *My price each* and quote the sheet again:

{changes_c}

Revisions A and B stay as they were sent. The customer's page says what changed since the last one:

![Revision C](pictures/one_quote.png)

## Won, and an extra

    kerfledger decide Q-0001 won --job J-31 --work-from 2026-11-09
    kerfledger variation Q-0001 extra.csv --pdf

"While you are there, four stiffeners." The slip takes the rates and the date of the quote, and asks for no second
set-up: **{extra_price} before tax**. It is signed before the work begins.

![The variation](pictures/one_variation.png)

## To the bench, and the gas for it

    kerfledger decide Q-0001 won --variation 1
    kerfledger job-card Q-0001
    kerfledger rack --won --until 2026-11-13

The card holds quote and variation, {pieces} pieces in {settings} settings, thin plate first, and no price. The sizes to
burn have the kerf allowed; a piece over 25 kg says that it is supported before the last cut.

![The job card](pictures/one_job_card.png)

The rack plan takes all work that is won and not done: {use}. Cylinders to order: {order}.

## Back from the bench

The foot of the card is the work log's rows: pieces, metres and starts stand there as they were quoted, and the bench
adds day, name and hours. The card's workbook has them on a sheet of their own, to be copied in one go.

    kerfledger decide Q-0001 done
    kerfledger reconcile --bills bills.xlsx --log work_log.xlsx

| | quoted | came to |
|---|---|---|
| man-minutes | {quoted_min} | {logged_min} |
| price before tax, revision C and variation | {quoted_price} | |
| gas, rental and fees of the month's bill | | {job_cost} |

From the gas that was quoted to the gas that was used, each step in m³:

| | oxygen | acetylene |
|---|---|---|
{bridge}

The log has one job where quote and variation are two estimates, and hours without the time at the drill, so the torch is
lit less often; and its metres are typed to the centimetre.

The bill of {billed} is right, and the gas that was used is what the work explains. In the register the job is done, one
quote of one is won, and the next list of this customer shows what each mark cost last time.

![The register](pictures/one_register.png)
"""
EXTRA_KEPT = f"{NUMBER}_C_V1_estimate.xlsx"
NOVEMBER = {"bill": "INV-3301", "first": "2026-11-01", "last": "2026-11-30"}


@dataclass(slots=True)
class Story:
    """What every step came to."""

    folder: Path
    typed: dict[str, Any] = field(default_factory=dict)
    """What the owner typed in the estimate."""
    quotes: dict[str, dict[str, Any]] = field(default_factory=dict)
    """The answer of ``quote``, by revision."""
    decided: dict[str, Any] = field(default_factory=dict)
    variation: dict[str, Any] = field(default_factory=dict)
    card: dict[str, Any] = field(default_factory=dict)
    rack: dict[str, Any] = field(default_factory=dict)
    month: dict[str, Any] = field(default_factory=dict)
    register: dict[str, Any] = field(default_factory=dict)


def run(*arguments: object, code: int = 0) -> dict[str, Any]:
    """Run a command as its owner would, and return its JSON."""
    done = CliRunner().invoke(app, [*map(str, arguments), "--json"])
    if done.exit_code != code:
        raise SystemExit(f"{' '.join(map(str, arguments))} ended with {done.exit_code}:\n{done.output}")
    answer: dict[str, Any] = json.loads(done.stdout)
    return answer


def live(folder: Path) -> Story:
    """Take the job from its list to the month end in a folder."""
    story = Story(folder)
    shutil.copy(SAMPLES / "shop_book.xlsx", folder / "shop_book.xlsx")
    book, register = folder / "quotes_register.xlsx", ("--register", folder / "quotes_register.xlsx")
    write_list(folder / "frames.csv", LINES)
    run("estimate", folder / "frames.csv")
    story.typed = type_in(folder / "frames_estimate.xlsx", {"My minutes": (0, 190), "Why": (0, "drilled at the bench")})
    story.quotes["A"] = run("quote", folder / "frames_estimate.xlsx", "--pdf")

    write_list(folder / "frames.csv", (LINES[0], MORE_GUSSETS, *LINES[2:]))
    second = folder / "frames_estimate_2.xlsx"
    run("estimate", folder / "frames.csv", "--from", folder / "frames_estimate.xlsx")
    story.quotes["B"] = run("quote", second, "--number", NUMBER, "--pdf")
    story.typed |= type_in(second, {"My price each": (3, 99.5)})
    story.quotes["C"] = run("quote", second, "--pdf")

    decided = ("--date", "2026-11-05", *register)
    story.decided = run("decide", NUMBER, "won", "--job", JOB, "--work-from", "2026-11-09", *decided)
    write_list(folder / "extra.csv", (EXTRA,))
    story.variation = run("variation", NUMBER, folder / "extra.csv", "--date", "2026-11-10", "--pdf", *register)
    run("decide", NUMBER, "won", "--variation", 1, "--date", "2026-11-10", *register)
    story.card = run("job-card", NUMBER, *register)
    story.rack = run("rack", "--won", "--until", "2026-11-13", *register)

    write_log(folder / "work_log.xlsx", story.card)
    write_bills(folder / "bills.xlsx")
    run("decide", NUMBER, "done", "--date", "2026-11-12", *register)
    story.month = run("reconcile", "--bills", folder / "bills.xlsx", "--log", folder / "work_log.xlsx")
    story.register = run("register", "--register", book)
    return story


def write_list(path: Path, lines: Sequence[str]) -> None:
    """Write a cut list as the customer's mail had it."""
    path.write_text(HEAD + COLUMNS + "\n".join(lines) + "\n", encoding="utf-8")


def type_in(path: Path, cells: dict[str, tuple[int, object]]) -> dict[str, Any]:
    """Type into the sheet of lines: a value under a heading, on a line counted from 0."""
    book = openpyxl.load_workbook(path)
    sheet = book["Lines"]
    head = next(row for row in sheet.iter_rows() if row[0].value == "Row")
    columns = {cell.value: cell.column for cell in head}
    for heading, (line, value) in cells.items():
        sheet.cell(head[0].row + 2 + line, columns[heading]).value = value
    book.save(path)
    return {heading: value for heading, (_, value) in cells.items()}


def write_log(path: Path, card: dict[str, Any]) -> None:
    """Type the job card back: the rows of its foot, with the day and the hours that the bench wrote beside them."""
    days, minutes = ("2026-11-09", "2026-11-10", "2026-11-11", "2026-11-11", "2026-11-12"), (150, 300, 110, 170, 65)
    rows: list[Row] = []
    for place, (known, day, paid) in enumerate(zip(card["log_rows"], days, minutes, strict=True)):
        note = "tip blocked twice" if place == 1 else ""
        rows.append({**known, "date": date(day), "who": "A", "paid_time_min": float(paid), "note": note})
    write(path, "Work log of an invented shop", [(WORK_LOG, rows)])


def write_bills(path: Path) -> None:
    """Write the bill of the month: what was delivered, at the agreed prices, and the counts on the rack."""
    first, last = date(NOVEMBER["first"]), date(NOVEMBER["last"])
    lines = [
        bill_line("gas", 1, "cylinder", 42.00, **of(OXYGEN), delivery_note="5102"),
        bill_line("rent", 150, "cylinder-day", 0.26, **of(OXYGEN)),
        bill_line("rent", 60, "cylinder-day", 0.29, **of(ACETYLENE)),
        bill_line("delivery", 1, "delivery", 18.00, description="delivery"),
        bill_line("fee", 1, "bill", 4.50, description="hazardous goods"),
    ]
    net = round(sum(float(str(line["amount"])) for line in lines), 2)
    tax = round(net * 0.10 + 1e-9, 2)
    bill: Row = {
        "supplier": TERM_ROWS[0]["supplier"],
        "bill_number": NOVEMBER["bill"],
        "bill_date": last,
        "period_from": first,
        "period_to": last,
        "net_total": net,
        "tax_total": tax,
        "total": round(net + tax, 2),
    }
    notes: list[Row] = [
        {"note_number": "5102", "date": date("2026-11-06"), **of(OXYGEN), "full_in": 1, "empty_out": 1, "ordered": 1}
    ]
    opening = date("2026-10-31")
    counts: list[Row] = [
        {"date": opening, **of(OXYGEN), "full": 1, "part_readings": "120 bar", "empty": 3},
        {"date": opening, **of(ACETYLENE), "full": 1, "part_readings": "64.1 kg", "empty": 0},
        {"date": last, **of(OXYGEN), "full": 1, "part_readings": "168 bar", "empty": 3},
        {"date": last, **of(ACETYLENE), "full": 1, "part_readings": "62.9 kg", "empty": 0},
    ]
    sheets = [
        (BILLS, [bill]),
        (BILL_LINES, lines),
        (DELIVERIES, notes),
        (RACK_COUNTS, counts),
        (AGREED_PRICES, PRICE_ROWS),
        (SUPPLIER_TERMS, TERM_ROWS),
    ]
    write(path, "Gas bills of an invented shop", sheets)


def bill_line(kind: str, quantity: float, unit: str, price: float, **rest: object) -> Row:
    """One printed line of the bill."""
    named: Row = {"bill_number": NOVEMBER["bill"], "kind": kind, "quantity": quantity, "unit": unit}
    return {**named, "unit_price": price, "amount": round(quantity * price + 1e-9, 2), **rest}


def write(path: Path, title: str, sheets: Sequence[tuple[Sheet, Sequence[Row]]]) -> None:
    """Write one workbook."""

    def build(book: OutputBook) -> None:
        for sheet, rows in sheets:
            write_own_sheet(book, sheet, rows)

    save(path, write_book(build, title=title), force=True)


def date(text: str) -> Any:
    """Return a day."""
    import datetime as dt

    return dt.date.fromisoformat(text)


def page(story: Story) -> str:
    """Return docs/one_job.md."""
    return TEMPLATE.format(**figures(story))


def figures(story: Story) -> dict[str, Any]:
    """Return every figure that the page shows, by name."""
    first, extra, month = story.quotes["A"]["quote"], story.variation["quote"], story.month["months"][0]
    (job,) = month["jobs"]
    gases = {gas["gas"]: gas for gas in month["gases"]}
    billed = next(step["money"] for step in month["where_the_money_went"] if step["step"] == "total")
    return {
        "marks": _marks(),
        "my_minutes": story.typed["My minutes"],
        "my_price": story.typed["My price each"],
        "number": first["number"],
        "price_a": first["price"],
        "total_a": first["total"],
        "changes_b": _changes(story.quotes["B"]["changes"]),
        "changes_c": _changes(story.quotes["C"]["changes"]),
        "extra_price": extra["price"],
        "pieces": story.card["pieces"],
        "settings": len(story.card["groups"]),
        "use": " and ".join(f"{gas['used_m3']:.2f} m³ of {gas['gas']}" for gas in story.rack["gases"]),
        "order": ", ".join(f"{gas['gas']} {gas['order']['cylinders']}" for gas in story.rack["gases"]),
        "quoted_min": f"{job['quoted']['paid_time_min']:.0f}",
        "logged_min": f"{job['paid_time_min']:.0f}",
        "bridge": _bridge(story, gases),
        "quoted_price": job["quoted"]["price"],
        "job_cost": job["cost"],
        "billed": billed,
    }


def gas_steps(story: Story) -> dict[str, dict[str, float]]:
    """Return gas of the lines and of lighting, in m³: as quoted with its variation, and as the log is modelled."""
    kept = [reopen_estimate(story.folder / name).estimate for name in (f"{NUMBER}_C_estimate.xlsx", EXTRA_KEPT)]
    log, _ = read_work_log(load_book(story.folder / "work_log.xlsx"))
    logged = modelled_log(log, kept[0].shop).jobs
    steps: dict[str, dict[str, float]] = {"oxygen": {}, "acetylene": {}}
    for who, jobs in (("quoted", [each.job for each in kept]), ("logged", [each.work for each in logged])):
        for job in jobs:
            x = job.lines
            for gas, lines, lit in (
                ("oxygen", x.cutting_oxygen_m3 + x.preheat_oxygen_m3 + x.lost_oxygen_m3, "preheat_oxygen lost_oxygen"),
                ("acetylene", x.fuel_m3 + x.lost_fuel_m3, "fuel lost_fuel"),
            ):
                lighting = sum(getattr(row, f"{name}_m3") for row in job.rows for name in lit.split())
                for what, amount in (("lines", float(lines.sum())), ("lighting", float(lighting))):
                    steps[gas][f"{who} {what}"] = steps[gas].get(f"{who} {what}", 0.0) + amount
    return steps


def _bridge(story: Story, gases: dict[str, dict[str, Any]]) -> str:
    """Return the steps from quoted to counted gas; each column adds up as it is printed."""
    columns = []
    for gas, step in gas_steps(story).items():
        quoted, explained, used = (
            round(value, 3)
            for value in (
                next(each["used_m3"] for each in story.rack["gases"] if each["gas"] == gas),
                gases[gas]["expected_m3"],
                gases[gas]["used_m3"],
            )
        )
        lighting = round(step["logged lighting"] - step["quoted lighting"], 3)
        shown = (quoted, lighting, explained - quoted - lighting, explained, used - explained, used)
        columns.append([f"{round(v, 3) + 0.0:+.3f}" if at in (1, 2, 4) else f"{v:.3f}" for at, v in enumerate(shown)])
    names = (
        "quoted, revision C and variation",
        "lighting, as one job",
        "metres and starts as typed",
        "**the log's work explains**",
        "not explained, within what the counts and the handbook can tell",
        "**the counts say**",
    )
    return "\n".join(f"| {name} | {' | '.join(row)} |" for name, *row in zip(names, *columns, strict=True))


def _marks() -> str:
    marks = [line.split(",") for line in LINES]
    return ", ".join(f"{mark[3]} x {mark[2].lower()} ({mark[0]})" for mark in marks)


def _changes(changes: dict[str, Any]) -> str:
    rows = [f"| {one['mark']} {one['change']} | {one['what']} | {one['difference']} |" for one in changes["lines"]]
    if changes["rest"] != "0.00":
        rows.append(f"| the rest of the job | gas lit, cylinders changed | {changes['rest']} |")
    whole = f"| **price before tax** | {changes['was']} to {changes['now']} | |"
    return "\n".join([f"| since revision {changes['since']} | how | money |", "|---|---|---|", *rows, whole])


def main() -> None:
    """Write the page."""
    argparse.ArgumentParser(description=__doc__).parse_args()
    with tempfile.TemporaryDirectory() as scratch:
        PAGE.write_text(page(live(Path(scratch))), encoding="utf-8")


if __name__ == "__main__":
    main()

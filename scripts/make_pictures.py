"""Make every picture of the docs from the sample: run the demo, print its workbooks, keep the pages named below.

Run from the project's folder: ``python -m scripts.make_pictures``. Needs LibreOffice, pdftoppm and pdftotext. A test
holds the pictures in the docs to the names below, and their size; pixels differ with the fonts of a machine.
"""

from __future__ import annotations

import argparse
import subprocess
import tempfile
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageChops
from typer.testing import CliRunner

from estimator.cli import app
from scripts.make_one_job import live

PICTURES = Path(__file__).resolve().parent.parent / "docs" / "pictures"
LARGEST_BYTES = 150_000
_MARGIN = 12
_WIDEST = 1200
_FOOTER = 0.94
"""Share of a page's height above its footer."""


@dataclass(frozen=True, slots=True)
class Picture:
    """One picture: which page of which file."""

    name: str
    file: str
    sheet: str = ""
    """Sheet whose first printed page it is; the file's first page when empty."""
    upper: float = 1.0
    """Share of the page that is shown, from the top."""


ALL = (
    Picture("start_here", "shop/shop_book.xlsx", "Start here"),
    Picture("cut_list", "demo/cut_list.xlsx"),
    Picture("answer", "demo/cut_list_estimate.xlsx", "Answer", upper=0.43),
    Picture("lines", "demo/cut_list_estimate.xlsx", "Lines", upper=0.45),
    Picture("build_up", "demo/cut_list_estimate.xlsx", "Build-up"),
    Picture("quote", "demo/quote.pdf"),
    Picture("rack", "demo/cut_list_rack.xlsx"),
    Picture("settings_card", "demo/settings_card.pdf"),
    Picture("comparison", "demo/price_lists_comparison.xlsx", "Answer"),
    Picture("month_end", "demo/bills_month_end.xlsx", "Month end"),
    Picture("month_money", "demo/bills_month_end.xlsx", "Where the money went"),
    Picture("learned", "demo/shop_book_learned_report.xlsx", "Your own figures"),
    Picture("how_far_off", "demo/shop_book_learned_report.xlsx", "How far off"),
    Picture("one_quote", "one/Q-0001_C.pdf"),
    Picture("one_variation", "one/Q-0001_C_V1.pdf", upper=0.6),
    Picture("one_job_card", "one/Q-0001_job_card.pdf"),
    Picture("one_register", "one/quotes_register.xlsx", "Quotes", upper=0.3),
)


def make(folder: Path) -> list[Path]:
    """Run the sample in a folder and write every picture; return their files."""
    for arguments in (["demo", str(folder / "demo")], ["start", str(folder / "shop")]):
        done = CliRunner().invoke(app, arguments)
        if done.exit_code:
            raise SystemExit(done.output)
    (folder / "one").mkdir()
    live(folder / "one")
    books = dict.fromkeys(folder / picture.file for picture in ALL if picture.file.endswith(".xlsx"))
    printed = _print([*books], folder / "printed")
    PICTURES.mkdir(parents=True, exist_ok=True)
    made = []
    for picture in ALL:
        pdf = printed.get(folder / picture.file, folder / picture.file)
        made.append(_picture(pdf, _page_of(pdf, picture.sheet), picture.upper, PICTURES / f"{picture.name}.png"))
    return made


def _print(books: list[Path], folder: Path) -> dict[Path, Path]:
    """Print workbooks to PDF, those of one folder in one start of LibreOffice."""
    pdfs = {}
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    for beside in dict.fromkeys(book.parent for book in books):
        out = folder / beside.name
        names = [str(book) for book in books if book.parent == beside]
        command = ["soffice", profile, "--headless", "--convert-to", "pdf", "--outdir", str(out), *names]
        subprocess.run(command, check=True, capture_output=True)
        pdfs |= {Path(name): out / f"{Path(name).stem}.pdf" for name in names}
    return pdfs


def _page_of(pdf: Path, sheet: str) -> int:
    """Return the first page whose footer names the sheet."""
    if not sheet:
        return 1
    text = subprocess.run(["pdftotext", "-layout", str(pdf), "-"], check=True, capture_output=True, text=True).stdout
    for number, page in enumerate(text.split("\f"), 1):
        footer = [line for line in page.splitlines() if line.strip()][-3:]
        if any(sheet in line for line in footer):
            return number
    raise SystemExit(f"{pdf.name} prints no sheet {sheet!r}")


def _picture(pdf: Path, page: int, upper: float, target: Path) -> Path:
    command = ["pdftoppm", "-r", "150", "-f", str(page), "-l", str(page), "-png", "-singlefile", str(pdf)]
    subprocess.run([*command, str(target.with_suffix(""))], check=True)
    with Image.open(target) as whole:
        above = whole.convert("RGB").crop((0, 0, whole.width, int(whole.height * min(upper, _FOOTER))))
    inked = ImageChops.difference(above, Image.new("RGB", above.size, "white")).getbbox()
    if inked is None:
        raise SystemExit(f"page {page} of {pdf.name} is blank")
    left, top, right, bottom = inked
    box = (
        max(left - _MARGIN, 0),
        max(top - _MARGIN, 0),
        min(right + _MARGIN, above.width),
        min(bottom + _MARGIN, above.height),
    )
    shown = above.crop(box)
    shown.thumbnail((_WIDEST, 4 * _WIDEST))
    shown.quantize(64).save(target, optimize=True)
    if target.stat().st_size > LARGEST_BYTES:
        raise SystemExit(f"{target.name} has {target.stat().st_size} bytes, over {LARGEST_BYTES}")
    return target


if __name__ == "__main__":
    argparse.ArgumentParser(description=__doc__).parse_args()
    with tempfile.TemporaryDirectory() as scratch:
        for path in make(Path(scratch)):
            print(f"{path.name} {path.stat().st_size // 1000} kB")

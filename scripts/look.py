"""Show a workbook as it prints: one picture a page, by LibreOffice and pdftoppm. For eyes, not for tests.

python scripts/look.py BOOK.xlsx FOLDER [--dpi 60] [--grey]
"""

from __future__ import annotations

import argparse
import subprocess
import tempfile
from pathlib import Path


def look(book: Path, folder: Path, dpi: int, grey: bool) -> list[Path]:
    """Write the pictures of a workbook's printed pages; return them in order."""
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as profile:
        profile_option = f"-env:UserInstallation={Path(profile).as_uri()}"
        convert = ["soffice", profile_option, "--headless", "--convert-to", "pdf", "--outdir", str(folder), str(book)]
        subprocess.run(convert, check=True, capture_output=True)
    pdf = folder / f"{book.stem}.pdf"
    pictures = ["pdftoppm", "-r", str(dpi), "-png", *(["-gray"] if grey else []), str(pdf), str(folder / book.stem)]
    subprocess.run(pictures, check=True)
    return sorted(folder.glob(f"{book.stem}-*.png"))


if __name__ == "__main__":
    ask = argparse.ArgumentParser(description=__doc__)
    ask.add_argument("book", type=Path)
    ask.add_argument("folder", type=Path)
    ask.add_argument("--dpi", type=int, default=60)
    ask.add_argument("--grey", action="store_true")
    said = ask.parse_args()
    for picture in look(said.book, said.folder, said.dpi, said.grey):
        print(picture)

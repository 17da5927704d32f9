"""Write the committed blank workbooks anew after a sheet's statement has changed: python scripts/make_templates.py."""

from __future__ import annotations

from pathlib import Path

from estimator.write.blanks import write_blanks

if __name__ == "__main__":
    folder = Path(__file__).parents[1] / "templates"
    folder.mkdir(exist_ok=True)
    written, _ = write_blanks(folder, force=True)
    for file in written:
        print(file)

"""Write the generated reference pages: commands, sheets and columns, problems, reading, tables, words, schema.

Run from the project's folder: ``python -m scripts.make_reference``. A test holds the committed pages to what this makes.
"""

from __future__ import annotations

import ast
import json
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import typer.main

from estimator import reference
from estimator.cli import app
from estimator.problems import all_codes
from estimator.sheets.statement import Column, Sheet
from estimator.sheets.workbooks import WORKBOOKS
from estimator.write.estimate_schema import ESTIMATE_SCHEMA
from estimator.write.rack.schema import RACK_SCHEMA
from estimator.write.register_schema import DECIDE_SCHEMA, JOB_CARD_SCHEMA, QUOTE_SCHEMA, REGISTER_SCHEMA
from scripts.reading_page import reading_page

ROOT = Path(__file__).resolve().parent.parent
DOCS = Path(__file__).resolve().parent.parent / "docs" / "reference"
_MADE = "<!-- Made by scripts/make_reference.py; edit what it is made from. -->\n\n"


def pages() -> dict[str, str]:
    """Return every generated page by file name."""
    return {
        "commands.md": commands_page(),
        "sheets.md": sheets_page(),
        "problems.md": problems_page(),
        "reading.md": _MADE + reading_page(),
        "tables.md": tables_page(),
        "published.md": published_page(),
        "estimate.schema.json": json.dumps(ESTIMATE_SCHEMA, indent=2, ensure_ascii=False) + "\n",
        "rack.schema.json": json.dumps(RACK_SCHEMA, indent=2, ensure_ascii=False) + "\n",
        "quote.schema.json": json.dumps(QUOTE_SCHEMA, indent=2, ensure_ascii=False) + "\n",
        "decide.schema.json": json.dumps(DECIDE_SCHEMA, indent=2, ensure_ascii=False) + "\n",
        "register.schema.json": json.dumps(REGISTER_SCHEMA, indent=2, ensure_ascii=False) + "\n",
        "job_card.schema.json": json.dumps(JOB_CARD_SCHEMA, indent=2, ensure_ascii=False) + "\n",
    }


def commands_page() -> str:
    """Return every command with its arguments and options."""
    group: Any = typer.main.get_command(app)
    out = [_MADE + "# Commands\n\nOptions of one name mean the same in every command. Exit codes: 0 done · 1 our fault · "
           "2 usage · 3 problems in a workbook · 4 the bills do not reconcile.\n"]  # fmt: skip
    for name in sorted(group.commands):
        command = group.commands[name]
        arguments = [p for p in command.params if p.param_type_name == "argument"]
        options = [p for p in command.params if p.param_type_name == "option" and not p.hidden]
        shown = " ".join(
            (p.metavar or p.name.upper()) if p.required else f"[{p.metavar or p.name.upper()}]" for p in arguments
        )
        out.append(f"\n## {name}\n\n{_plain(command.help)}\n\n    kerfledger {name} {shown} [options]\n")
        rows = [(p.metavar or p.name.upper(), p.help or "") for p in arguments]
        rows += [(", ".join(p.opts) + (f" {p.metavar}" if p.metavar else ""), p.help or "") for p in options]
        out.append(_table(("argument or option", "what it does"), [(f"`{a}`", b) for a, b in rows]))
    return "\n".join(out)


def sheets_page() -> str:
    """Return every workbook, sheet and column."""
    out = [_MADE + "# Workbooks, sheets and columns\n"]
    for workbook in WORKBOOKS:
        out.append(f"\n## {workbook.title} (`{workbook.file}`)\n")
        for sheet in (*workbook.above, *workbook.sheets):
            out.append(f"\n### {sheet.name}\n\n{sheet.purpose}\n\n{_columns(sheet)}")
    return "\n".join(out)


def problems_page() -> str:
    """Return every problem code."""
    out = [
        _MADE
        + "# Problems\n\nE stops the work, W asks for a look (`--strict` makes it stop), N is said so that nothing is hidden.\n"
    ]
    rows = [(f"`{c.code}`", c.fact, c.needs, c.why, c.do) for c in all_codes().values()]
    out.append(_table(("code", "what is the matter", "what is needed", "why", "what to do"), rows))
    return "\n".join(out)


def tables_page() -> str:
    """Return every table of figures with its rows and their provenance, and the sources."""
    out = [_MADE + "# Tables of figures\n\nStatus: seen (opened in the source), calculated, memory (recalled, not opened), judgement, "
           "common practice.\n"]  # fmt: skip
    for name in reference.table_names():
        rows = reference.table(name)
        statuses = (
            sorted({str(s) for s in rows.column("status")}) if "status" in rows.columns else ["words, no figures"]
        )
        out.append(f"| `{name}` | {len(rows)} rows | {', '.join(c for c in rows.columns)} | {'; '.join(statuses)} |")
    head = "| table | rows | columns | status of its rows |\n|---|---|---|---|"
    out = [out[0], "\n".join([head, *out[1:]])]
    sources = [(f"`{s.id}`", s.title, s.status) for s in reference.sources().values()]
    out += ["\n## Sources\n", _table(("id", "title", "status"), sources)]
    return "\n".join(out)


def published_page() -> str:
    """Return every check against a published figure: its source as the test states it, and what it holds."""
    out = [
        _MADE
        + "# Checks against published figures\n\nOne file of `tests/published/` for each source. *Seen* was opened, as far as "
        "the words beside it say; *from memory* was not. What differs, and by how much it may, stands in the test.\n"
    ]
    for file in sorted((ROOT / "tests" / "published").glob("test_*.py")):
        tree = ast.parse(file.read_text("utf-8"))
        source = " ".join((ast.get_docstring(tree) or "").split())
        names = [
            node.name for node in ast.walk(tree) if isinstance(node, ast.FunctionDef) and node.name.startswith("test_")
        ]
        checks = "\n".join(f"- {name.removeprefix('test_').replace('_', ' ')}" for name in names)
        out.append(f"\n## `{file.name}`\n\n{source}\n\n{checks}\n")
    return "\n".join(out)


def _columns(sheet: Sheet) -> str:
    def needs(column: Column) -> str:
        default = "" if column.default is None else f"; blank means {column.default}"
        return f"{column.needs}{default}"

    rows = [(c.heading, "yes" if c.required else "", str(c.kind), needs(c), c.why, c.example) for c in sheet.columns]
    return _table(("heading", "required", "holds", "needs", "why", "example"), rows)


def _table(head: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    titles = list(head)
    lines = ["| " + " | ".join(titles) + " |", "|" + "---|" * len(titles)]
    lines += ["| " + " | ".join(_cell(c) for c in row) + " |" for row in rows]
    return "\n".join(lines) + "\n"


def _cell(text: str) -> str:
    return " ".join(str(text).replace("|", "\\|").replace("<", "&lt;").split())


def _plain(text: str | None) -> str:
    return " ".join((text or "").split())


def main() -> None:
    """Write the pages."""
    DOCS.mkdir(parents=True, exist_ok=True)
    for name, text in pages().items():
        (DOCS / name).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()

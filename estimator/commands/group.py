"""The list of commands, each imported when it is called for: the list itself needs only its name and one line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextvars import ContextVar
from importlib import import_module
from pathlib import Path
from typing import Any, ClassVar

import typer
import typer.core
import typer.main

__all__ = ["TYPED", "CommandList", "Commands"]

TYPED: ContextVar[tuple[str, ...]] = ContextVar("TYPED", default=())
"""What was typed after the program's name, so that a message can give it back with one more option."""


_NUMBERS = {
    "Input should be a valid integer, unable to parse string as an integer": "it takes a whole number",
    "Input should be a valid number, unable to parse string as a number": "it takes a number",
}
"""What the library says of a word where a number is to stand, in plain words."""


class _Command(typer.core.TyperCommand):
    """A command that answers a name whose blanks broke it into several words."""

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """Read what was typed; words that are too many are most often one name."""
        ctx.allow_extra_args = True
        try:
            rest = super().parse_args(ctx, args)
        except typer.BadParameter as error:
            error.message = _NUMBERS.get(error.message, error.message)
            raise
        if ctx.args and not ctx.resilient_parsing:
            ctx.fail(f"unexpected: {' '.join(ctx.args)}; put quote marks round a name with blanks{_joined()}")
        return rest


class Commands(Mapping[str, Any]):
    """Commands by name; each is made from its function when it is first looked up."""

    def __init__(self, where: Mapping[str, str]) -> None:
        """Take names of commands with the module and function of each, as ``estimate:explain``."""
        self._where = dict(where)
        self._made: dict[str, Any] = {}

    def __getitem__(self, name: str) -> Any:
        if name not in self._made:
            module, function = self._where[name].split(":")
            alone = typer.Typer(add_completion=False, pretty_exceptions_enable=False, rich_markup_mode=None)
            alone.command(name, cls=_Command)(getattr(import_module(f"estimator.commands.{module}"), function))
            made = typer.main.get_command(alone)
            for argument in made.params:
                if isinstance(argument, typer.core.TyperArgument):
                    argument.display_type_rich = _no_type  # type: ignore[method-assign]
            self._made[name] = made
        return self._made[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._where)

    def __len__(self) -> int:
        return len(self._where)


class CommandList(typer.core.TyperGroup):
    """The program itself: knows its commands by name and line of help, in the order in which a shop meets them."""

    lines: ClassVar[dict[str, tuple[str, str]]] = {}
    """For each name the module and function, and the line that the list of commands shows."""

    def __init__(self, **settings: Any) -> None:
        super().__init__(**settings)
        self.commands = Commands({name: where for name, (where, _) in self.lines.items()})  # type: ignore[assignment]

    def make_context(self, info_name: str | None, args: list[str], parent: Any = None, **extra: Any) -> Any:
        """Keep what was typed, so that a message can give it back with one more option."""
        TYPED.set(tuple(args))
        return super().make_context(info_name, args, parent, **extra)

    def list_commands(self, ctx: Any) -> list[str]:
        """Return the names in their order."""
        return list(self.lines)

    def format_commands(self, ctx: Any, formatter: Any) -> None:
        """Write the list of commands without importing any."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, line) for name, (_, line) in self.lines.items()])


def _no_type(ctx: Any) -> str:
    """Say nothing of a type in the help: what an argument takes stands there in words."""
    return ""


def _joined() -> str:
    """Return what was typed with the words of one name together, where a file of that name is there."""
    from estimator.commands.as_typed import command_line

    typed = TYPED.get()
    spans = ((i, j) for i in range(len(typed)) for j in range(len(typed), i + 1, -1))
    for start, end in spans:
        if Path(name := " ".join(typed[start:end])).exists():
            return f"\n$ {command_line([*typed[:start], name, *typed[end:]])}"
    return ""

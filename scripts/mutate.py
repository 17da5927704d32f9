"""Change one operator, comparison or constant at a time and see whether a test notices; not part of the test suite.

Run: ``python -m scripts.mutate money lengths preflight [--every 3] [--jobs 2]``. Prints each change that no test noticed;
``docs/reliability.md`` explains those that are left.
"""

from __future__ import annotations

import argparse
import ast
import contextlib
import copy
import importlib.util
import multiprocessing
import os
import sys
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
TARGETS = {
    "money": ("estimator.pricing.money", ["tests/unit/test_money.py", "estimator/pricing/money.py"]),
    "lengths": (
        "estimator.read.lengths",
        ["tests/unit/test_lengths.py", "tests/unit/test_length_bounds.py", "estimator/read/lengths.py"],
    ),
    "preflight": ("estimator.read.preflight", ["tests/unit/test_preflight.py", "tests/problems/test_bad_files.py"]),
}
OPERATORS: dict[type, type] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult, ast.Mod: ast.Mult,
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In, ast.And: ast.Or, ast.Or: ast.And,
    ast.BitOr: ast.BitAnd, ast.BitAnd: ast.BitOr, ast.USub: ast.UAdd,
}  # fmt: skip


def changes(tree: ast.Module) -> Iterator[tuple[ast.Module, int, str]]:
    """Yield each changed copy of a module with the line and what was changed."""
    for index, node in enumerate(ast.walk(tree)):
        for slot, new in _changes_of(node):
            changed = copy.deepcopy(tree)
            target = list(ast.walk(changed))[index]
            before = ast.unparse(node)
            if isinstance(target, ast.Compare):
                target.ops[0] = new
            elif slot == "not":
                target.test = ast.UnaryOp(ast.Not(), target.test)
            else:
                setattr(target, slot, new)
            ast.fix_missing_locations(changed)
            yield changed, node.lineno, f"{before[:70]} -> {ast.unparse(target)[:70]}"


def _changes_of(node: ast.AST) -> Iterator[tuple[str, object]]:
    if isinstance(node, ast.BinOp | ast.BoolOp | ast.UnaryOp) and type(node.op) in OPERATORS:
        yield "op", OPERATORS[type(node.op)]()
    elif isinstance(node, ast.Compare) and type(node.ops[0]) in OPERATORS:
        yield "ops", OPERATORS[type(node.ops[0])]()
    elif isinstance(node, ast.If | ast.IfExp):
        yield "not", None
    elif isinstance(node, ast.Constant) and not isinstance(node.value, str | bytes) and node.value is not ...:
        value = node.value
        yield "value", not value if isinstance(value, bool) else 1 if value is None else value + 1


def noticed(name: str, changed: ast.Module) -> bool:
    """Run the module's tests on a change in a child of this process; a run that hangs is noticed too."""
    child = os.fork()
    if child == 0:
        sys.stdout = sys.stderr = Path(os.devnull).open("w")  # noqa: SIM115 - lives as long as the child
        os.dup2(sys.stdout.fileno(), 1)
        os.dup2(sys.stdout.fileno(), 2)
        code = 1
        with contextlib.suppress(BaseException):
            code = _run(name, changed)
        os._exit(min(int(code), 1))
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) != 0


def _run(name: str, changed: ast.Module) -> int:
    import signal

    import pytest

    signal.alarm(120)
    module, tests = TARGETS[name]
    spec = importlib.util.find_spec(module)
    assert spec is not None
    made = importlib.util.module_from_spec(spec)
    sys.modules[module] = made
    exec(compile(changed, str(spec.origin), "exec"), made.__dict__)
    return int(pytest.main(["-n0", "-x", "-q", "-p", "no:cacheprovider", "-p", "no:randomly", *tests]))


def _one(task: tuple[str, int]) -> tuple[int, str, bool]:
    name, number = task
    tree = ast.parse((ROOT / f"{TARGETS[name][0].replace('.', '/')}.py").read_text("utf-8"))
    changed, line, said = list(changes(tree))[number]
    return line, said, noticed(name, changed)


def main() -> None:
    """Print how many changes were noticed, and each that was not."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("names", nargs="*", default=list(TARGETS))
    parser.add_argument("--every", type=int, default=1, help="try every n-th change only")
    parser.add_argument("--jobs", type=int, default=2)
    asked = parser.parse_args()
    os.chdir(ROOT)
    for heavy in ("pytest", "hypothesis", "numpy", "zipfile"):
        importlib.import_module(heavy)
    for name in asked.names:
        tree = ast.parse((ROOT / f"{TARGETS[name][0].replace('.', '/')}.py").read_text("utf-8"))
        tasks = [(name, i) for i in range(0, len(list(changes(tree))), asked.every)]
        with multiprocessing.get_context("fork").Pool(asked.jobs) as pool:
            found = list(pool.imap(_one, tasks))
        left = [(line, said) for line, said, seen in found if not seen]
        print(f"{name}: {len(found) - len(left)} of {len(found)} changes noticed", flush=True)
        for line, said in left:
            print(f"  line {line}: {said}", flush=True)


if __name__ == "__main__":
    main()

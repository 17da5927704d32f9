"""Reading long lists makes many objects that live: the collector of cycles rests meanwhile."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager

__all__ = ["collection_paused"]


@contextmanager
def collection_paused() -> Iterator[None]:
    """Let Python's collector of cycles rest inside the block; on again behind it where it was on before."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()

"""Pieces of work done abreast: numpy lets other threads go on while it reckons."""

import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import contextmanager
from typing import TypeVar

# Judgement: below so many rows, or bytes, a thread costs more than it brings; above so many
# threads, nothing.
FEW_ROWS = 50_000
MOST_THREADS = 4

Item = TypeVar("Item")
Result = TypeVar("Result")


def abreast(work: Callable[[Item], Result], items: Sequence[Item], *, size: int) -> list[Result]:
    """What the work makes of each item, in their order; on several processors where that pays.

    Args:
        work: a function that changes nothing outside itself.
        items: what to work on.
        size: the rows, or bytes, of the log that is worked on; with few no thread pays.
    """
    threads = min(len(items), processors(), MOST_THREADS)
    if threads < 2 or size < FEW_ROWS:
        return [work(item) for item in items]
    with ThreadPoolExecutor(max_workers=threads) as pool:
        return list(pool.map(work, items))


@contextmanager
def beside(work: Callable[[], Result], *, rows: int) -> Iterator["Future[Result]"]:
    """Work that is done while the caller does other work, which it must not disturb.

    Args:
        work: what to do.
        rows: how many rows it has; with few, the work is done after the caller's.
    """
    if rows < FEW_ROWS or processors() < 2:
        later: Future[Result] = Future()
        yield later
        later.set_result(work())
        return
    with ThreadPoolExecutor(max_workers=1) as pool:
        yield pool.submit(work)


def processors() -> int:
    """How many processors this program may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def portions(first: int, last: int, *, whole: int) -> list[tuple[int, int]]:
    """The span from `first` to `last` in one part for each processor, each a multiple of `whole`.

    The last part takes what is left over.
    """
    parts = min(processors(), MOST_THREADS)
    step = max(-(-(last - first) // (parts * whole)) * whole, whole)
    return [(at, min(at + step, last)) for at in range(first, last, step)]

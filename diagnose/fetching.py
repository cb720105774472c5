"""How a package fetches its names when they are asked for, so that nobody waits for the rest."""

from collections.abc import Callable, Mapping
from importlib import import_module


def fetched_from(package: str, homes: Mapping[str, str]) -> Callable[[str], object]:
    """A `__getattr__` for a package whose names live in modules of its own.

    Args:
        package: the package, as in its `__name__`.
        homes: the module of each name.
    """

    def fetch(name: str) -> object:
        if name not in homes:
            raise AttributeError(f"module {package!r} has no attribute {name!r}")
        return getattr(import_module(f"{package}.{homes[name]}"), name)

    return fetch

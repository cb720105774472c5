"""A small piece of work to keep, which counts how often it was done."""

from dataclasses import dataclass, field
from pathlib import Path

from diagnose.documents import Number
from diagnose.shipped.kept import Work, kept_or_made

NUMBER = Number(value=2.0, low=1.0, high=3.0, basis="judgement", source="ours")


@dataclass
class Desk:
    """Where the work is done: a file it is made from, a cache, and how often it was made."""

    folder: Path
    made: int = 0
    cache: Path = field(init=False)
    source: Path = field(init=False)

    def __post_init__(self) -> None:
        self.folder.mkdir(parents=True, exist_ok=True)
        self.cache, self.source = self.folder / "cache", self.folder / "source.yaml"
        self.source.write_text("value: 2", "utf-8")

    def make(self) -> Number:
        self.made += 1
        return NUMBER

    def ask(self) -> Number:
        return self.ask_in(self.cache)

    def ask_in(self, cache: Path | None) -> Number:
        work = Work("small", Number, (self.source,), ("documents",), self.make)
        return kept_or_made(work, cache)

    def makes_anew(self) -> bool:
        """Whether what is in the cache is not used; the answer is right either way."""
        before = self.made
        assert self.ask() == NUMBER
        return self.made > before

    @property
    def kept(self) -> Path:
        """The one file in the cache."""
        (file,) = self.cache.iterdir()
        return file


def filled(folder: Path) -> Desk:
    """A desk with the work done once and kept."""
    desk = Desk(folder)
    desk.ask()
    assert not desk.makes_anew()
    return desk

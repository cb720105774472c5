"""The lexicon of a rule base without reading its files again while they stay the same."""

from pathlib import Path

from diagnose.flavour.lexicon import Lexicon
from diagnose.shipped.kept import Work, kept_or_made

ROOMS = ("documents", "flavour")


def compiled_lexicon(folder: Path, cache: Path | None) -> Lexicon:
    """The lexicon of the rule base in `folder`, from `cache` if it was kept there.

    Args:
        folder: the rules folder, with `words.yaml` and `descriptors/<id>.yaml` in it.
        cache: where to keep it; None keeps nothing.

    Raises:
        UnusableInput: every fault of every file at once.
    """
    made_from = (folder / "words.yaml", folder / "descriptors")
    return kept_or_made(Work("lexicon", Lexicon, made_from, ROOMS, lambda: _read(folder)), cache)


def _read(folder: Path) -> Lexicon:
    # What reads the files is imported only when they have to be read.
    from diagnose.flavour.load import load_lexicon  # noqa: PLC0415

    return load_lexicon(folder)

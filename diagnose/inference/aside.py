"""What of the evidence is set aside so that the rest can be swept within a given cost."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from diagnose.evidence.pieces import ABSENT, Evidence
from diagnose.inference.groups import compounds_behind
from diagnose.inference.network import Network
from diagnose.inference.plan import first_cells, fits


@dataclass(frozen=True)
class Aside:
    """Words that are not held as variables, and compounds that are not; both are only bounded."""

    words: tuple[str, ...] = ()
    compounds: frozenset[int] = frozenset()

    def __bool__(self) -> bool:
        return bool(self.words or self.compounds)


def set_aside(
    network: Network, evidence: Evidence, most_cells: int, last: frozenset[str] = frozenset()
) -> Aside:
    """As little as leads to a plan of at most so many cells.

    First go compounds that only denied words and checks speak of, the one that ties most together
    before the others; then words, each time the one without which least hangs together.

    Args:
        network: the network.
        evidence: what is known.
        most_cells: what one scenario may cost, see `Plan`.
        last: words that go only when no other is left.
    """
    held, touched = _held(evidence), _touched(network, evidence)
    words, compounds = list[str](), set[int]()
    while not _fits(network, touched - compounds, held, most_cells):
        loose = touched - compounds - set(compounds_behind(network, tuple(held)))
        if loose:
            compounds |= set(_most_tied(network, touched - compounds, loose))
        elif held:
            dearest = min(held, key=lambda w: (w in last, _cells_without(network, held, w)))
            held.remove(dearest)
            words.append(dearest)
        else:
            break
    return Aside(tuple(words), frozenset(compounds))


def fits_within(network: Network, evidence: Evidence, most_cells: int) -> bool:
    """Whether one scenario of the evidence costs at most so many cells."""
    return _fits(network, _touched(network, evidence), _held(evidence), most_cells)


def cells_of(network: Network, evidence: Evidence) -> int:
    """What one scenario of the evidence costs by the first plan found."""
    return _cells(network, _touched(network, evidence), _held(evidence))


def _held(evidence: Evidence) -> list[str]:
    """The words that need a variable."""
    return [word for word in evidence.judged if not is_denied(evidence, word)]


def _touched(network: Network, evidence: Evidence) -> set[int]:
    weighed = {network.compound_index[name] for p in evidence.pieces for name in p.present}
    return weighed | set(compounds_behind(network, evidence.judged))


def is_denied(evidence: Evidence, word: str) -> bool:
    """Whether all that was said of a word is that it is surely not there."""
    said = [piece.words[word] for piece in evidence.pieces if word in piece.words]
    return all(pair == ABSENT for pair in said)


def _fits(network: Network, compounds: set[int], words: Sequence[str], most_cells: int) -> bool:
    at = [network.descriptor_index[word] for word in words]
    return fits(network, sorted(compounds), at, most_cells)


def _cells(network: Network, compounds: set[int], words: Sequence[str]) -> int:
    at = [network.descriptor_index[word] for word in words]
    return first_cells(network, sorted(compounds), at)


def _cells_without(network: Network, held: Sequence[str], word: str) -> tuple[int, str]:
    rest = [other for other in held if other != word]
    return _cells(network, set(compounds_behind(network, tuple(rest))), rest), word


# Of so many loose compounds one is set aside at a time; a plan is made after each step.
_STEPS = 12


def _most_tied(network: Network, touched: set[int], loose: set[int]) -> Iterator[int]:
    """A few of the loose compounds, those that share causes with most others."""
    made = network.strength[:, sorted(touched)] > 0.0
    makers = made.sum(axis=1)
    ties = {j: int((makers - 1)[network.strength[:, j] > 0.0].sum()) for j in loose}
    order = sorted(loose, key=lambda j: (-ties[j], j))
    yield from order[: 1 + len(order) // _STEPS]

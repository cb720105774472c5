"""The network in forms that other programs read: Interchange Format text, and plain data."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from diagnose.inference.network import Floats, Network

SCHEMA = "faultwort/rules-export/1"
MOST_PARENTS = 6
STATES = ("off", "on")


def to_bif(network: Network) -> str:
    """The network as Interchange Format text, for any general Bayesian-network program.

    Variables are called cause_<id>, compound_<id> and descriptor_<id>, each off or on. A
    variable with more than 6 parents is split into a chain of variables called <name>_or_1,
    <name>_or_2 …, each on if the one before it is, so that no table exceeds 2**7 rows.

    Args:
        network: the network.

    Returns:
        Text of the format; every probability is written in full precision.
    """
    nodes = [part for node in _nodes(network) for part in _chained(node)]
    head = 'network "faultwort" {\n}\n'
    variables = "".join(map(_declared, nodes))
    return head + variables + "".join(map(_tabled, nodes))


def to_json(network: Network) -> dict[str, object]:
    """The network as plain lists of names, priors, leaks and links, ready to write as JSON.

    Args:
        network: the network.
    """
    leaks = zip(network.compounds, network.expected, network.unexplained, strict=True)
    return {
        "schema": SCHEMA,
        "causes": _records(network.causes, "base_rate", network.base_rate),
        "compounds": [
            {"id": name, "expected": float(expected), "unexplained": float(unexplained)}
            for name, expected, unexplained in leaks
        ],
        "descriptors": _records(network.descriptors, "wrong_word", network.wrong_word),
        "made_by": [
            {"compound": compound, "cause": cause, "strength": strength}
            for cause, compound, strength in _links(
                network.strength, network.causes, network.compounds
            )
        ],
        "gives": [
            {"compound": compound, "descriptor": word, "strength": strength}
            for compound, word, strength in _links(
                network.gives, network.compounds, network.descriptors
            )
        ],
    }


@dataclass(frozen=True)
class _Node:
    """A noisy-OR variable: its leak, and its parents with the strength of each."""

    name: str
    leak: float
    parents: tuple[tuple[str, float], ...] = ()


def _nodes(network: Network) -> Iterator[_Node]:
    for name, rate in zip(network.causes, network.base_rate, strict=True):
        yield _Node(f"cause_{name}", float(rate))
    leaks = 1.0 - (1.0 - network.expected) * (1.0 - network.unexplained)
    for j, name in enumerate(network.compounds):
        parents = _parents("cause", network.causes, network.strength[:, j])
        yield _Node(f"compound_{name}", float(leaks[j]), parents)
    for d, name in enumerate(network.descriptors):
        parents = _parents("compound", network.compounds, network.gives[:, d])
        yield _Node(f"descriptor_{name}", float(network.wrong_word[d]), parents)


def _parents(kind: str, names: Sequence[str], column: Floats) -> tuple[tuple[str, float], ...]:
    return tuple((f"{kind}_{names[int(i)]}", float(column[i])) for i in np.flatnonzero(column))


def _chained(node: _Node) -> Iterator[_Node]:
    """The node, or a chain of nodes with few enough parents that ends in it."""
    parents, part = node.parents, 0
    while len(parents) > MOST_PARENTS:
        part += 1
        link = f"{node.name}_or_{part}"
        yield _Node(link, 0.0, parents[:MOST_PARENTS])
        parents = ((link, 1.0), *parents[MOST_PARENTS:])
    yield _Node(node.name, node.leak, parents)


def _declared(node: _Node) -> str:
    states = ", ".join(STATES)
    return f"variable {node.name} {{\n  type discrete [ {len(STATES)} ] {{ {states} }};\n}}\n"


def _tabled(node: _Node) -> str:
    if not node.parents:
        return f"probability ( {node.name} ) {{\n  table {_pair(1.0 - node.leak)};\n}}\n"
    given = ", ".join(name for name, _ in node.parents)
    rows = "".join(map(_row, *_table(node)))
    return f"probability ( {node.name} | {given} ) {{\n{rows}}}\n"


def _table(node: _Node) -> tuple[list[tuple[int, ...]], list[float]]:
    """Every setting of the parents, and the probability that the node is then off."""
    settings = list(product((0, 1), repeat=len(node.parents)))
    silent = np.array([1.0 - strength for _, strength in node.parents])
    off = np.where(np.array(settings, dtype=bool), silent, 1.0).prod(axis=1)
    return settings, [float(p) for p in (1.0 - node.leak) * off]


def _row(setting: tuple[int, ...], off: float) -> str:
    return f"  ({', '.join(STATES[on] for on in setting)}) {_pair(off)};\n"


def _pair(off: float) -> str:
    return f"{off!r}, {1.0 - off!r}"


def _records(names: Sequence[str], key: str, values: Floats) -> list[dict[str, object]]:
    return [{"id": name, key: float(value)} for name, value in zip(names, values, strict=True)]


def _links(
    strengths: Floats, parents: Sequence[str], children: Sequence[str]
) -> Iterator[tuple[str, str, float]]:
    for i, j in np.argwhere(strengths > 0.0):
        yield parents[i], children[j], float(strengths[i, j])

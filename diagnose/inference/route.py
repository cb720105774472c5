"""The steps of a plan with the axes they act on, worked out once for all passes."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from diagnose.inference.network import Network
from diagnose.inference.operators import Link
from diagnose.inference.plan import Step

Node = tuple[str, int]


@dataclass(frozen=True)
class Stop:
    """One step on the way, and where it acts.

    `axis` is that of the variable the step is about, where it is open before it. `links` are
    those of a cause into compounds, or of a closing compound into reported words; `asked` those
    into words that are judged but not reported. The axes of a compound's links are those after
    it is closed.
    """

    step: Step
    axis: int
    links: tuple[Link, ...]
    asked: tuple[Link, ...]
    open_before: tuple[Node, ...]


def route(network: Network, steps: Sequence[Step], reported: frozenset[int]) -> tuple[Stop, ...]:
    """The stops of the steps; `reported` are the words that speak for a fault."""
    return tuple(_stops(network, steps, reported))


def _stops(network: Network, steps: Sequence[Step], reported: frozenset[int]) -> Iterator[Stop]:
    nodes: tuple[Node, ...] = ()
    for step in steps:
        if step.kind == "cause":
            links = _links(nodes, "compound", network.strength[step.index])
            yield Stop(step, -1, links, (), nodes)
            continue
        kind = "word" if step.kind in ("open_word", "close_word") else "compound"
        node = (kind, step.index)
        if step.kind in ("open", "open_word"):
            yield Stop(step, -1, (), (), nodes)
            nodes = (*nodes, node)
            continue
        axis = nodes.index(node)
        rest = nodes[:axis] + nodes[axis + 1 :]
        given: tuple[Link, ...] = ()
        if step.kind == "close":
            given = _links(rest, "word", network.gives[step.index])
        spoken = tuple(link for link in given if link[2] in reported)
        yield Stop(step, axis, spoken, tuple(k for k in given if k not in spoken), nodes)
        nodes = nodes if step.kind == "lone" else rest


def _links(nodes: Sequence[Node], kind: str, strength: Sequence[float]) -> tuple[Link, ...]:
    return tuple(
        (axis, float(strength[index]), index)
        for axis, (of, index) in enumerate(nodes)
        if of == kind and strength[index] > 0.0
    )

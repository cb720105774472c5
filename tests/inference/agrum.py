"""The reference: the same network in pyAgrum, a general-purpose Bayesian-network library."""

import warnings
from collections.abc import Iterable, Mapping, Sequence

import numpy as np

from diagnose.evidence.pieces import Evidence
from diagnose.inference.network import Floats, Network
from tests.inference.bif import STATES, read_tables

with warnings.catch_warnings():
    # the wrapper code that the library is built with warns about itself while it is imported
    warnings.filterwarnings("ignore", "builtin type .* has no __module__", DeprecationWarning)
    import pyagrum

gum = pyagrum
# Two to this many numbers, some 8 MB, are tabled within a second.
WIDEST_CLIQUE = 20
Likelihoods = Mapping[str, tuple[float, float]]


def read_exactly(text: str) -> "gum.BayesNet":
    """The network of an Interchange Format text, in double precision.

    The library's own reader keeps seven digits, too few for a comparison to 1e-9.
    """
    net, tables = gum.BayesNet(), read_tables(text)
    for name in tables:
        net.add(gum.LabelizedVariable(name, name, list(STATES)))
    for name, table in tables.items():
        for parent in table.parents:
            net.addArc(parent, name)
        # In the library the variable itself changes fastest, then its first parent, and so on.
        axes = (*reversed(range(len(table.parents))), len(table.parents))
        net.cpt(name).fillWith(table.values.transpose(axes).ravel().tolist())
    return net


class TooWide(Exception):
    """The library's largest clique would have more variables than it was allowed."""


class Answers:
    """Posteriors of one reference network under one set of likelihoods after another."""

    def __init__(
        self, net: "gum.BayesNet", targets: Iterable[str], widest: int = WIDEST_CLIQUE
    ) -> None:
        self._net = net  # the solver does not keep its network alive
        self._solver = gum.LazyPropagation(net)
        self._targets, self._widest = set(targets), widest
        self._solver.setTargets(self._targets)

    def hear(self, likelihoods: Likelihoods) -> float:
        """Take in the evidence; returns the log of its probability.

        Raises:
            TooWide: a clique has too many variables.
        """
        said = {name: list(pair) for name, pair in likelihoods.items()}
        if self._clique(said) > self._widest:
            raise TooWide
        self._solver.setEvidence(said)
        self._solver.makeInference()
        return float(np.log(self._solver.evidenceProbability()))

    def _clique(self, said: Mapping[str, list[float]]) -> int:
        """Variables of the largest clique; a solver asked for its cliques solves no more."""
        planner = gum.LazyPropagation(self._net)
        planner.setTargets(self._targets)
        planner.setEvidence(said)
        tree = planner.junctionTree()
        return max((len(tree.clique(node)) for node in tree.nodes()), default=0)

    def on(self, names: Sequence[str]) -> Floats:
        """The probability that each of the variables is on."""
        return np.array([float(self._solver.posterior(name)[1]) for name in names])


def likelihoods_of(network: Network, evidence: Evidence) -> tuple[Likelihoods, float]:
    """What evidence says of the beer, as likelihoods on the exported network's variables.

    Returns:
        The likelihoods, and the log of the prior of the causes that cannot be: it is no
        evidence that they did not act, so their share is taken off.
    """
    said: dict[str, tuple[float, float]] = {}
    for piece in evidence.pieces:
        for kind, weights in (("cause", piece.happened), ("compound", piece.present)):
            for name, decibans in weights.items():
                _fold(said, f"{kind}_{name}", (1.0, 10.0 ** (decibans / 10.0)))
        for word, pair in piece.words.items():
            _fold(said, f"descriptor_{word}", pair)
    for name in evidence.impossible:
        _fold(said, f"cause_{name}", (1.0, 0.0))
    rates = [network.base_rate[network.cause_index[name]] for name in evidence.impossible]
    return said, float(np.log1p(-np.array(rates)).sum())


def _fold(said: dict[str, tuple[float, float]], name: str, pair: tuple[float, float]) -> None:
    off, on = said.get(name, (1.0, 1.0))
    said[name] = (off * pair[0], on * pair[1])

"""The reference: the same network in pyAgrum, a general-purpose Bayesian-network library."""

import re
import warnings
from collections.abc import Iterable, Mapping, Sequence

import numpy as np

from diagnose.evidence.pieces import Evidence
from diagnose.inference.network import Floats, Network

with warnings.catch_warnings():
    # the wrapper code that the library is built with warns about itself while it is imported
    warnings.filterwarnings("ignore", "builtin type .* has no __module__", DeprecationWarning)
    import pyagrum

gum = pyagrum
VARIABLE = re.compile(r"variable (\w+) \{\s*type discrete \[ 2 \] \{ off, on \};\s*\}")
TABLE = re.compile(r"probability \( (\w+)(?: \| ([^)]*?))? \) \{(.*?)\}", re.DOTALL)
ROW = re.compile(r"(?:\(([^)]*)\)|table) (\S+), (\S+);")
Likelihoods = Mapping[str, tuple[float, float]]


def read_exactly(text: str) -> "gum.BayesNet":
    """The network of an Interchange Format text, in double precision.

    The library's own reader keeps seven digits, too few for a comparison to 1e-9.
    """
    net = gum.BayesNet()
    for name in VARIABLE.findall(text):
        net.add(gum.LabelizedVariable(name, name, ["off", "on"]))
    for name, given, rows in TABLE.findall(text):
        parents = given.split(", ") if given else []
        for parent in parents:
            net.addArc(parent, name)
        for setting, off, on in ROW.findall(rows):
            labels = setting.split(", ") if setting else []
            net.cpt(name)[dict(zip(parents, labels, strict=True))] = [float(off), float(on)]
    return net


class Answers:
    """Posteriors of one reference network under one set of likelihoods after another."""

    def __init__(self, net: "gum.BayesNet", targets: Iterable[str]) -> None:
        self._net = net  # the solver does not keep its network alive
        self._solver = gum.LazyPropagation(net)
        self._solver.setTargets(set(targets))

    def hear(self, likelihoods: Likelihoods) -> float:
        """Take in the evidence; returns the log of its probability."""
        self._solver.setEvidence({name: list(pair) for name, pair in likelihoods.items()})
        self._solver.makeInference()
        return float(np.log(self._solver.evidenceProbability()))

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

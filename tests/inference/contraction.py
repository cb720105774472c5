"""A second reference: the exported tables, contracted by a general library for tensor products.

It knows nothing of networks or noisy-ORs: a probability is the sum, over every variable, of the
product of all tables and likelihoods; in which order, the library finds out.
"""

from collections.abc import Iterable, Mapping

import numpy as np
import opt_einsum

from diagnose.inference.network import Floats
from tests.inference.bif import Table

Likelihoods = Mapping[str, tuple[float, float]]


class TooLarge(Exception):
    """The library would have to hold a larger product than it was allowed."""


class Contraction:
    """Sums of products of the tables of one network."""

    def __init__(self, tables: Mapping[str, Table], most_cells: int) -> None:
        self._tables = tables
        self._number = {name: place for place, name in enumerate(tables)}
        self._most_cells = most_cells

    def log_evidence(self, likelihoods: Likelihoods) -> float:
        """The log of the probability of the evidence."""
        return float(np.log(self._summed(likelihoods, ())))

    def on(self, likelihoods: Likelihoods, name: str) -> float:
        """The probability that one variable is on."""
        weights = self._summed(likelihoods, (name,))
        return float(weights[1] / weights.sum())

    def _summed(self, likelihoods: Likelihoods, kept: tuple[str, ...]) -> Floats:
        """The sum over all variables but the kept ones.

        Raises:
            TooLarge: some product on the way has too many cells.
        """
        operands: list[object] = []
        for name in self._concerned([*likelihoods, *kept]):
            table = self._tables[name]
            places = [self._number[axis] for axis in (*table.parents, name)]
            operands += [table.values, places]
        for name, pair in likelihoods.items():
            operands += [np.array(pair), [self._number[name]]]
        operands.append([self._number[name] for name in kept])
        path, cost = opt_einsum.contract_path(*operands, optimize="greedy")
        if cost.largest_intermediate > self._most_cells:
            raise TooLarge
        return np.asarray(opt_einsum.contract(*operands, optimize=path))

    def _concerned(self, names: Iterable[str]) -> list[str]:
        """The variables and all that lead to them; the tables of all others sum to one."""
        found: set[str] = set()
        waiting = list(names)
        while waiting:
            name = waiting.pop()
            if name not in found:
                found.add(name)
                waiting += self._tables[name].parents
        return sorted(found)

"""The reference network with every link, leak and giver spelt out as a variable of its own."""

from collections.abc import Iterable, Sequence

import numpy as np

from diagnose.inference.network import Network
from tests.inference.agrum import gum

Weighed = Sequence[tuple[str, float]]
MOST_PARENTS = 5


class Reference:
    """A network to which variables are added one by one, noisy-ORs by the library's own model."""

    def __init__(self, network: Network, compounds: Iterable[int]) -> None:
        self.net = gum.BayesNet()
        self._network = network
        self._compounds = tuple(compounds)

    def add_causes(self, concerned: Iterable[int]) -> None:
        """Add causes; those `concerned` get a variable for each link, on when it fired."""
        network = self._network
        for name, rate in zip(network.causes, network.base_rate, strict=True):
            self.add(f"cause_{name}", rate)
        for i in concerned:
            for j in self._linked(i):
                cause = (f"cause_{network.causes[i]}", network.strength[i, j])
                self.add(f"link_{i}_{j}", 0.0, [cause])

    def add_compounds(self, concerned: Sequence[int]) -> None:
        """Add compounds; `known_j` is on when a cause, the yeast or the style brought j."""
        network = self._network
        for j in self._compounds:
            self.add(f"expected_{j}", network.expected[j])
            self.add(f"unexplained_{j}", network.unexplained[j])
            ways = [
                (f"link_{i}_{j}", 1.0)
                if i in concerned
                else (f"cause_{network.causes[i]}", network.strength[i, j])
                for i in np.flatnonzero(network.strength[:, j])
            ]
            self.add(f"known_{j}", 0.0, [*ways, (f"expected_{j}", 1.0)])
            self.add_any(f"compound_{network.compounds[j]}", [f"known_{j}", f"unexplained_{j}"])

    def add_words(self, judged: Iterable[str], reported: Sequence[str]) -> None:
        """Add descriptors, and for each reported one who gave it."""
        for word in judged:
            d = self._network.descriptor_index[word]
            givers = [
                (f"compound_{self._network.compounds[j]}", self._network.gives[j, d])
                for j in np.flatnonzero(self._network.gives[:, d])
            ]
            if word in reported:
                for j, giver in zip(np.flatnonzero(self._network.gives[:, d]), givers, strict=True):
                    self.add(f"gave_{j}_{d}", 0.0, [giver])
                givers = [(f"gave_{j}_{d}", 1.0) for j in np.flatnonzero(self._network.gives[:, d])]
            self.add(f"descriptor_{word}", self._network.wrong_word[d], givers)

    def add_speech(self, compounds: Iterable[int], reported: Iterable[str]) -> None:
        """Add which compounds gave a reported word, and whether yeast, style or a cause did."""
        words = [self._network.descriptor_index[word] for word in reported]
        for j in sorted(compounds):
            given = [f"gave_{j}_{d}" for d in words if self._network.gives[j, d] > 0.0]
            self.add_any(f"speaks_{j}", given)
            self.add_all(f"brought_{j}", [f"expected_{j}", f"speaks_{j}"])
            self.add_all(f"told_{j}", [f"known_{j}", f"speaks_{j}"])

    def add_blame(self, name: str, cause: int, compounds: Iterable[int]) -> None:
        """Add a variable that is on when the cause spoke through one of `compounds`."""
        through = [j for j in self._linked(cause) if j in compounds]
        for j in through:
            self.add_all(f"{name}_through_{j}", [f"link_{cause}_{j}", f"speaks_{j}"])
        self.add_any(name, [f"{name}_through_{j}" for j in through])

    def add(self, name: str, leak: float, parents: Weighed = ()) -> None:
        """Add a noisy-OR variable; many parents are taken in by a chain, for small tables."""
        parents = list(parents)
        place = 0
        while len(parents) > MOST_PARENTS:
            step = f"{name}_part_{place}"
            self._add_one(step, 0.0, parents[:MOST_PARENTS])
            parents, place = [(step, 1.0), *parents[MOST_PARENTS:]], place + 1
        self._add_one(name, leak, parents)

    def _add_one(self, name: str, leak: float, parents: Weighed) -> None:
        self.net.addNoisyORNet(gum.LabelizedVariable(name, name, ["off", "on"]), float(leak))
        for parent, strength in parents:
            self.net.addWeightedArc(parent, name, float(strength))

    def add_all(self, name: str, parents: Sequence[str]) -> None:
        """Add a variable that is on when all of the others are."""
        self.net.addAND(gum.LabelizedVariable(name, name, ["off", "on"]))
        for parent in parents:
            self.net.addArc(parent, name)

    def add_any(self, name: str, parents: Sequence[str]) -> None:
        """Add a variable that is on when any of the others is, two at a time."""
        so_far: Weighed = [(parent, 1.0) for parent in parents[:1]]
        for place, parent in enumerate(parents[1:-1]):
            step = f"{name}_{place}"
            self.add(step, 0.0, [*so_far, (parent, 1.0)])
            so_far = [(step, 1.0)]
        self.add(name, 0.0, [*so_far, *((parent, 1.0) for parent in parents[1:][-1:])])

    def _linked(self, cause: int) -> list[int]:
        return [j for j in self._compounds if self._network.strength[cause, j] > 0.0]

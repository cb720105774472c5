"""The reference network with every link, leak and blame spelt out as a variable of its own."""

from collections.abc import Iterable, Sequence

import numpy as np

from diagnose.inference.network import Network
from tests.inference.agrum import gum

Weighed = Sequence[tuple[str, float]]


class Reference:
    """A network to which noisy-OR variables are added one by one, by the library's own model."""

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
            either = [f"known_{j}", f"unexplained_{j}"]
            self.add_any(f"compound_{network.compounds[j]}", either)

    def add_words(self, words: Iterable[str]) -> None:
        """Add descriptors."""
        network = self._network
        for word in words:
            d = network.descriptor_index[word]
            givers = [
                (f"compound_{network.compounds[j]}", network.gives[j, d])
                for j in np.flatnonzero(network.gives[:, d])
            ]
            self.add(f"descriptor_{word}", network.wrong_word[d], givers)

    def add_blame(self, name: str, cause: int, compounds: Iterable[int]) -> None:
        """Add a variable that is on when a link of the cause into `compounds` fired."""
        self.add_any(name, [f"link_{cause}_{j}" for j in self._linked(cause) if j in compounds])

    def add_group(self, group: int, compounds: Iterable[int]) -> None:
        """Add what yeast and style brought to a group, and what anything known did."""
        self.add_any(f"expected_group_{group}", [f"expected_{j}" for j in sorted(compounds)])
        self.add_any(f"known_group_{group}", [f"known_{j}" for j in sorted(compounds)])

    def add(self, name: str, leak: float, parents: Weighed = ()) -> None:
        """Add a noisy-OR variable."""
        self.net.addNoisyORNet(gum.LabelizedVariable(name, name, ["off", "on"]), float(leak))
        for parent, strength in parents:
            self.net.addWeightedArc(parent, name, float(strength))

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

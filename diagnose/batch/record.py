"""The batch record: one brew from recipe to glass, every entry optional."""

from typing import Annotated

from pydantic import Field as Key

from diagnose.batch.brewday import Boil, Chill, HotStand, Mash, Pitch, Sparge
from diagnose.batch.cellar import Cellar
from diagnose.batch.entries import NOT_LOGGED, Text, Volume, Word, chosen_from
from diagnose.batch.ingredients import Acid, Recipe, Salt, Water
from diagnose.batch.moments import When, Zone

_METHODS = ("all grain", "part extract", "extract")
Method = Annotated[Word, chosen_from(*_METHODS)]


class BatchRecord(Cellar):
    """Everything that was written down about one batch.

    `fault` holds circumstances of the fault (when first noticed, all bottles or some) and
    `checks` the results of cheap checks; their words are those of the rule base.
    """

    batch: Text = NOT_LOGGED
    brewer: Text = NOT_LOGGED
    brewed: When = NOT_LOGGED
    zone: Zone = NOT_LOGGED
    style: Text = NOT_LOGGED
    method: Method = NOT_LOGGED
    volume: Volume = NOT_LOGGED
    recipe: Recipe = Key(default_factory=Recipe)
    water: tuple[Water, ...] = ()
    salts: tuple[Salt, ...] = ()
    acids: tuple[Acid, ...] = ()
    mash: Mash = Key(default_factory=Mash)
    sparge: Sparge = Key(default_factory=Sparge)
    boil: Boil = Key(default_factory=Boil)
    hot_stand: HotStand = Key(default_factory=HotStand)
    chill: Chill = Key(default_factory=Chill)
    pitch: Pitch = Key(default_factory=Pitch)
    fault: dict[str, Text] = Key(default_factory=dict)
    checks: dict[str, Text] = Key(default_factory=dict)
    notes: Text = NOT_LOGGED

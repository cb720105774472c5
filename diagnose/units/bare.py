"""What a number without a unit could be."""

from diagnose.units import vocabulary as units
from diagnose.units.field import CARDS, Field
from diagnose.units.number import Number
from diagnose.units.vocabulary import Unit, units_called

# Below this a bare number is not a count of single cells: that would be no yeast at all.
_FEWEST_SINGLE_CELLS = 1e6


def units_of_bare(number: Number, field: Field) -> tuple[Unit, ...]:
    """Every unit of `field` that could be meant by a number with none written."""
    if field is Field.GRAVITY:
        return _of_gravity(number)
    if field is Field.PERCENT:
        # 75 can only be 75 %, but 0.75 could be 0.75 % or three quarters.
        return (units.PERCENT, units.SHARE) if 0 < number.decimal <= 1 else (units.PERCENT,)
    if field is Field.CELLS:
        return _of_cells(number)
    if field is Field.PH:
        return (Unit("pH"),)
    words = units.BARE[field]
    return tuple(unit for word in words for unit in units_called(word, field))


def _of_gravity(number: Number) -> tuple[Unit, ...]:
    """1.052 and 1052 say what they are; 1.1 or 12 could be Plato or points (52 only points)."""
    card = CARDS[Field.GRAVITY]
    if any(card.low <= value / 1000 <= card.high for value in number.values):
        return (units.THOUSANDTHS, units.GRAVITY)
    # Nothing at all (0) is no gravity, although both 0 P and 0 points would be 1.000.
    if (number.decimals >= 2 and card.low <= number.decimal <= card.high) or number.decimal == 0:
        return (units.GRAVITY,)
    return (units.GRAVITY, units.POINTS, units.PLATO)


def _of_cells(number: Number) -> tuple[Unit, ...]:
    if number.decimal >= _FEWEST_SINGLE_CELLS:
        return (units.SINGLE_CELLS,)
    return (units.BILLION, units.MILLION)

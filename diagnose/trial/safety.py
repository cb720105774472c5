"""What is said to everybody before a glass is poured; local rules come before all of it."""

from dataclasses import dataclass

GLASS_ML = 40.0
_ETHANOL_G_PER_ML = 0.789
# What one person should swallow at most in a session of ours; set low on purpose. Practice.
SWALLOWED_AT_MOST_G = 10.0
# More glasses than this tire a home taster. Practice.
MOST_GLASSES = 12

WHO_TASTES = (
    "Nobody under the local drinking age takes part, spitting or not.",
    "Nobody who is pregnant or may be, and nobody in recovery; with liver disease, epilepsy, a "
    "recent head injury, or while breastfeeding, ask a doctor first.",
    "Nobody on medicine that clashes with alcohol. With an MAO inhibitor no home brew at all.",
    "Nobody has to say why they sit out. Whoever feels unwell stops, and so does the session.",
)
AFTERWARDS = (
    "Whoever has tasted does not drive, cycle in traffic or use machines that day, however small "
    "the sips. Arrange lifts before you pour. Nothing here can tell you whether you are fit.",
)
LOOK_FIRST = (
    "Look, smell, then sip. Waft a strong glass; do not breathe it in deeply.",
    "Do not serve beer that gushes, has mould on it, pours in strings, or smells or feels of "
    "cleaner; nor from a chipped bottle; nor with a pH outside 3 to 5. Pour it away and close the "
    "panel with the reason.",
)
CONDUCT = (
    "A lidded spit cup, plain water and bread for everyone. Nobody is asked to finish a glass.",
    "Pseudonyms only. Ask each taster whether their answers may be kept; strike them out on "
    "request. Do not rank people: many cannot smell one compound or another.",
    "Sharing home brew is not legal everywhere, and selling it hardly anywhere. Check local law.",
)


@dataclass(frozen=True)
class Alcohol:
    """Alcohol for one taster if every glass were swallowed, and how much of it to spit out."""

    glasses: int
    grams: float
    swallow_at_most_ml: float


def alcohol_of(glasses: int, alcohol_percent: float) -> Alcohol:
    """The alcohol in the planned servings of one taster.

    Args:
        glasses: glasses of 40 ml each.
        alcohol_percent: of the beer, by volume.

    Source: density of ethanol 0.789 g/ml; the ceiling is our own.
    """
    grams_per_ml = alcohol_percent / 100.0 * _ETHANOL_G_PER_ML
    grams = glasses * GLASS_ML * grams_per_ml
    most = SWALLOWED_AT_MOST_G / grams_per_ml if grams_per_ml > 0 else glasses * GLASS_ML
    return Alcohol(glasses, grams, min(most, glasses * GLASS_ML))


def alcohol_words(alcohol: Alcohol, known: bool) -> str:
    """The alcohol of one taster in a sentence."""
    taken = "" if known else " (taken as 5 %; the record does not say)"
    spit = (
        f"Swallow at most {alcohol.swallow_at_most_ml:.0f} ml of it and spit the rest."
        if alcohol.grams > SWALLOWED_AT_MOST_G
        else "Spitting is still better."
    )
    return (
        f"{alcohol.glasses} glasses of {GLASS_ML:.0f} ml hold about {alcohol.grams:.0f} g of "
        f"alcohol for each taster if all is swallowed{taken}. {spit} A UK unit is 8 g, a US drink "
        "14 g. Local guidance and a doctor's word come first."
    )


_ALLERGENS = (
    (("lactose", "milk"), "milk (lactose)"),
    (("peanut", "almond", "hazelnut", "nut ", "nuts", "coconut", "walnut"), "nuts"),
    (("honey",), "honey"),
    (("coffee",), "caffeine"),
    (("soy",), "soya"),
    (("sulfite", "sulphite", "metabisulf", "metabisulph", "campden"), "sulphite"),
    (("isinglass", "finings"), "fish (finings)"),
    (("oyster", "shellfish"), "shellfish"),
    (("spice", "coriander", "ginger", "cinnamon", "clove", "pepper", "vanilla"), "spices"),
)


def allergens_in(contains: tuple[str, ...]) -> tuple[str, ...]:
    """What may upset somebody, from the names of the ingredients; gluten always."""
    text = " ".join(contains).casefold() + " "
    found = [name for words, name in _ALLERGENS if any(word in text for word in words)]
    return ("gluten (barley, and wheat, rye or oats where used)", *found)

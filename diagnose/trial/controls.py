"""Controls of a split, from what is sold as food and nothing else; and what to keep."""

# Flavours for which a kitchen has a spike. Amounts are a start, for half a litre of plain clean
# beer; practitioner lists, not tried again here.
_SPIKES = {
    "diacetyl": "butter flavouring sold as food whose label names diacetyl (many do not): two "
    "drops, then up drop by drop",
    "acetic_acid": "white-wine vinegar: 5 ml",
    "alcohol_warmth": "vodka: 25 ml",
    "lightstruck_thiol": "a bottle of hoppy beer in clear glass, an hour in the sun",
    "papery_aldehydes": "a bottle opened, capped again with air and kept at 30 C for ten days",
    "sherry_oxidation": "a bottle opened, capped again with air and kept at 30 C for ten days",
    "residual_sugar": "table sugar: 5 g, dissolved in a little of the beer",
    "sodium_salt": "table salt: 0.3 g, dissolved in a little of the beer",
    "tannins": "black tea, brewed ten minutes and cooled: 20 ml",
    "lactic_acid": "lactic acid sold as food: five drops of 80 %",
}
NO_CHEMICALS = (
    "Spike with food only, measured, within an hour of tasting; label it, tell everyone what is in "
    "it, and pour it away the same day. Never with cleaners, solvents or laboratory chemicals."
)


def controls_for(compounds: tuple[str, ...], other_arm: str) -> tuple[str, ...]:
    """Controls for a fault carried by these compounds, the likeliest spike first.

    Args:
        compounds: ids of the compounds that the suspect makes, the strongest first.
        other_arm: label of the arm with the harmless setting.
    """
    spike = next((_SPIKES[one] for one in compounds if one in _SPIKES), None)
    positive = (
        f"Positive: arm {other_arm} with {spike}. If fewer than five in six pick it out, this "
        "panel cannot taste the fault, and a blank result means nothing."
        if spike
        else "Positive: no food spikes this flavour safely. Push the suspect setting in a third "
        "small vessel instead, and see whether the panel finds that one."
    )
    return (
        f"Negative: one beer under two codes. Let everyone compare arm {other_arm} with itself "
        "once; whoever finds a difference is guessing.",
        positive,
        f"Clean reference: a sound bottle of the same style. Judge each arm against it: a fault in "
        f"both arms clears the suspect better than any count of answers, and in arm {other_arm} "
        "alone it points to a mix-up.",
        NO_CHEMICALS,
    )


KEEP = (
    "Two bottles of every vessel, cold and dark, until the result is read and repeated.",
    "A bottle of the faulty batch, cold, as the reference for what the fault is.",
    "A small sample of the undivided wort or beer, cold, to settle a doubt about the division.",
)

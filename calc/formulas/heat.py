"""Growth with temperature. Lengths in mm, temperatures in degC, coefficients in um/(m K)."""

REFERENCE = 20.0  # degC: ISO 1


def growth(length: float, coefficient: float, temperature: float) -> float:
    """How much a length at 20 degC grows (um): a L (T - 20). Source: ISO 1 for the 20 degrees.

    >>> round(growth(500, 11.5, 25), 9)
    28.75
    """
    return coefficient * length * (temperature - REFERENCE) / 1000


def size_at_reference(
    shown: float, part: float, temperature: float, scale: float = 0.0, scale_temperature: float = REFERENCE
) -> float:
    """Size at 20 degC (mm) of a part of which a scale shows `shown`: L (1 + as dTs)/(1 + ap dTp).

    >>> round(300 - size_at_reference(300, 23.6, 28, 11.5, 28), 5)
    0.02903
    """
    grown = 1 + scale * 1e-6 * (scale_temperature - REFERENCE)
    return shown * grown / (1 + part * 1e-6 * (temperature - REFERENCE))


def heating(gap: float, coefficient: float, diameter: float) -> float:
    """Rise of temperature (K) that opens a ring by `gap` um: gap/(a d).

    >>> round(heating(55, 11.5, 25), 1)
    191.3
    """
    return 1000 * gap / (coefficient * diameter)

"""What an indicator says of a slope. Lengths in mm."""


def slope(reading_a: float, reading_b: float, distance: float) -> float:
    """Rise from a to b in mm per 100 mm: 100 (b - a)/distance.

    >>> slope(0.0, 0.03, 150)
    0.02
    """
    return 100 * (reading_b - reading_a) / distance

"""A block turned over and put back into the same corner of vice and stop: rigid motion in right angles, never mirrored.

Axes as the machine has them, right-handed. Turns are whole quarters, so their matrices hold only -1, 0 and 1.
"""

Vector = tuple[float, float, float]
Matrix = tuple[Vector, Vector, Vector]

FACES: dict[str, Vector] = {
    "left_end": (-1, 0, 0), "right_end": (1, 0, 0), "front_edge": (0, -1, 0), "back_edge": (0, 1, 0),
    "underside": (0, 0, -1), "top": (0, 0, 1),
}  # fmt: skip


def turn(axis: str, degrees: int) -> Matrix:
    """The matrix of a turn about X, Y or Z, right-handed: thumb along the axis, fingers show the way.

    >>> turn("X", 90)[2]  # z' = y: what lay at the back comes up
    (0, 1, 0)
    """
    quarter = degrees // 90 % 4
    c, s = ((1, 0), (0, 1), (-1, 0), (0, -1))[quarter]
    if axis == "X":
        return (1, 0, 0), (0, c, -s), (0, s, c)
    if axis == "Y":
        return (c, 0, s), (0, 1, 0), (-s, 0, c)
    return (c, -s, 0), (s, c, 0), (0, 0, 1)


def applied(matrix: Matrix, vector: Vector) -> Vector:
    """Where a vector goes.

    >>> applied(turn("Z", 90), (1, 0, 5))
    (0, 1, 5)
    """
    x, y, z = (sum(m * v for m, v in zip(row, vector, strict=True)) for row in matrix)
    return x, y, z


def cross(one: Vector, two: Vector) -> Vector:
    """The vector product.

    >>> cross((1, 0, 0), (0, 1, 0))
    (0, 0, 1)
    """
    (a, b, c), (d, e, f) = one, two
    return b * f - c * e, c * d - a * f, a * e - b * d


def carried(first: tuple[Vector, Vector], second: tuple[Vector, Vector]) -> Matrix:
    """The turn that carries one direction of each pair to the other: (from, to) twice, at right angles.

    Both triples, completed by the vector product, are right-handed, so the block is never mirrored.

    >>> carried(((1, 0, 0), (0, 1, 0)), ((0, 0, 1), (0, 0, 1))) == turn("Z", 90)
    True
    """
    froms = (first[0], second[0], cross(first[0], second[0]))
    tos = (first[1], second[1], cross(first[1], second[1]))
    rows = [tuple(sum(to[r] * one[c] for one, to in zip(froms, tos, strict=True)) for c in range(3)) for r in range(3)]
    return rows[0], rows[1], rows[2]


def face_at(matrix: Matrix, direction: Vector) -> str:
    """The face of the block (by its name before the turn) that looks in a direction after it.

    >>> face_at(turn("X", 180), (0, 1, 0)), face_at(turn("Y", 180), (0, 1, 0))
    ('front_edge', 'back_edge')
    """
    return next(name for name, normal in FACES.items() if applied(matrix, normal) == direction)


def size_after(matrix: Matrix, size: Vector) -> Vector:
    """Length, width and height of a block after a turn.

    >>> size_after(turn("X", 90), (80, 50, 20))
    (80, 20, 50)
    """
    x, y, z = (sum(abs(m) * s for m, s in zip(row, size, strict=True)) for row in matrix)
    return x, y, z


def corner_of(stop: Vector, jaw: Vector, size: Vector) -> tuple[Vector, Vector]:
    """Low and high end of a block that lies against stop, fixed jaw and seat, from that corner.

    >>> corner_of((-1, 0, 0), (0, 1, 0), (80, 50, 20))
    ((0, -50, 0), (80, 0, 20))
    """
    x = (-size[0], 0) if stop[0] > 0 else (0, size[0])
    y = (-size[1], 0) if jaw[1] > 0 else (0, size[1])
    return (x[0], y[0], 0), (x[1], y[1], size[2])


def placed(matrix: Matrix, stop: Vector, jaw: Vector, size: Vector, point: Vector) -> Vector:
    """Where a point of the block lies after the turn, both times from the corner of stop, fixed jaw and seat.

    Turned about its middle, and its new low corner pushed into the same corner again.

    >>> placed(turn("X", 180), (-1, 0, 0), (0, 1, 0), (80, 50, 20), (10, -5, 20))
    (10.0, -45.0, 0.0)
    """
    low, high = corner_of(stop, jaw, size)
    middle = [(a + b) / 2 for a, b in zip(low, high, strict=True)]
    new_low, new_high = corner_of(stop, jaw, size_after(matrix, size))
    x, y, z = applied(matrix, tuple(p - m for p, m in zip(point, middle, strict=True)))
    return tuple(v + (a + b) / 2 for v, a, b in zip((x, y, z), new_low, new_high, strict=True))


def tilt_shift(chip: float, base: float, height: float) -> float:
    """How far the top of a block leans sideways with a chip under one side (mm): chip x height/base.

    Small angles; a chip as high as a tenth of the base is 0.5 % off.

    >>> tilt_shift(0.1, 50, 20)
    0.04
    """
    return chip * height / base

"""Reading what people type. The rules are the project's own; unit factors are checked in test_units."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.catalogue import named
from calc.quantity import OutOfRange, Quantity, Refused
from calc.typed import read
from calc.units import DIMENSIONS

LENGTH = Quantity("width", "Width", "mm", above=0, high=5000)
SHARE = Quantity("efficiency", "Efficiency", "1", above=0, high=1)
FEED = Quantity("feed_rate", "Feed rate", "mm/min", low=0)
TEETH = Quantity("teeth", "Teeth", "1", low=1, high=60, kind="whole")
FACES = Quantity("faces", "Faces", "1", kind="list")
BARS = Quantity("bar_lengths", "Bars", "mm", kind="list", any_count=True)
TRAVEL = Quantity("travel_x", "Travel in X", "mm", kind="list")
PIECES = Quantity("pieces", "Pieces", "mm", kind="pieces")
POINTS = Quantity("features", "Features", "mm", kind="points")
CHOICE = Quantity("direction", "Direction", kind="choice", choices=("climb", "conventional"))


@pytest.mark.parametrize(
    ("typed", "value"),
    [
        ("6", 6.0), ("6 mm", 6.0), ("6mm", 6.0), ('1/4"', 6.35), ("1/4 in", 6.35), ("1 1/4 in", 31.75),
        ("1-1/4 in", 31.75), ("0,5", 0.5), (".25in", 6.35), ("½ in", 12.7), ("1½ in", 38.1), ("1.5 cm", 15.0),
        (" 0.015 inch ", 0.381),
        ("15 thou", 0.381), ("250 µm", 0.25), ("+3", 3.0), ("1e2", 100.0), ("1e-1 in", 2.54), ("2E3mm", 2000.0),
        ("5 µin", 0.000127), ("5 \u03bcm", 0.005), ("3 ft", 914.4), ("12,75", 12.75),
    ],
)  # fmt: skip
def test_lengths_as_typed(typed: str, value: float) -> None:
    """Decimals with point or comma, fractions and inches give exactly the millimetres they mean."""
    assert read(typed, LENGTH).value == value
    assert read(typed, LENGTH).typed == typed.strip()


@pytest.mark.parametrize(
    ("typed", "part"),
    [
        ("1,500", "two ways"), ("1,500.5", "two ways"), ("1.500,5", "two ways"), ("1/4", "of what"), ("6 kg", "a mass"),
        ("6 furlongs", "not a unit"), ("six", "is not a length"), ("", "is needed"), ("   ", "is needed"),
        ("1/0 in", "zero"), ("7:24", "not"), ("nan", "not"), ("inf", "not"), ("--3", "not"),
        ("1e999", "too large"), ("6..5", "not"), ("1/2/3", "not"), ("9" * 300, "too long"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_refused_in_one_line(typed: str, part: str) -> None:
    """The message says what is wrong and names the field."""
    with pytest.raises(Refused) as refused:
        read(typed, LENGTH)
    assert part in refused.value.message
    assert refused.value.field == "width"
    assert "\n" not in refused.value.message


@pytest.mark.parametrize("typed", ["0", "-1", "5001", "300 in"])
def test_beyond_the_limits_names_the_value_and_the_limit(typed: str) -> None:
    """OutOfRange carries both, and says both."""
    with pytest.raises(OutOfRange) as refused:
        read(typed, LENGTH)
    assert (refused.value.low, refused.value.high, refused.value.unit) == (0, 5000, "mm")
    assert "5000 mm" in refused.value.message


def test_shares_percent_and_speeds() -> None:
    """80 % is 0.8, and 30 in/min are 762 mm/min."""
    assert read("80 %", SHARE).value == 0.8
    assert read("80%", SHARE).value == 0.8
    assert read("30 in/min", FEED).value == 762
    assert read("30 ipm", FEED).value == 762


def test_a_fraction_of_a_plain_number_is_no_riddle() -> None:
    """Only where millimetres could be inches is a bare fraction refused."""
    assert read("1/2", SHARE).value == 0.5


def test_whole_numbers_lists_and_choices() -> None:
    """Teeth are counted, faces are listed, choices may be written a little differently."""
    assert read("4", TEETH).value == 4
    assert read("2,0,0", FACES).value == (2, 0, 0)
    assert read("2; 0; 0,5", FACES).value == (2, 0, 0.5)
    assert read("Climb", CHOICE).value == "climb"
    for typed, quantity in (("2.5", TEETH), ("2,,0", FACES), ("climbing up", CHOICE)):
        with pytest.raises(Refused):
            read(typed, quantity)


@pytest.mark.parametrize(
    ("typed", "quantity"),
    [
        ("82,5 x 12, 140 x 5", PIECES), ("1,200x2", PIECES), ("6,5x3,8x2", PIECES), ("-82,5", PIECES),
        ("3,500", BARS), ("2000,3000 mm", BARS), ("1.200,5", BARS), ("3,500; 2,000", BARS), ("1,200x2;", PIECES),
    ],
)  # fmt: skip
def test_a_comma_that_could_be_a_decimal_one_is_refused(typed: str, quantity: Quantity) -> None:
    """Where any count of numbers may stand, 3,500 is no two lengths: one line says how to write either."""
    with pytest.raises(Refused, match="can be read in two ways; write"):
        read(typed, quantity)


@pytest.mark.parametrize(
    ("typed", "quantity", "value"),
    [
        ("82.5x12, 140x5", PIECES, ((82.5, 12), (140, 5))), ("82,5x12; 140x5", PIECES, ((82.5, 12), (140, 5))),
        ("82,5x12;", PIECES, ((82.5, 12),)), ("82,5 x 12 mm;", PIECES, ((82.5, 12),)),
        ("83 X 12", PIECES, ((83, 12),)), ("83x12,140x5", PIECES, ((83, 12), (140, 5))),
        ("1/2, 3/4 in", BARS, (12.7, 19.05)), ("2000, 3000", BARS, (2000, 3000)), ("2000,5;", BARS, (2000.5,)),
        ("-500,0", TRAVEL, (-500, 0)), ("2,0,0", FACES, (2, 0, 0)),
        ("3, 1½ in", BARS, (76.2, 38.1)), ("1½, 2 in", BARS, (38.1, 50.8)), ("5., 6 in", BARS, (127, 152.4)),
        ("1e1, 2e1 in", BARS, (254, 508)), ("−1, −2 in", TRAVEL, (-25.4, -50.8)), ("1½x2 in", PIECES, ((38.1, 2),)),
        ("1e2x4, 5e1x2 cm", PIECES, ((1000, 4), (500, 2))), ("1e1, 2, ½ in", POINTS, ((254, 50.8, 12.7),)),
        ("10,-8,0; 100,-8,0 mm;", POINTS, ((10, -8, 0), (100, -8, 0))),
    ],
)  # fmt: skip
def test_a_clear_list_is_read(typed: str, quantity: Quantity, value: object) -> None:
    """Spaces or semicolons make it clear; so does a fixed count, and a comma after how many pieces."""
    assert read(typed, quantity).value == value


def test_a_percentage_typed_bare_is_told_how() -> None:
    """80 as a share is refused with the way to write 80 %; 500 or 180 % cannot be meant so."""
    with pytest.raises(Refused, match='write "80 %"'):
        read("80", SHARE)
    for typed in ("500", "180 %"):
        with pytest.raises(Refused) as told:
            read(typed, SHARE)
        assert "write" not in told.value.message


def test_a_gap_in_a_choice_may_be_left_out() -> None:
    """X180 is X_180."""
    turns = Quantity("turn", "Turned", kind="choice", choices=("X_180", "Y_180"))
    for typed in ("X180", "x180", "X_180", "x 180"):
        assert read(typed, turns).value == "X_180"


def test_a_near_miss_in_a_choice_is_told() -> None:
    """The nearest word is offered."""
    with pytest.raises(Refused, match="did you mean conventional"):
        read("convential", CHOICE)


@given(st.text(max_size=40), st.sampled_from([LENGTH, SHARE, FEED, TEETH, FACES, BARS, PIECES, CHOICE]))
def test_any_text_gives_a_value_or_one_plain_line(typed: str, quantity: Quantity) -> None:
    """Hostile text is never an exception of another kind, nor a number that is none."""
    try:
        value = read(typed, quantity).value
    except Refused as refused:
        assert refused.message and "\n" not in refused.message
        return
    values = value if isinstance(value, tuple) else (value,)
    values = tuple(one[0] if isinstance(one, tuple) else one for one in values)
    assert all(math.isfinite(one) for one in values if isinstance(one, float))


@given(st.floats(0.001, 4000), st.sampled_from(sorted(DIMENSIONS[1].units)))
def test_what_is_shown_reads_back(value: float, unit: str) -> None:
    """A number written with any unit of length reads back as the same length."""
    quantity = Quantity("x", "X", unit, low=0)
    assert read(f"{value!r} {unit}", quantity).value == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("calculator", "name", "typed", "read_as"),
    [
        ("second-setup", "turn", "x180", "X_180"), ("second-setup", "turn", "X 180", "X_180"),
        ("thread-mill", "thread_class", "6H", "6H"), ("thread-mill", "thread_class", "6h", "6h"),
        ("edge-find", "approach", "-x", "-X"), ("edge-find", "finder_kind", "Fixed stylus", "fixed_stylus"),
        ("edge-find", "approach", "x", None), ("second-setup", "turn", "180", None),
    ],
)  # fmt: skip
def test_a_choice_is_read_without_gaps_and_never_guessed(
    calculator: str, name: str, typed: str, read_as: str | None
) -> None:
    """Case and gaps may be left out where one choice alone fits; a sign never."""
    quantity = named(calculator).input(name)
    if read_as:
        assert read(typed, quantity).value == read_as
    else:
        with pytest.raises(Refused):
            read(typed, quantity)

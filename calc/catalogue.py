"""The calculators in job order, listed by hand, and the one way to put a question to them."""

from collections.abc import Mapping

from calc.answer import Answer
from calc.calculators.bar_cutting import BAR_CUTTING
from calc.calculators.chatter_speed import CHATTER_SPEED
from calc.calculators.chip_load import CHIP_LOAD
from calc.calculators.clamping import CLAMPING
from calc.calculators.convert import CONVERT
from calc.calculators.corner_clearance import CORNER_CLEARANCE
from calc.calculators.cutting_speed_table import CUTTING_SPEED_TABLE
from calc.calculators.cycle_time import CYCLE_TIME
from calc.calculators.drill_point import DRILL_POINT
from calc.calculators.edge_find import EDGE_FIND
from calc.calculators.facing import FACING
from calc.calculators.fit import FIT
from calc.calculators.heights import HEIGHTS
from calc.calculators.magnet_hold import MAGNET_HOLD
from calc.calculators.ramp_entry import RAMP_ENTRY
from calc.calculators.second_setup import SECOND_SETUP
from calc.calculators.soft_jaw import SOFT_JAW
from calc.calculators.stick_out import STICK_OUT
from calc.calculators.stock_allowance import STOCK_ALLOWANCE
from calc.calculators.surface_finish import SURFACE_FINISH
from calc.calculators.tap import TAP
from calc.calculators.thermal_growth import THERMAL_GROWTH
from calc.calculators.thread_mill import THREAD_MILL
from calc.calculators.tool_length import TOOL_LENGTH
from calc.calculators.tram import TRAM
from calc.calculators.travel_clearance import TRAVEL_CLEARANCE
from calc.calculators.v_cutter import V_CUTTER
from calc.declare import Calculator
from calc.quantity import Quantity, Reading, Refused, missing, nearest
from calc.typed import read

CALCULATORS: tuple[Calculator, ...] = (
    STOCK_ALLOWANCE,
    BAR_CUTTING,
    HEIGHTS,
    CLAMPING,
    SOFT_JAW,
    MAGNET_HOLD,
    TOOL_LENGTH,
    EDGE_FIND,
    TRAM,
    SECOND_SETUP,
    TRAVEL_CLEARANCE,
    CORNER_CLEARANCE,
    CHIP_LOAD,
    CUTTING_SPEED_TABLE,
    STICK_OUT,
    CHATTER_SPEED,
    SURFACE_FINISH,
    V_CUTTER,
    RAMP_ENTRY,
    DRILL_POINT,
    TAP,
    THREAD_MILL,
    FACING,
    CYCLE_TIME,
    THERMAL_GROWTH,
    FIT,
    CONVERT,
)


def named(name: str) -> Calculator:
    """The calculator of that name. Raises Refused with the nearest right name."""
    for one in CALCULATORS:
        if one.name == name:
            return one
    names = [one.name for one in CALCULATORS]
    raise Refused("calculator", f'There is no calculator "{name[:40]}"{nearest(name, names)}')


def work_out(name: str, typed: Mapping[str, str]) -> Answer:
    """The answer of calculator `name` to inputs as typed. Raises Refused with the field and why."""
    calculator = named(name)
    return calculator.answer(readings(calculator, typed))


def readings(calculator: Calculator, typed: Mapping[str, str]) -> dict[str, Reading]:
    """What was typed, read, with the declared defaults filled in. Raises Refused."""
    names = [one.name for one in calculator.inputs]
    for key in typed:
        if key not in names:
            raise Refused(key, f'{calculator.name} has no input "{key[:40]}"{nearest(key, names)}')
    found = ((one.name, _reading(one, typed.get(one.name, ""))) for one in calculator.inputs)
    return {name: reading for name, reading in found if reading is not None}


def _reading(quantity: Quantity, text: str) -> Reading | None:
    text = text if text.strip() else quantity.default or ""
    if text:
        return read(text, quantity)
    if quantity.required:
        raise missing(quantity)
    return None

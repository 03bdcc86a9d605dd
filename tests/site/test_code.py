"""The code on a job's sheet: read back by another library, it holds the job; too long a job has none."""

import json
import random
import re
import zlib
from base64 import urlsafe_b64decode
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import zxingcpp

from hooks.brief.lines import brief
from hooks.brief.situations import situations
from hooks.shop.read import Shop, read_shop
from hooks.site.code import carried, code, packed
from hooks.site.known import known

DEMO = Path(__file__).parents[2] / "content" / "demo"
ADDRESS = "https://example.org/estuary/"
STEP = re.compile(r"([Mmh])(-?[\d.]+)(?: (-?[\d.]+))?")


@pytest.fixture(scope="module")
def shop() -> Shop:
    """The demo shop."""
    return read_shop(DEMO)


def drawn(svg: str) -> np.ndarray:
    """The picture, four points a module, painted from the rows of strokes in its path."""
    size = int(re.findall(r'viewBox="0 0 (\d+) \1"', svg)[0])
    picture = np.full((size, size), 255, dtype=np.uint8)
    x = y = 0.0
    for letter, first, second in STEP.findall(re.findall(r' d="([^"]+)"', svg)[0]):
        if letter == "h":
            picture[int(y), int(x) : int(x + float(first))] = 0
            x += float(first)
        else:
            x, y = (float(first), float(second)) if letter == "M" else (x + float(first), y + float(second))
    return np.kron(picture, np.ones((4, 4), dtype=np.uint8))


def opened(address: str) -> dict[str, Any]:
    """The job in an address, unpacked by the standard library."""
    text = address.split("#sheet=")[1]
    return json.loads(zlib.decompress(urlsafe_b64decode(text + "=" * (-len(text) % 4)), -zlib.MAX_WBITS))


def test_another_reader_finds_the_job_in_the_code(shop: Shop) -> None:
    """ZXing reads what was drawn (ISO/IEC 18004); the address leads to the form, the job has its cutters' numbers."""
    (job,) = shop.jobs
    (read,) = zxingcpp.read_barcodes(drawn(code(job.typed, shop.settings_typed, ADDRESS)))
    assert read.format == zxingcpp.BarcodeFormat.QRCode
    assert read.text.startswith(f"{ADDRESS}jobs/edit/#sheet=")
    there = opened(read.text)
    assert there == carried(job.typed, shop.settings_typed)
    assert there["setups"][0]["operations"][0]["cutter"]["cutter_diameter"] == "6 mm" and "id" not in there


def test_the_carried_job_has_the_brief_of_the_sheet(shop: Shop) -> None:
    """Elsewhere there is no list of cutters: the same lessons come, in the same order."""
    (job,) = shop.jobs
    memory = known(shop)
    here = brief(memory, situations(job.typed, shop.settings_typed))
    there = brief(memory, situations(carried(job.typed, shop.settings_typed), {}))
    assert [one.id for one in there.lines] == [one.id for one in here.lines] and here.lines


def test_no_address_no_code_and_none_that_cannot_be_read(shop: Shop) -> None:
    """A code too fine for paper is left out; one just under it is there."""
    (job,) = shop.jobs
    assert code(job.typed, shop.settings_typed, "") == ""
    noise = "".join(map(chr, random.Random(7).choices(range(35, 91), k=6000)))  # it cannot be squeezed much
    sizes = {length: code({"part": "x", "note": noise[:length]}, {}, ADDRESS) for length in (100, 6000)}
    assert sizes[100] and not sizes[6000]
    address = f"{ADDRESS}jobs/edit/#sheet={packed({'part': 'x', 'note': noise[:6000]})}"
    assert len(address) > 1273  # ISO/IEC 18004 table 7: bytes in a version 25 at level L, from memory

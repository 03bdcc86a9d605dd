"""A code that opens a job on a phone: its facts ride in the address behind the #, which is sent to nobody.

Only where shop.yaml says at which address the shop is published: the phone opens the job form there, and its brief is
made from the lessons that were published. Cutters of the shop are written out, since what a shop owns is not published.
"""

import json
import zlib
from base64 import urlsafe_b64encode
from collections.abc import Mapping
from typing import Any

import segno

from hooks.brief.situations import cutter_of

Fields = Mapping[str, Any]
LARGEST = 25  # the version of 117 modules a side: on 40 mm of paper they are a third of a millimetre each
NOT_CARRIED = ("id", "held", "copied_from")


def code(job: Fields, settings: Fields, address: str) -> str:
    """The code as SVG (ISO/IEC 18004); "" where the shop has no address, or the job is too long to be read."""
    if not address:
        return ""
    target = f"{address}jobs/edit/#sheet={packed(carried(job, settings))}"
    try:
        made = segno.make_qr(target, error="l", mode="byte")
    except segno.DataOverflowError:
        return ""
    if int(made.version) > LARGEST:
        return ""
    return made.svg_inline(omitsize=True, svgclass=None, lineclass=None, title="Opens this job on a phone")


def carried(job: Fields, settings: Fields) -> dict[str, Any]:
    """The job's facts as a form elsewhere takes them."""
    fields = {key: value for key, value in job.items() if key not in NOT_CARRIED}
    setups = [
        {**setup, "operations": [_written_out(one, settings) for one in setup["operations"]]} if "operations" in setup
        else setup
        for setup in job.get("setups", ())
    ]  # fmt: skip
    return fields | ({"setups": setups} if setups else {})


def packed(fields: Fields) -> str:
    """Fields as JSON, deflated (RFC 1951) and in base64 for addresses (RFC 4648), without padding."""
    text = json.dumps(fields, ensure_ascii=False, separators=(",", ":")).encode("utf-8")
    squeeze = zlib.compressobj(9, zlib.DEFLATED, -zlib.MAX_WBITS)
    return urlsafe_b64encode(squeeze.compress(text) + squeeze.flush()).rstrip(b"=").decode("ascii")


def _written_out(operation: Fields, settings: Fields) -> dict[str, Any]:
    """The operation with its cutter's numbers, where it named one of the shop."""
    cutter = cutter_of(operation, settings)
    rest = {key: value for key, value in operation.items() if key not in ("cutter_of_shop", "cutter")}
    return rest | ({"cutter": cutter} if cutter else {})

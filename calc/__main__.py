"""The calculators on the command line: `python -m calc NAME key=value ... [--json]`."""

import json
import os
import sys
from collections.abc import Sequence
from typing import Any

from calc.catalogue import CALCULATORS, named, work_out
from calc.declare import Calculator
from calc.present import WORDS, shown_value
from calc.quantity import Quantity, Refused, takes

USAGE = """\
python -m calc                              the calculators, in job order
python -m calc NAME --help                  what one takes and gives
python -m calc NAME key=value ... [--json]  its answer; values as you type them: 6, 6mm, '1/4 in', 0,5, '80 %'
"""


def main(arguments: Sequence[str]) -> int:
    """Exit status: 0 with an answer whatever the verdict, or where nobody reads on; 2 with one line of error."""
    try:
        status = _main(arguments)
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())  # what is left goes nowhere, at the exit too
        return 0
    return status


def _main(arguments: Sequence[str]) -> int:
    words = [word for word in arguments if word not in ("--json", "--help", "-h")]
    as_json, wants_help = "--json" in arguments, len(words) < len([w for w in arguments if w != "--json"])
    try:
        if not words:
            print(json.dumps(catalogue_data()) if as_json else USAGE if wants_help else _list())
        elif wants_help:
            print(_help(named(words[0])))
        else:
            answer = work_out(words[0], _pairs(words[1:])).to_dict()
            print(json.dumps(answer, allow_nan=False) if as_json else _told(answer))
    except Refused as refusal:
        return _refuse(f"{refusal.field}: {refusal.message}")
    except (ArithmeticError, ValueError):
        return _refuse("these numbers are too far apart to be worked out")
    return 0


def catalogue_data() -> dict[str, Any]:
    """Every calculator with its inputs and outputs, as JSON."""
    return {
        "calculators": [
            {
                "name": one.name,
                "title": one.title,
                "step": one.step,
                "inputs": [_input_data(quantity) for quantity in one.inputs],
                "outputs": [{"name": q.name, "label": q.label, "unit": q.unit, "help": q.help} for q in one.outputs],
            }
            for one in CALCULATORS
        ]
    }


def _input_data(quantity: Quantity) -> dict[str, Any]:
    q = quantity
    low = q.low if q.above is None else q.above
    return {
        "name": q.name, "label": q.label, "unit": q.unit, "low": low, "high": q.high, "default": q.default,
        "required": q.required, "choices": list(q.choices), "help": q.help,
    }  # fmt: skip


def _pairs(words: Sequence[str]) -> dict[str, str]:
    typed: dict[str, str] = {}
    for word in words:
        key, sign, value = word.partition("=")
        if not sign:
            raise Refused(word[:40], "write it as name=value")
        if key in typed:
            raise Refused(key[:40], "given twice")
        typed[key] = value
    return typed


def _list() -> str:
    return "\n".join(f"{one.step:8} {one.name:20} {one.question}" for one in CALCULATORS)


def _help(calculator: Calculator) -> str:
    lines = [f"{calculator.title}. {calculator.question}", "", "takes:"]
    lines += [f"  {q.name:26} {q.label}: {_terms(q)}" for q in calculator.inputs]
    lines += ["gives:"]
    lines += [f"  {q.name:26} {q.label}" + (f", {q.unit}" if q.unit != "1" else "") for q in calculator.outputs]
    example = " ".join(f"{key}='{value}'" for key, value in calculator.example.items())
    return "\n".join([*lines, "for example:", f"  python -m calc {calculator.name} {example}"])


def _terms(quantity: Quantity) -> str:
    needed = "needed" if quantity.required else f"default {quantity.default}" if quantity.default else "optional"
    return f"{takes(quantity)}; {needed}" + (f". {quantity.help}" if quantity.help else "")


def _told(answer: dict[str, Any]) -> str:
    calculator = named(answer["calculator"])
    lines = [f"{WORDS[answer['verdict']].upper()}: {answer['reason']}"]
    lines += [f"  - {one['text']}" for one in answer["advice"]]
    lines += [f"  {one.label:52} {_told_value(one, answer)}" for one in calculator.outputs]
    lines += [f"  ! {one}" for one in answer["cautions"]]
    return "\n".join(lines)


def _told_value(output: Quantity, answer: dict[str, Any]) -> str:
    value = answer["values"][output.name]
    return shown_value(value, output, "metric") if value["value"] is not None else f"– ({value['why']})"


def _refuse(line: str) -> int:
    print(line.replace("\n", " "), file=sys.stderr)
    return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

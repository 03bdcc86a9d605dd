"""Templates, and the words they may use."""

from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from calc.units import shown_unit
from hooks.site.markup import block, inline, unmarked
from hooks.site.shell import BASE
from hooks.site.told import word

TEMPLATES = Path(__file__).with_name("templates")


def templates() -> Environment:
    """The environment all pages are made with; everything is escaped unless it is our own HTML."""
    environment = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.globals |= {
        "base": Markup(BASE),  # the shell puts the way to the root in its place
        "inline": inline,
        "unmarked": unmarked,
        "block": block,
        "word": word,
        "shown_unit": shown_unit,
        "shown_choice": lambda key: str(key).replace("_", " "),
    }
    return environment


def html(environment: Environment, template: str, **context: Any) -> str:
    """One template filled."""
    return environment.get_template(template).render(**context)

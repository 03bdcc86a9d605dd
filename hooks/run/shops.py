"""Which shop is meant, and how a new one is made."""

import json
from pathlib import Path

from hooks.run.places import DEMO, KEPT, OWN_SHOP

SETTINGS = KEPT / "settings.json"

SHOP_YAML = """\
# Your shop. Change the name and the machines to yours; lessons refer to machines by their key.
name: "Our workshop"
machines: []
# Take the line above away and the marks from these two, then change them to your machine:
# machines:
#   - {key: "mill", name: "The mill", max_spindle_speed: "8000 rpm", spindle_power: "2.2 kW"}
"""

README = """\
Lessons live in lessons/YEAR/, one file each. This folder is yours: no upgrade touches it.
"""


class NoShop(ValueError):
    """The folder asked for is not there, or holds no shop.yaml."""


def choose(asked: str | None, keep: bool = False) -> Path:
    """The shop's folder: the one asked for (remembered with `keep`), else the remembered, the own, the demo."""
    if asked is not None:
        folder = _checked(Path(asked).expanduser().resolve())
        if keep:
            _remember({"shop": str(folder)})
        return folder
    remembered = _remembered().get("shop")
    if remembered:
        return _checked(Path(remembered))
    return OWN_SHOP if (OWN_SHOP / "shop.yaml").is_file() else DEMO


def make_new() -> Path:
    """Make content/shop and let it be the default. Raises FileExistsError where it is already there."""
    OWN_SHOP.mkdir(parents=True)
    (OWN_SHOP / "lessons").mkdir()
    (OWN_SHOP / "shop.yaml").write_text(SHOP_YAML, encoding="utf-8", newline="\n")
    (OWN_SHOP / "README.md").write_text(README, encoding="utf-8", newline="\n")
    _remember({})
    return OWN_SHOP


def _checked(folder: Path) -> Path:
    if not (folder / "shop.yaml").is_file():
        raise NoShop(f"There is no shop in {folder}: it holds no shop.yaml. --shop PATH names another.")
    return folder


def _remembered() -> dict[str, str]:
    try:
        return json.loads(SETTINGS.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}


def _remember(settings: dict[str, str]) -> None:
    KEPT.mkdir(exist_ok=True)
    SETTINGS.write_text(json.dumps(settings), encoding="utf-8")

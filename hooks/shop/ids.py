"""The shape of a lesson's id. Files are named by it, so nothing else may ever pass for one."""

import re
from datetime import datetime

SECOND = "%Y%m%d-%H%M%S"
ID = re.compile(r"[0-9]{8}-[0-9]{6}-[0-9abcdefghjkmnpqrstvwxyz]{5}", re.ASCII)


def is_id(text: object) -> bool:
    """Whether `text` is an id: UTC day and second that exist, and five letters of Crockford's base 32, lower case."""
    return isinstance(text, str) and ID.fullmatch(text) is not None and _exists(text[:15])


def _exists(second: str) -> bool:
    try:
        datetime.strptime(second, SECOND)
    except ValueError:
        return False
    return True


def lesson_path(id_: str) -> str:
    """Where the lesson of this id lies, relative to the shop's folder, with forward slashes."""
    return f"lessons/{id_[:4]}/{id_}.yaml"


def job_path(id_: str) -> str:
    """Where the job sheet of this id lies, relative to the shop's folder."""
    return f"jobs/{id_}.yaml"

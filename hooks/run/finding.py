"""A question answered in the terminal."""

import json

from hooks.site.asked import Found

NOTHING = "Nothing like it is written down yet. Say it in fewer words, or with a size, a material or a cutter."


def as_json(found: Found | None) -> str:
    """The hits as a list of {id, title, score, why}; an empty list where there is nothing."""
    return json.dumps(found.best if found else [], indent=1)


def in_lines(found: Found | None, question: str, lessons: int) -> str:
    """How many were found, then each hit with its title and, below it, its reason."""
    if found is None:
        return f"There is no word to look for in “{question}”: what broke, moved or was marked?"
    if not found.count:
        return NOTHING
    shown = "" if len(found.best) == found.count else f", the best {len(found.best)}"
    lines = [f"{found.count} of {lessons} {'lesson' if lessons == 1 else 'lessons'}{shown}"]
    for hit in found.best:
        lines += [f"{hit['id']}  {hit['title']}", f"    {'; '.join(hit['why'])}"]
    return "\n".join(lines)

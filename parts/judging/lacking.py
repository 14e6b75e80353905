"""What would have to be measured or chosen, and what can't be sized without it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.job.schema import in_workshop_words

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

MOST_KEYS, MOST_NAMES = 6, 3  # that are told in full


def lacking(left_out: Mapping[str, Sequence[str]]) -> list[tuple[str, str]]:
    """What to give, in workshop words, and the sizes that wait for it.

    Parameters
    ----------
    left_out : mapping
        Size -> keys that it needs, by their names in the book

    Returns
    -------
    told : list of two texts
        In the order in which the sizes stand
    """
    by_need: dict[str, list[str]] = {}
    for name, needs in left_out.items():
        keys = [need.removeprefix("job.") for need in needs]
        more = f" and {len(keys) - MOST_KEYS} more" if len(keys) > MOST_KEYS + 1 else ""
        shown = keys[:MOST_KEYS] if more else keys
        by_need.setdefault(", ".join(map(in_workshop_words, shown)) + more, []).append(name)
    return [(need, _some(names)) for need, names in by_need.items()]


def _some(names: list[str]) -> str:
    more = f" and {len(names) - MOST_NAMES} more" if len(names) > MOST_NAMES else ""
    return ", ".join(names[:MOST_NAMES]) + more

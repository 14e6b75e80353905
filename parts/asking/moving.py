"""Which questions move a finding: the nearest values of the job that its size is worked out from, or waits for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from parts.register import tables

if TYPE_CHECKING:
    from collections.abc import Iterator

    from parts.asking.desk import Sight
    from parts.asking.questions import Question
    from parts.book import Book

MOST = 3
NOT_JUDGED = "not_judged."


def moving(sight: Sight, name: str) -> list[Question]:
    """At most three questions, the nearest first: what is chosen of the parts before what was measured."""
    done, own = sight.standing.done, name.removeprefix(NOT_JUDGED)
    keys = [own, *(nearest(done.now.book, name) if done and own == name else ())]
    found = dict.fromkeys(question for key in keys if (question := sight.question(_in_file(sight, key))))
    chosen = tables()
    return sorted(found, key=lambda question: question.key.partition(".")[0] not in chosen)[:MOST]


def nearest(book: Book, name: str) -> Iterator[str]:
    """Keys of the job that a size rests on or that it waits for, by how many steps they are away."""
    todo, seen = [name], {name}
    while todo:
        here = todo.pop(0)
        if here.startswith("job."):
            yield here.removeprefix("job.")
        inputs = book[here].inputs.values() if here in book else book.needs(here)
        below = [one for one in dict.fromkeys(inputs) if isinstance(one, str) and one not in seen]
        todo, seen = [*todo, *below], seen.union(below)


def _in_file(sight: Sight, key: str) -> str:
    """A key by its place in the file: an entry of a list by its number."""
    table, *steps = key.removeprefix("job.").split(".")
    there = sight.raw.get(table)
    names = [str(one.get("name", "")) for one in there] if isinstance(there, list) else []
    return ".".join([table, *(str(names.index(step)) if step in names else step for step in steps)])

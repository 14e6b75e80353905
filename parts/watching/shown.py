"""What the page shows of parts that stand: known from the last time, so that the kernel builds only what changed."""

from __future__ import annotations

from itertools import chain
from typing import TYPE_CHECKING, Any

from parts.pictures.filled import Filled

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from parts.making.kernel import Ask
    from parts.making.solids import Order


class Shown:
    """Hands orders to the kernel but those for the page alone that were filled before."""

    def __init__(self, ask: Ask) -> None:
        self._ask = ask
        self._known: dict[str, tuple[Any, Filled]] = {}
        """stem -> shape, and its models"""

    def __call__(self, orders: Sequence[Order]) -> Iterator[Filled]:
        """Fill orders, as `kernel` does."""
        known = [filled for order in orders if (filled := self._of(order))]
        lacking = [order for order in orders if not self._of(order)]
        return chain(known, self._noted(lacking, self._ask(lacking) if lacking else ()))

    def _of(self, order: Order) -> Filled | None:
        shape, filled = self._known.get(order.stem, (None, None))
        return filled if not order.write and shape == order.shape else None

    def _noted(self, orders: Sequence[Order], answers: Iterable[Filled]) -> Iterator[Filled]:
        for order, one in zip(orders, answers, strict=True):
            if order.show:
                self._known[order.stem] = order.shape, Filled(order.stem, [], one.models, one.bodies)
            yield one

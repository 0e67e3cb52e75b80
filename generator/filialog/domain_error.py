"""The one error that the computing rooms raise: a value outside a formula's range."""

__all__ = ["DomainError"]


class DomainError(ValueError):
    """A value outside the range for which a computation is valid.

    Parameters
    ----------
    quantity
        What the value is, in the words of the trade, with its unit.
    value
        The value that was given.
    expected
        The range or form that would have been valid.
    """

    def __init__(self, quantity: str, value: object, expected: str) -> None:
        super().__init__(f"{quantity} is {value!r}; expected {expected}")
        self.quantity = quantity
        self.value = value
        self.expected = expected

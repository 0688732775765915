"""The one error that a person can cause by breaking a rule of the trade.

Bad input is said at the field of the form; an impossible state is refused by a
named database constraint; everything else is a bug and may crash. A rule of the
trade ("no kit leaves before its label is read") is a ``RuleBroken``.
"""


class RuleBroken(Exception):
    """A rule of the trade refuses what was asked; nothing was changed.

    ``code`` is a short name for tests and templates ("bench_taken"), ``message`` is
    a full sentence that a cook understands with the figure, the limit and what
    would help, ``facts`` are the figures behind it.
    """

    def __init__(self, code: str, message: str, **facts: object) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.facts = facts

"""Findings: what people got wrong, said in one line each: where, found, expected."""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Finding:
    """One fault in what a person wrote."""

    file: str
    row: int | None
    column: str
    found: str
    expected: str

    def __str__(self) -> str:
        where = self.file
        if self.row is not None:
            where += f", row {self.row}"
        if self.column:
            where += f", column {_short(self.column)}"
        line = f"{where}: found {_short(self.found)}; expected {self.expected}"
        # One line, and nothing in it that a terminal would act on.
        return "".join(c if c.isprintable() else repr(c)[1:-1] for c in line)


def _short(text: str) -> str:
    return text if len(text) <= 80 else text[:77] + "..."


class BadInputError(Exception):
    """The input can't be built from; carries every finding."""

    def __init__(self, findings: Iterable[Finding]) -> None:
        self.findings = tuple(findings)
        super().__init__("\n".join(str(f) for f in self.findings))


class FormulaError(Exception):
    """A formula of ours that does not compute: a fault in a declaration, never in a person's data."""

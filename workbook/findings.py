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
            where += f", column {self.column}"
        found = self.found if len(self.found) <= 80 else self.found[:77] + "..."
        return f"{where}: found {found}; expected {self.expected}"


class BadInputError(Exception):
    """The input can't be built from; carries every finding."""

    def __init__(self, findings: Iterable[Finding]) -> None:
        self.findings = tuple(findings)
        super().__init__("\n".join(str(f) for f in self.findings))

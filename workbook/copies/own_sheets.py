"""Sheets that people added, of several copies at once."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from workbook.copies.conflicts import SHEET, Conflict, Side
from workbook.copies.content import AddedSheet, Content
from workbook.copies.identity import Rows
from workbook.tables.table import Table

LONGEST_TITLE = 31  # of a sheet, in every office program


def joined(base: Content, copies: Sequence[Content]) -> tuple[dict[str, AddedSheet], list[Conflict]]:
    """Added sheets: an edited one takes the place of the base's; edited in several ways all of them stay, side by side."""
    found: dict[str, AddedSheet] = {}
    clashes: list[Conflict] = []
    every = [{sheet.title.casefold(): sheet for sheet in content.added_sheets} for content in (base, *copies)]
    taken = {title for sheets in every for title in sheets}
    for small in dict.fromkeys(title for sheets in (every[0], *every[1:]) for title in sorted(sheets)):
        before = every[0].get(small)
        sides: dict[tuple[object, ...] | None, list[str]] = defaultdict(list)
        versions: dict[tuple[object, ...] | None, AddedSheet | None] = {}
        for copy, sheets in zip(copies, every[1:], strict=True):
            after = sheets.get(small)
            if _looks(after) != _looks(before):
                sides[_looks(after)].append(copy.name)
                versions.setdefault(_looks(after), after)
        if len(sides) <= 1:
            kept = next(iter(versions.values())) if sides else before
            found |= {kept.title: kept} if kept else {}
            continue
        title = (before or next(sheet for sheet in versions.values() if sheet)).title
        found |= {before.title: before} if before else {}
        said = []
        for look, names in sorted(sides.items(), key=lambda pair: pair[1]):
            sheet = versions[look]
            if sheet:
                sheet = replace(sheet, title=_free_title(title, names[0], taken))
                found[sheet.title] = sheet
            said.append(Side(sheet.title if sheet else None, tuple(names)))
        clashes.append(Conflict("", (title,), 1, SHEET, before.title if before else None, tuple(said), title))
    return found, clashes


def _looks(sheet: AddedSheet | None) -> tuple[object, ...] | None:
    rows = Rows(Table("", "", "", (), ()), [])
    return None if sheet is None else tuple(sorted((at, rows.plain_of(SHEET, v)) for at, v in sheet.cells.items()))


def _free_title(title: str, name: str, taken: set[str]) -> str:
    name = "".join(" " if mark in "[]:*?/\\" else mark for mark in name.rpartition(".")[0] or name)
    for number in range(1, 1000):
        more = f" ({name[:12]})" if number == 1 else f" ({name[:8]} {number})"
        told = title[: LONGEST_TITLE - len(more)] + more
        if told.casefold() not in taken:
            taken.add(told.casefold())
            return told
    raise ValueError(title)

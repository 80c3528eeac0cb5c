"""An edited workbook is carried over into a fresh one: everything typed, and everything people added."""

import re
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path

from workbook.build import Built, Extras, Plan, compute, lay_out, save, stamped
from workbook.cells.pages import Records
from workbook.cells.placing import Placing, workings_of
from workbook.cells.slots import Placed
from workbook.copies import conflicts
from workbook.copies.carrying_out import with_plan_done
from workbook.copies.content import AddedSheet, Content, Entry
from workbook.copies.deciding import settle
from workbook.copies.following import followed
from workbook.copies.grids import At, address
from workbook.copies.identity import TYPED, Spot
from workbook.copies.librarying import with_library
from workbook.copies.migrating import steps_from
from workbook.copies.reading import given_rows, read_copy
from workbook.copies.repointing import NotCarriedError, Repointing
from workbook.copies.values import is_formula, plain_text
from workbook.copies.words import column as column_words
from workbook.copies.words import gone_columns
from workbook.editions import SCHEMA, Edition, edition_for, first_choices
from workbook.files.targets import writable
from workbook.findings import BadInputError, Finding
from workbook.stamps import CARRIED
from workbook.tables.columns import Column, Look, Typed
from workbook.tables.kinds import Value, text
from workbook.tables.sheet import Charts
from workbook.tables.table import Table

KEPT_ASIDE = "Kept aside"
ASIDE_HEADER = ("Table", "Row", "Column", "What stood there", "Why it is here")
LONGEST_CELL, LONGEST_HEADER, LONGEST_TITLE = 32_000, 200, 31
NOT_IN_TITLES = re.compile(r"[\[\]:*?/\\\x00-\x1f]|^'+|'+$")


@dataclass
class Carried:
    """What a fresh workbook takes over, and what the person is told about it."""

    records: Records
    edition: Edition
    placing: Placing
    extras: Extras = field(default_factory=lambda: Extras(headed=(KEPT_ASIDE,)))
    aside: list[tuple[str, str, str, str, str]] = field(default_factory=list)
    said: list[str] = field(default_factory=list)


def records_of(content: Content) -> Records:
    """The rows of every table that a build starts from; columns that people added have the keys added_1, added_2 and so on."""
    edition = edition_for(content.edition, content.tables)
    found: Records = {}
    for table in edition.tables:
        if table.key in content.tables:
            headers = content.added_columns.get(table.key, ())
            rows = [_row(entry, headers) for entry in content.tables[table.key]]
            # Rows that the package does not know any more have no values.
            found[table.key] = [row for row in rows if row or not table.given]
        elif table.key in edition.given or table.key == "about" or not table.typed:
            continue
        elif table.given:
            found[table.key] = [dict(row) for row in given_rows(edition, table)]
        elif table.is_list or table.key == "settings":
            found[table.key] = [{}] if table.form else []
    return first_choices(edition, found) | found


def digest_of(content: Content) -> str:
    """The stamp that a workbook of this content gets: that of its hand-out while nothing was typed in it since."""
    notes = [words for entries in content.tables.values() for entry in entries for words in entry.notes.values()]
    sheets = {sheet.title: sheet.cells for sheet in content.added_sheets}
    return stamped(edition_for(content.edition, content.tables), records_of(content), notes, sheets)


def _row(entry: Entry, headers: tuple[str, ...]) -> dict[str, Value]:
    added = {f"added_{i}": entry.added[header] for i, header in enumerate(headers, 1) if header in entry.added}
    return entry.values | added


def with_columns(edition: Edition, headers: dict[str, tuple[str, ...]]) -> Edition:
    """The edition with the columns that people added at the end of their tables."""

    def longer(block: Table | Charts) -> Table | Charts:
        if not isinstance(block, Table) or block.key not in headers:
            return block
        added: list[Column] = [
            Typed(f"added_{i}", plain_text(header)[:LONGEST_HEADER], text(), free=True, look=Look("Added by you", 16),
                  help="A column of your own; nothing is reckoned with it.")
            for i, header in enumerate(headers[block.key], 1)
        ]  # fmt: skip
        return replace(block, columns=(*block.columns, *added))

    sheets = tuple(replace(sheet, blocks=tuple(longer(block) for block in sheet.blocks)) for sheet in edition.sheets)
    return replace(edition, sheets=sheets)


def carried(content: Content, plan: Plan) -> Carried:
    """Everything of a content as a fresh workbook takes it."""
    edition = with_columns(edition_for(plan.edition, content.tables), content.added_columns)
    records = records_of(content)
    placing = lay_out(edition, edition.given | {"about": [{}]} | records, plan)
    made = Carried(records, edition, placing, aside=[*content.aside])
    sheets = _own_sheets(content, edition)
    same_units = plan.units == content.units
    repointing = Repointing(replace(content, added_sheets=tuple(sheets.values())), placing) if same_units else None
    _carry_columns(made, content, placing, repointing)
    for title, sheet in sheets.items():
        made.extras.sheets[sheet.title] = _carry_sheet(made, title, sheet, repointing)
    _carry_notes(made, content, placing)
    _set_aside(made, content)
    if made.aside:
        made.extras.sheets[KEPT_ASIDE] = _aside_cells(made, made.extras.sheets.get(KEPT_ASIDE, {}))
    _tell(made, content, plan)
    return made


def _own_sheets(content: Content, edition: Edition) -> dict[str, AddedSheet]:
    """Added sheets by the title they had, with titles that every program takes."""
    taken = {title.casefold() for s in edition.sheets for title in (s.title, workings_of(s).title)} | {"history"}
    found = {}
    for sheet in content.added_sheets:
        bare = plain_text(NOT_IN_TITLES.sub(" ", sheet.title))[:LONGEST_TITLE].strip(" '") or "Added"
        numbered = (bare, *(f"{bare[: LONGEST_TITLE - 6]} ({i})" for i in range(2, 10_000)))
        title = next(name for name in numbered if name.casefold() not in taken)
        taken.add(title.casefold())
        found[sheet.title] = replace(sheet, title=title)
    return found


def _carry_columns(made: Carried, content: Content, placing: Placing, repointing: Repointing | None) -> None:
    """Formulas in added columns, pointed anew; where that can't be, the value they showed."""
    for key, headers in content.added_columns.items():
        here = placing.tables[key]
        rows = made.records[key]
        for i, header in enumerate(headers, 1):
            for row, entry in zip(rows, content.tables[key], strict=True):
                value = row.get(f"added_{i}")
                if is_formula(value):
                    place = entry.places.get(header)
                    then = entry.shown.get(header)
                    where = (here.table.title, row_label(here.table, entry), header, entry.where(header))
                    row[f"added_{i}"] = _formula(
                        made, value, then, where, (place.sheet if place else here.sheet, here.sheet), repointing
                    )
                elif isinstance(value, str):
                    row[f"added_{i}"] = value[:LONGEST_CELL]


def _formula(
    made: Carried,
    formula: str,
    then: Value | None,
    where: tuple[str, str, str, str],
    sheets: tuple[str, str],
    repointing: Repointing | None,
) -> Value:
    """The formula for the fresh workbook, or what it showed; then the formula itself is kept aside."""
    why = "the units of the workbook changed"
    if repointing:
        try:
            return repointing.formula(formula, *sheets)
        except NotCarriedError as error:
            why = str(error)
    made.aside.append((*where[:3], formula, f"a formula that became the value it showed: {why}{_was(where[3])}"))
    if isinstance(then, str):
        return _shielded(then)
    return "" if then is None else then


def _carry_sheet(made: Carried, old_title: str, sheet: AddedSheet, repointing: Repointing | None) -> dict[At, Value]:
    cells: dict[At, Value] = {}
    for at, value in sheet.cells.items():
        if is_formula(value):
            where = (sheet.title, address(*at), "", f"{sheet.origin}!{address(*at)}" if sheet.origin else "")
            cells[at] = _formula(
                made, value, sheet.shown.get(at), where, (sheet.origin or old_title, sheet.title), repointing
            )
        else:
            cells[at] = value[:LONGEST_CELL] if isinstance(value, str) else value
    return cells


def _carry_notes(made: Carried, content: Content, placing: Placing) -> None:
    for key, entries in content.tables.items():
        here = placing.tables.get(key)
        headers = {header: f"added_{i}" for i, header in enumerate(content.added_columns.get(key, ()), 1)}
        kept = [entry for entry in entries if entry.values or not (here and here.table.given)]
        for index, entry in enumerate(kept):
            for column, words in entry.notes.items():
                if here and (found := _cell(here, headers.get(column, column), index)):
                    sheet, at = found
                    made.extras.notes.setdefault(sheet, {})[at] = words
                else:
                    table = next((t for t in made.edition.tables if t.key == key), Table(key, key, "", (), ()))
                    why = f"a note on a cell that is not there any more{_was(entry.where(column))}"
                    label = column_words(table, Spot(TYPED, column))
                    made.aside.append((table.title, row_label(table, entry) or str(index + 1), label, words, why))


def _was(where: str) -> str:
    """Where something stood, for the end of a line; nothing where nobody knows."""
    return f" (was {where})" if where else ""


def _cell(here: Placed, key: str, index: int) -> tuple[str, At] | None:
    slot = next((slot for slot in here.slots if slot.column.key == key), None)
    if slot is None:
        return None
    return slot.sheet, ((slot.at, here.across) if here.table.form else (here.first_row + index, slot.at))


def row_label(table: Table, entry: Entry) -> str:
    """What a row is called."""
    parts = [str(entry.values.get(key, entry.unread.get(key, ""))) for key in table.row_name]
    return ": ".join(part for part in parts if part)


def _set_aside(made: Carried, content: Content) -> None:
    """Cells that could not be read, with what was expected in them."""
    for table in edition_for(content.edition, content.tables).tables:
        for entry in content.tables.get(table.key, ()):
            for key, found in entry.unread.items():
                # A column that follows from others, a running number for one, is declared nowhere.
                column = next((c for c in table.columns if c.key == key), None)
                if not entry.values and table.given:
                    why = "this row does not come with the package any more"
                elif isinstance(column, Typed):
                    why = f"expected {column.kind.expected}"
                else:
                    why = "it was typed over a formula; the fresh workbook has the formula"
                label = getattr(column, "label", "") or key
                made.aside.append((table.title, row_label(table, entry), label, found, why + _was(entry.where(key))))


def _aside_cells(made: Carried, before: dict[At, Value]) -> dict[At, Value]:
    """The lines of the sheet Kept aside, below those it had."""
    cells = dict(before) or {(1, column): words for column, words in enumerate(ASIDE_HEADER, 1)}
    had = {tuple(cells.get((row, column), "") for column in range(1, 6)) for row, _ in cells}
    row = max(row for row, _ in cells)
    for line in made.aside:
        words = tuple(_shielded(part) for part in line)
        if words not in had:
            row += 1
            cells |= {(row, column): part for column, part in enumerate(words, 1) if part}
    return cells


def _shielded(words: str) -> str:
    """Words that never act as a formula."""
    return ("'" + words if words.startswith("=") else words)[:LONGEST_CELL]


def _tell(made: Carried, content: Content, plan: Plan) -> None:
    """What the person is told, a line for each matter."""
    say = made.said.append
    edition = edition_for(content.edition, content.tables)
    if steps := steps_from(content.schema):
        say(f"brought up from schema {content.schema} to {SCHEMA}: {', '.join(steps)}")
    if plan.units != content.units:
        say(
            f"converted from {content.units} to {plan.units} units; numbers in columns and sheets you added stay as they were"
        )
    for key, headers in content.added_columns.items():
        title = next(table.title for table in edition.tables if table.key == key)
        say(f"{title}: your own {'column' if len(headers) == 1 else 'columns'} {', '.join(headers)} carried over")
    own = [title for title in made.extras.sheets if title != KEPT_ASIDE]
    if own:
        say(f"{'sheet' if len(own) == 1 else 'sheets'} carried over: {', '.join(own)}")
    if notes := sum(len(found) for found in made.extras.notes.values()):
        say(f"{notes} {'note' if notes == 1 else 'notes'} in cells carried over")
    lacking = [t.title for t in edition.tables if t.is_list and t.key not in content.tables]
    if lacking:
        say(f"not found in the file, so empty in the fresh one: {', '.join(lacking)}")
    for line in gone_columns(content, edition.tables):
        say(f"{line}: blank in the fresh one, or as it comes with the package")
    for title, row, _, _, why in content.aside:
        say(f"{title}, {row}: {why}")
    # What came of decisions is told above, line by line.
    if many := len(made.aside) - len(content.aside):
        told = "1 cell could not be taken as it was" if many == 1 else f"{many} cells could not be taken as they were"
        say(f"{told}: see the sheet {KEPT_ASIDE}")


def rebuild(
    source: Path,
    target: Path | None,
    plan: Plan,
    *,
    units: str | None = None,
    edition: str | None = None,
    say: Callable[[str], None] = lambda _: None,
) -> tuple[Built, list[str]]:
    """Carry an edited workbook over into a fresh one, in its own units where none are wanted. The file is never changed.

    Without a target it is output/EDITION.xlsx.
    """
    say("reading")
    content = read_copy(source)
    target = target or Path("output") / f"{content.edition}.xlsx"
    writable(target)
    if target.exists() and source.exists() and target.samefile(source):
        expected = "another file to write: what you typed is never overwritten"
        raise BadInputError([Finding(str(target), None, "", "the edited workbook itself", expected)])
    if edition and edition != content.edition:
        raise BadInputError([Finding(source.name, None, "", f"a workbook of the edition {content.edition}", edition)])
    tables = edition_for(content.edition, content.tables).tables
    content, told = followed(content, tables, follow=plan.follow)
    content, planned = with_plan_done(content, plan.plan_date, carry_out=plan.carry_out)
    told += planned
    plan = replace(plan, units=units or content.units)
    if plan.library:
        library = read_copy(plan.library)
        content, changed = with_library(content, library, tables)
        told += changed
        plan = replace(plan, made_from=CARRIED + library.stamp.own if library.stamp.own else "")
    built, said = build_content(content, target, plan, say)
    return built, [*told, *said]


def build_content(
    content: Content, target: Path, plan: Plan, say: Callable[[str], None] = lambda _: None
) -> tuple[Built, list[str]]:
    """Write a fresh workbook of a content; what the person is told about it."""
    made_from = plan.made_from or _made_from(content)
    holds = plan.holds or content.stamp.holds
    plan = replace(plan, edition=content.edition, made_from=made_from, holds=holds)
    content, decided = settled(content)
    built, said = build_settled(content, target, plan, say)
    return built, [*decided, *said]


def build_settled(content: Content, target: Path, plan: Plan, say: Callable[[str], None]) -> tuple[Built, list[str]]:
    """The same of a content in which every decision is carried out."""
    made = carried(content, plan)
    built = compute(made.edition, made.records, plan, say, made.extras)
    say("writing")
    save(target, built, plan)
    return built, made.said


def _made_from(content: Content) -> str:
    """What a workbook that is built of this content was made from; nothing new while nothing was typed in it."""
    if not content.stamp.own or digest_of(content) == content.stamp.own:
        return content.stamp.made_from
    return CARRIED + content.stamp.own


def settled(content: Content) -> tuple[Content, list[str]]:
    """The content with the decisions of its Conflicts sheet carried out, and what people are told about them."""
    tables = {table.key: table for table in edition_for(content.edition, content.tables).tables}
    before = len(conflicts.read(content.tables.get(conflicts.TABLE, ())))
    done = settle(content, [*tables.values()])
    left = conflicts.read(done.tables.get(conflicts.TABLE, ()))
    said = [carried_out(before - len(left)), f"{len(left)} left" if left else ""]
    vain = (conflicts.undecided(c, tables.get(c.table, Table("", "Added sheet", "", (), ()))) for c in left)
    return done, ["Conflicts: " + ", ".join(filter(None, said)), *filter(None, vain)] if before else []


def carried_out(count: int) -> str:
    """How many decisions were; nothing of none."""
    return f"{count} decided and carried out" if count else ""

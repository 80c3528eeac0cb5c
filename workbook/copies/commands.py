"""The commands for copies that came back: compare, merge, check."""

import datetime
import json
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer
from rich.table import Table as Lines
from rich.text import Text

from workbook.build import SPARE_ROWS, Plan
from workbook.copies import checking, comparing, conflicts, merging, words
from workbook.copies.carrying import build_settled, carried_out
from workbook.copies.content import Content, Entry
from workbook.copies.lineage import HandOuts, Lineage
from workbook.copies.many import read_copies
from workbook.copies.reading import read_copy
from workbook.editions import EDITIONS, with_conflicts
from workbook.files.targets import writable
from workbook.findings import BadInputError, Finding
from workbook.stamps import MERGED
from workbook.tables.table import Table
from workbook.terminal import day, out, plain, say, told

AsJson = Annotated[bool, typer.Option("--json", help="Print it for other programs.")]


def compare(
    ours: Annotated[Path, typer.Argument(metavar="A", help="A workbook.")],
    theirs: Annotated[Path, typer.Argument(metavar="B", help="Another, perhaps an edited copy of it.")],
    as_json: AsJson = False,  # noqa: FBT002  typer's way
) -> None:
    """Show what was typed differently in two workbooks; exit code 1 when anything was."""
    with told(ours, "nothing was compared.") as status:
        a, b = (_without_choices(read_copy(path)) for path in (ours, theirs))
        status.update("comparing")
        found = comparing.compare(a, b, tables_of([a, b]))
    if not as_json and not found:
        for line in (line for content in (a, b) for line in words.gone_columns(content, tables_of([content]))):
            say(line)
    if as_json:
        typer.echo(json.dumps(comparing.as_json(found), ensure_ascii=False, indent=2))
    elif found:
        same = ours.name == theirs.name
        rows = ((c.title, c.row, _change(c), c.old, c.new, c.places[1] or c.places[0]) for c in found)
        _print(
            ("Table", "Row", "Column", *((str(ours), str(theirs)) if same else (ours.name, theirs.name)), "Cell"), rows
        )
    if not as_json:
        say(
            f"{len(found)} {'difference' if len(found) == 1 else 'differences'}"
            if found
            else "nothing was typed differently"
        )
    raise typer.Exit(1 if found else 0)


def _change(change: comparing.Change) -> str:
    return change.label if change.what in {"changed", "note"} else f"{change.label} {change.what}".removeprefix("the ")


def merge(
    base: Annotated[Path, typer.Argument(metavar="BASE", help="The workbook that was handed out.")],
    copies: Annotated[list[Path], typer.Argument(metavar="COPY...", help="Edited copies of it, as many as there are.")],
    output: Annotated[Path, typer.Option("-o", "--output", help="The workbook to write.")],
    also: Annotated[
        list[Path],
        typer.Option(
            help="An earlier hand-out that late copies were taken from, or a folder of hand-outs; as often as wanted."
        ),
    ] = [],  # noqa: B006  typer's way
    spare_rows: Annotated[int, typer.Option(min=1, max=20000, help="Ready rows below the data.")] = SPARE_ROWS,
    plan_date: Annotated[
        datetime.date | None,
        typer.Option(
            parser=day,
            metavar="DATE",
            help="Day of the values in the file where no plan date is typed. Default: today.",
        ),
    ] = None,
) -> None:
    """Join edited copies of one workbook; exit code 1 while there is something to decide."""
    today = datetime.datetime.now().astimezone().date()
    with told(output) as status:
        _refuse(base, copies, output)
        status.update(f"reading {len(copies) + 1} workbooks")
        first, *others = read_copies([base, *copies])
        first = nobodys(first)
        others = [_without_choices(content) for content in _named(others, copies)]
        _same_edition(first, others)
        _known_rows([first, *others])
        status.update("merging")
        tables = tables_of([first])
        lineage = Lineage(first, tables)
        lineage.take(others, HandOuts(also, copies))
        merged = merging.merge(first, lineage.taken, tables, _decided_before(output))
        made_from = MERGED + first.stamp.own if first.stamp.own else ""
        plan = Plan(
            first.edition,
            first.units,
            spare_rows,
            plan_date or today,
            made_from=made_from,
            holds=" ".join(lineage.holds),
        )
        built, said = build_settled(merged.content, output, plan, status.update)
    changes = comparing.compare(_without_choices(first), _without_choices(merged.content), tables)
    taken = sum(change.table != conflicts.TABLE for change in changes)
    known = {table.key: table for table in tables}
    for line in lineage.said:
        say(line)
    for content in (first, *others):
        for line in words.gone_columns(content, tables):
            say(f"{line}: " + ("blank" if content is first else f"taken as in {base.name}"))
    for conflict in merged.conflicts:
        table = known.get(conflict.table, Table("", "Added sheet", "", (), ()))
        say(f"to decide: {conflicts.said(conflict, table, first.units)}")
    if done := carried_out(merged.decided):
        say(f"Conflicts: {done}")
    for line in said:
        say(line)
    say(f"{output}: {len(built.pages)} sheets; {taken} {'difference' if taken == 1 else 'differences'} from {base.name}; {len(merged.conflicts)} to decide"
        + (" on the sheet Conflicts" if merged.conflicts else ""))  # fmt: skip
    raise typer.Exit(1 if merged.conflicts else 0)


def check(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="A workbook, .xlsx or .ods.")],
    as_json: AsJson = False,  # noqa: FBT002  typer's way
) -> None:
    """Show what is wrong in a workbook: formulas, values, inputs; exit code 1 when anything is."""
    with told(file, "nothing was checked.") as status:
        found = checking.check(file, status.update)
    if as_json:
        typer.echo(json.dumps(checking.as_json(found), ensure_ascii=False, indent=2))
    elif found:
        rows = (
            (f.sheet, f.cell, f"{f.column}: {f.what}" if f.column else f.what, f.found, f.expected)
            for f in checking.joined(found)
        )
        _print(("Sheet", "Cells", "What", "Found", "Expected"), rows)
    if not as_json:
        say(f"{file}: {len(found)} found" if found else f"{file}: all as it should be")
    raise typer.Exit(1 if found else 0)


def tables_of(contents: Iterable[Content]) -> list[Table]:
    """Every table that these workbooks may have."""
    found: dict[str, Table] = {}
    for content in contents:
        found |= {table.key: table for table in with_conflicts(content.edition).tables if table.key not in found}
    return list(found.values())


def _without_choices(content: Content) -> Content:
    """What a sheet is set to show at the moment says nothing about the room."""
    chosen = {table.key for table in EDITIONS[content.edition]().tables if table.chosen}
    return replace(content, tables={key: rows for key, rows in content.tables.items() if key not in chosen})


def nobodys(content: Content) -> Content:
    """What is handed out next is nobody's copy yet."""
    return replace(content, tables={key: rows for key, rows in content.tables.items() if key != "whose_copy"}, who="")


def _refuse(base: Path, copies: Sequence[Path], output: Path) -> None:
    writable(output)
    seen: list[Path] = []
    for path in (base, *copies):
        if output.exists() and path.exists() and output.samefile(path):
            expected = "another file to write: what was typed is never overwritten"
            raise BadInputError([Finding(str(output), None, "", "one of the files to merge", expected)])
        if path.exists() and any(other.samefile(path) for other in seen):
            raise BadInputError([Finding(str(path), None, "", "the same file twice", "each file once")])
        seen += [path] if path.exists() else []


def _named(contents: Sequence[Content], paths: Sequence[Path]) -> list[Content]:
    """The copies under names of their own: the files' names, with their folders where those are alike."""
    names = [path.name for path in paths]
    return [replace(content, name=path.name if names.count(path.name) == 1 else path.as_posix())
            for content, path in zip(contents, paths, strict=True)]  # fmt: skip


def _same_edition(base: Content, copies: Sequence[Content]) -> None:
    others = [copy for copy in copies if copy.edition != base.edition]
    if others:
        expected = f"the edition {base.edition}, as {base.name}"
        raise BadInputError(
            [Finding(c.name, None, "", f"a workbook of the edition {c.edition}", expected) for c in others]
        )


def _known_rows(contents: Iterable[Content]) -> None:
    """Without the column that names its rows nobody can tell which row of a copy is which of the base."""
    gone = [
        Finding(content.name, None, "", f"no column {column.label} on {table.title}", "it: rows are known by it")
        for content in contents
        for table in tables_of([content])
        for column in table.typed
        if table.is_list and column.key in table.row_name and column.key in content.lacking.get(table.key, ())
    ]
    if gone:
        raise BadInputError(gone)


def _decided_before(output: Path) -> tuple[Entry, ...]:
    """The decisions that were typed into an earlier outcome of the same merge; what is no workbook has none."""
    try:
        return read_copy(output).tables.get(conflicts.TABLE, ()) if output.is_file() else ()
    except BadInputError:
        return ()


def _print(header: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
    lines = Lines(box=None, pad_edge=False, header_style="bold")
    for title in header:
        lines.add_column(plain(title), overflow="fold")
    for row in rows:
        lines.add_row(*(Text(plain(cell), overflow="fold") for cell in row))
    out.print(lines)

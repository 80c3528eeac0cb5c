"""Where copies come from: from the base, from an earlier hand-out, or nobody knows; and which of them are one copy sent twice."""

import hashlib
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from workbook.copies.carrying import digest_of, row_label
from workbook.copies.comparing import Change, compare
from workbook.copies.content import Content
from workbook.copies.identity import declared
from workbook.copies.reading import read_copy
from workbook.copies.rebasing import HandOut, Told, rebased
from workbook.findings import BadInputError, Finding
from workbook.tables.table import Table

SUFFIXES = (".xlsx", ".ods")
TOLD_AT_MOST = 3


@dataclass
class HandOuts:
    """Earlier hand-outs that are at hand: files, or folders of them, read only once a copy asks for one.

    copies: what came back, which is no hand-out where it lies in such a folder.
    """

    paths: Sequence[Path]
    copies: Sequence[Path] = ()
    read: dict[Path, Content | None] = field(default_factory=dict)

    def find(self, stamp: str) -> Content | None:
        """The workbook that was handed out with this stamp, as it was then; one that was named may have been typed in."""
        alike = [(path, c) for path in self._files() if (c := self._content(path)) and c.stamp.own == stamp]
        whole = (content for _, content in alike if digest_of(content) == stamp)
        return next(whole, None) or next((content for path, content in alike if path in self.paths), None)

    def _files(self) -> Iterator[Path]:
        for path in self.paths:
            if path.is_dir():
                files = (p for p in path.iterdir() if p.suffix.casefold() in SUFFIXES and p.is_file())
                yield from sorted(p for p in files if not any(copy.samefile(p) for copy in self.copies))
            else:
                yield path

    def _content(self, path: Path) -> Content | None:
        """A named file must be readable; in a folder there may be others."""
        if path not in self.read:
            try:
                self.read[path] = read_copy(path)
            except BadInputError:
                if path in self.paths:
                    raise
                self.read[path] = None
        return self.read[path]


@dataclass
class Lineage:
    """The copies as merging takes them, and what people are told about where they come from.

    holds: marks of the copies that are in the outcome, those of earlier merges among them.
    """

    base: Content
    tables: Sequence[Table]
    taken: list[Told] = field(default_factory=list)
    said: list[str] = field(default_factory=list)
    holds: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self._digests: dict[int, str] = {}
        self._against: dict[int, HandOut] = {}
        self._anew: list[str] = []
        self.holds = self.base.stamp.holds.split()

    def take(self, copies: Sequence[Content], hand_outs: HandOuts) -> None:
        """Every copy against the workbook that it was taken from; BadInputError where one is not at hand."""
        once = list(self._once(copies))
        self._same_person(once)
        shared = Counter(copy.stamp.own for copy in once)
        unknown: list[Finding] = []
        for copy in once:
            own = self._own_base(copy, hand_outs, is_alone=shared[copy.stamp.own] == 1)
            if own is None:
                unknown.append(self._unknown(copy))
            else:
                if id(own) not in self._against:
                    self._against[id(own)] = HandOut(self.base, own, self.tables)
                self.taken.append(rebased(self._against[id(own)], copy))
                if kept := self.taken[-1].kept:
                    self.said.append(
                        f"{copy.name}: what was changed in it of what is handed out is not taken: {_first(kept)}"
                    )
                self.holds.append(_mark(self._digest(copy), copy.stamp.own, copy.who.casefold()))
                self.holds += [_mark(copy.stamp.own, copy.who.casefold())] if copy.who else []
        if self._anew:
            self.said.append(f"built anew on {self.base.name}, taken as copies of it: {', '.join(self._anew)}")
        if unknown:
            raise BadInputError(unknown)

    def _digest(self, content: Content) -> str:
        """Of all that stands in a workbook that stays at hand as long as this does: its stamp where it was only built."""
        if id(content) not in self._digests:
            unread = sorted(
                (key, row_label(table, entry), column, text)
                for key, table in declared(self.tables, content).items()
                for entry in content.tables.get(key, ())
                for column, text in entry.unread.items()
            )
            digest = digest_of(content)
            # A stamp knows values only; what can't be read was typed all the same.
            self._digests[id(content)] = _mark(digest, *map(repr, unread)) if unread else digest
        return self._digests[id(content)]

    def _once(self, copies: Sequence[Content]) -> Iterator[Content]:
        """The copies without those that say what another one says, by the same person."""
        first: dict[tuple[str, str, str], str] = {}
        for copy in copies:
            key = (self._digest(copy), copy.stamp.own, copy.who.casefold())
            is_base = copy.stamp.own == self.base.stamp.own
            # What was built anew of a copy holds what was typed in that copy.
            if key[0] == copy.stamp.own and (is_base or not copy.stamp.carried_from):
                self.said.append(f"{copy.name}: nothing was typed in it since it was handed out")
            elif _mark(*key) in self.holds:
                self.said.append(f"{copy.name}: is in {self.base.name} already, not counted again")
            elif key in first:
                self.said.append(
                    f"{copy.name}: holds what {first[key]} holds, counted once"
                    + (
                        ""
                        if copy.who
                        else "; if two people typed it, each names themselves on Start, and it counts twice"
                    )
                )
            else:
                first[key] = copy.name
                yield copy

    def _same_person(self, copies: Sequence[Content]) -> None:
        """Two different copies of one person: what both hold may be one thing typed once."""
        for copy in copies:
            if copy.who and _mark(copy.stamp.own, copy.who.casefold()) in self.holds:
                self.said.append(
                    f"{copy.name}: an earlier copy of {copy.who} is in {self.base.name} already; what adds up counts again"
                )
        by_who: dict[tuple[str, str], list[str]] = {}
        for copy in copies:
            if copy.who:
                by_who.setdefault((copy.who.casefold(), copy.stamp.own), []).append(copy.name)
        for names in by_who.values():
            if len(names) > 1:
                who = next(copy.who for copy in copies if copy.name == names[0])
                self.said.append(
                    f"{' and '.join(names)}: both of {who}, and not alike; what adds up counts from each, so leave the older one out"
                )

    def _own_base(self, copy: Content, hand_outs: HandOuts, *, is_alone: bool) -> Content | None:
        """The workbook that a copy was taken from; the base itself where a copy does not say."""
        if not copy.stamp.own or not self.base.stamp.own:
            which = self.base.name if copy.stamp.own else "it"
            self._doubtful(copy, f"{which} carries no stamp (an earlier version of shoalbook made it)")
            return self.base
        if copy.stamp.own == self.base.stamp.own:
            if self._digest(self.base) != self.base.stamp.own:
                self._doubtful(copy, f"{self.base.name} was typed in after it was built")
            return self.base
        from_base = copy.stamp.carried_from == self.base.stamp.own and is_alone
        for stamp in filter(None, (copy.stamp.own, "" if from_base else copy.stamp.carried_from)):
            if found := hand_outs.find(stamp):
                if digest_of(found) != stamp:
                    self.said.append(
                        f"{found.name}: was typed in after it was built; {copy.name} is held against it as it is"
                    )
                self.said.append(
                    f"{copy.name}: taken from {found.name}, not from {self.base.name};"
                    " what was typed in it since then is carried over"
                )
                return found
        if from_base:
            self._anew.append(copy.name)
        return self.base if from_base else None

    def _doubtful(self, copy: Content, why: str) -> None:
        """Nobody can tell whether the copy is older than the base: what would be undone if it were."""
        # A table that is not in the copy, or is only set to show something, undoes nothing.
        rows = {key: entries for key, entries in self.base.tables.items() if key in copy.tables}
        found = compare(replace(self.base, tables=rows), copy, self.tables)
        changes = [change for change in found if change.what != "added" and not self._is_handed(change)]
        line = f"{copy.name}: {why}, and is merged as a copy of {self.base.name}"
        if changes:
            undone = _first([_said(change) for change in changes])
            line += f". If it was taken from an earlier file, this undoes: {undone}"
            if len(changes) > TOLD_AT_MOST:
                line += f" (compare {self.base.name} {copy.name} tells all)"
        self.said.append(line)

    def _is_handed(self, change: Change) -> bool:
        """Whether it is about what is handed out, which no copy undoes: its cells, and the rows that have them."""
        columns = next(({c.key for c in t.typed if c.handed} for t in self.tables if t.key == change.table), set())
        return change.column in columns or bool(columns and change.what == "removed")

    def _unknown(self, copy: Content) -> Finding:
        return Finding(
            copy.name,
            None,
            "",
            f"a copy of another hand-out (stamp {copy.stamp.own})",
            f"a copy of {self.base.name} (stamp {self.base.stamp.own}); or name the workbook it was taken from, "
            "or the folder where your hand-outs are, with --also",
        )


def _mark(*parts: str) -> str:
    """A copy, or a person with a copy of one hand-out, as the outcome remembers it."""
    return hashlib.sha256("\n".join(parts).encode()).hexdigest()[:10]


def _first(told: Sequence[str]) -> str:
    """The first few of them, and how many more there are."""
    more = len(told) - TOLD_AT_MOST
    return "; ".join(told[:TOLD_AT_MOST]) + (f"; and {more} more" if more > 0 else "")


def _said(change: Change) -> str:
    where = ", ".join(filter(None, (change.title, change.row, change.label)))
    return f"{where} removed" if change.what == "removed" else f"{where}: {change.old} becomes {change.new}"

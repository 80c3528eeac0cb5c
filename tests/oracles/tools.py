"""What the oracles share: the room that they look at, remembering results, following links."""

import functools
import importlib
import inspect
import math
import types
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np
import pandas as pd

SAID_IN = {"temperature": " °C", "pH": "", "GH": " °dH", "KH": " °dH"}
RANGES = tuple(f"own_{p}_{end}" for p in ("temperature", "ph", "gh", "kh") for end in ("low", "high"))


@dataclass(eq=False, repr=False)
class Room:
    """Typed columns of every table: numbers float/NaN, texts str/"", dates Timestamp/NaT; index 0..n-1."""

    species: pd.DataFrame
    waters: pd.DataFrame
    tanks: pd.DataFrame
    livestock: pd.DataFrame
    foods: pd.DataFrame
    feeding: pd.DataFrame
    hatching: pd.DataFrame
    feeds: pd.DataFrame
    live_wants: pd.DataFrame
    breeding: pd.DataFrame
    maintenance: pd.DataFrame
    log: pd.DataFrame
    known: pd.DataFrame
    doses: pd.DataFrame
    settings: dict[str, Any]
    const: dict[str, float]
    body_forms: pd.DataFrame
    tasks: pd.DataFrame
    heater_sizes: list[float]
    choice: dict[str, str]  # tanks for the page of one tank, stocking, path and log; log_parameter
    plan_date: pd.Timestamp
    outage_air: float = np.nan
    constants: pd.DataFrame = field(default_factory=pd.DataFrame)
    checks: pd.DataFrame = field(default_factory=pd.DataFrame)
    references: pd.DataFrame = field(default_factory=pd.DataFrame)
    spare_rows: int = 2
    edition: str = "keeper"
    # A shop's own; its livestock is what its stock list says of animals.
    stock: pd.DataFrame = field(default_factory=pd.DataFrame)
    suppliers: pd.DataFrame = field(default_factory=pd.DataFrame)
    ledger: pd.DataFrame = field(default_factory=pd.DataFrame)
    question: dict[str, Any] = field(default_factory=dict)
    label_fields: dict[str, str] = field(default_factory=dict)
    # A club's own: what the club and the member say of columns that may be overridden, by table (the tables hold which
    # of the two counts); proposals; a short list of thirty lines.
    handed: dict[str, pd.DataFrame] = field(default_factory=dict)
    proposals: pd.DataFrame = field(default_factory=pd.DataFrame)
    compared: pd.DataFrame = field(default_factory=pd.DataFrame)
    # A plan: twelve lines, and two tanks with other values; of a room that is planned, what each tank's log has taught.
    plan_lines: pd.DataFrame = field(default_factory=pd.DataFrame)
    plan_values: pd.DataFrame = field(default_factory=pd.DataFrame)
    taught: tuple[pd.Series, ...] = ()
    # What no oracle can know of itself, noted by the harness: rows above each table, the sheet it stands on,
    # its own flags as declared, and their sentences as they stand on the sheet.
    top: dict[str, int] = field(default_factory=dict, repr=False)
    sentences: dict[tuple[str, str], list[Any]] = field(default_factory=dict, repr=False)
    sheets: dict[str, str] = field(default_factory=dict, repr=False)
    flags: dict[str, list[tuple[str, str, str]]] = field(default_factory=dict, repr=False)  # key, seriousness, title
    units: str = "metric"  # in which the sentences are wanted
    gathered: set[tuple[str, str]] = field(default_factory=set, repr=False)  # flags that another line tells
    remembered: dict[Any, Any] = field(default_factory=dict, repr=False)

    def __repr__(self) -> str:
        lists = (
            "species",
            "waters",
            "tanks",
            "livestock",
            "foods",
            "feeding",
            "hatching",
            "feeds",
            "live_wants",
            "breeding",
            "maintenance",
            "log",
            "known",
            "doses",
            "stock",
            "suppliers",
            "ledger",
        )
        rows = "\n".join(f"{key} {row}" for key in lists for row in self.rows(key))
        return (
            f"Room of {self.plan_date:%Y-%m-%d}, spare rows {self.spare_rows}\n{rows}\n{self.settings}\n"
            f"{self.choice}, air {self.outage_air}"
        )

    def _repr_pretty_(self, printer: Any, _cycle: bool) -> None:
        """As hypothesis shows a room that fails."""
        printer.text(repr(self))

    def rows(self, table: str) -> list[dict[str, Any]]:
        """The rows of a list without what is blank."""
        return [{k: v for k, v in row.items() if v != "" and v == v} for row in getattr(self, table).to_dict("records")]


Oracle = Callable[[Room], Any]


def remember(function: Callable[..., Any]) -> Callable[..., Any]:
    """Work a result out once for each room, and for whatever else is handed along."""
    name = f"{function.__module__}.{function.__qualname__}"

    @functools.wraps(function)
    def once(room: Room, *of_what: Any) -> Any:
        key = (name, *of_what) if of_what else name
        if key not in room.remembered:
            room.remembered[key] = function(room, *of_what)
        return room.remembered[key]

    return once


def remember_all() -> None:
    """Have every function of every oracle work each of its results out once a room: most are asked for by many others.

    Each gets a copy of its own, to go on with; what can be gone through a single time is made anew.
    """
    folder = Path(__file__).parent
    parts = [path.relative_to(folder).with_suffix("").parts for path in sorted(folder.rglob("*.py"))]
    modules = [importlib.import_module(".".join(("tests.oracles", *part))) for part in parts if part[-1] != "__init__"]
    for module in modules:
        for name, function in vars(module).copy().items():
            if _is_of_a_room(function):
                setattr(module, name, _remembered(function))


def _is_of_a_room(function: Any) -> bool:
    """Whether it is an oracle, or a step of one, that is not yet worked out once."""
    if not isinstance(function, types.FunctionType) or hasattr(function, "__wrapped__"):
        return False
    return next(iter(inspect.signature(function).parameters), "") == "room"


@functools.cache
def _remembered(function: Callable[..., Any]) -> Callable[..., Any]:
    @functools.wraps(function)
    def once(room: Room, *of_what: Any, **more: Any) -> Any:
        key = (function, room.units, *of_what, *more.items())
        try:
            if key in room.remembered:
                return _copied(room.remembered[key])
        except TypeError:  # a column handed along has no key
            return function(room, *of_what, **more)
        found = function(room, *of_what, **more)
        if not isinstance(found, Iterator):
            room.remembered[key] = _copied(found)
        return found

    return once


def _copied(found: Any) -> Any:
    return found.copy() if isinstance(found, pd.Series | pd.DataFrame | list | dict | set) else found


def folded(texts: Iterable[Any]) -> list[str]:
    """Names as they are compared: capitals do not matter."""
    return [str(text).casefold() for text in texts]


def rows_of(table: pd.DataFrame, key: str, names: Iterable[Any]) -> list[int | None]:
    """The row to which each name leads: the first one; None for blank or unknown names."""
    places: dict[str, int] = {}
    for row, name in enumerate(folded(table[key])):
        if name:
            places.setdefault(name, row)
    return [places.get(name) for name in folded(names)]


def through(values: pd.Series, rows: Iterable[int | None]) -> pd.Series:
    """The value in each row that a link leads to; blank (NaN, "" or NaT) where it leads nowhere."""
    values = values.reset_index(drop=True)
    blank: Any = np.nan if pd.api.types.is_numeric_dtype(values) else ""
    if pd.api.types.is_datetime64_any_dtype(values):
        blank = pd.NaT
    there = values.tolist()
    found = [blank if row is None or row != row else there[int(row)] for row in rows]
    dtype = values.dtype if isinstance(blank, str) or blank is pd.NaT else float
    return pd.Series(found, dtype=dtype)


def lookup(table: pd.DataFrame, key: str, names: Iterable[Any], wanted: str | pd.Series) -> pd.Series:
    """A column of another table (by name, or any series aligned with that table) for each of these names."""
    values = table[wanted] if isinstance(wanted, str) else wanted
    return through(values, rows_of(table, key, names))


def same(texts: pd.Series, word: str) -> pd.Series:
    """Which texts are this word; capitals do not matter."""
    return pd.Series([text == word.casefold() for text in folded(texts)], index=texts.index, dtype=bool)


def blank(series: pd.Series) -> pd.Series:
    """Which cells hold nothing."""
    return series.isna() | (series.astype(object) == "")


def counting(room: Room, table: str, key: str) -> pd.Series:
    """What a member says of something, or else what the club says."""
    own, club = room.handed[table][f"own_{key}"], room.handed[table][f"club_{key}"]
    return pd.Series(
        [theirs if mine == "" or mine != mine else mine for mine, theirs in zip(own, club, strict=True)],
        dtype=own.dtype,
    )


def overridden(table: str, *keys: str) -> dict[str, Oracle]:
    """The oracles of columns that a member may override."""

    def reckon(key: str) -> Oracle:
        return lambda room: counting(room, table, key)

    return {key: reckon(key) for key in keys}


def rounded(number: float, places: int = 0) -> float:
    """Rounding as office programs do it: halves go away from nought."""
    scale = 10.0**places
    return math.copysign(math.floor(abs(number) * scale + 0.5 + 1e-9) / scale, number) if number == number else number


def said(number: float, places: int = 0) -> str:
    """A rounded number as text: 7, not 7.0."""
    value = rounded(number, places)
    return str(int(value)) if value == int(value) else repr(round(value, places))


def come_less_lost(room: Room) -> pd.Series:
    """What the log says of each group since it was counted; of several rows of one kind in a tank, of the first."""
    groups, log = room.livestock, room.log
    kinds = list(
        zip(
            rows_of(room.tanks, "tank", groups["tank"]),
            rows_of(room.species, "species", groups["species"]),
            strict=True,
        )
    )
    entries = list(zip(rows_of(room.tanks, "tank", log["tank"]), rows_of(room.species, "species", log["species"]), log["date"],
                       log["arrivals"].fillna(0) - log["losses"].fillna(0), strict=True))  # fmt: skip
    found = []
    for row, kind in enumerate(kinds):
        counted = groups["counted_on"].fillna(groups["date_in"])[row]
        first = None not in kind and kinds.index(kind) == row
        net = sum(n for *there, day, n in entries if tuple(there) == kind and counted < day <= room.plan_date)
        found.append(float(net) if first else 0.0)
    return pd.Series(found, dtype=float)


@remember
def expected(room: Room) -> pd.Series:
    """1 for those that come in after the plan date, or into a tank that does not stand: they are not there yet."""
    came = pd.to_datetime(room.livestock["date_in"]).reset_index(drop=True)
    nowhere = same(lookup(room.tanks, "tank", room.livestock["tank"], "standing"), "no")
    return pd.Series(np.where((came > room.plan_date) | nowhere.to_numpy(dtype=bool), 1.0, np.nan), dtype=float)


@remember
def only_planned(room: Room) -> pd.Series:
    """Tanks that do not stand yet."""
    return same(room.tanks["standing"], "no").reset_index(drop=True)


@remember
def living(room: Room) -> pd.Series:
    """How many there are: as counted, with what came and without what died since then. A shop's list says it itself."""
    animals = room.livestock["animals"].astype(float)
    if room.edition == "shop":
        return animals.mask(expected(room) == 1, 0.0)
    begun = ~blank(room.livestock["tank"]) & ~blank(room.livestock["species"])
    since = (animals + come_less_lost(room)).clip(lower=0)
    return since.mask(expected(room) == 1, 0.0).where(begun)

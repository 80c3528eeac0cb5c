"""What is in the file."""

import pandas as pd

from tests.oracles import attention_summary, check_summary, stock
from tests.oracles.tools import Room, living, only_planned


def _filled(names: pd.Series) -> pd.Series:
    return pd.Series([float((names != "").sum())])


def verdict(room: Room) -> pd.Series:
    return attention_summary.verdict(room)


def tanks(room: Room) -> pd.Series:
    return _filled(room.tanks["tank"][~only_planned(room)])


def animals(room: Room) -> pd.Series:
    return pd.Series([float(living(room).sum())])


def groups(room: Room) -> pd.Series:
    return _filled(room.livestock["species"])


def species(room: Room) -> pd.Series:
    return _filled(room.species["species"])


def checks(room: Room) -> pd.Series:
    held, of = int(check_summary.held(room)[0]), int(check_summary.of(room)[0])
    wrong = f"▲ {of - held} of {of} published values come out wrong: see Sources"
    return pd.Series([f"this program reckons all {of} published values right" if held == of else wrong], dtype=object)


def stock_lines(room: Room) -> pd.Series:
    return _filled(room.stock["code"])


def stock_cost(room: Room) -> pd.Series:
    return pd.Series([float(stock.value_cost(room).sum())])


def stock_price(room: Room) -> pd.Series:
    return pd.Series([float(stock.value_price(room).sum())])


def own_values(room: Room) -> pd.Series:
    """Numbers of a member's own beside the club's."""
    frames = (frame[[key for key in frame if key.startswith("own_")]] for frame in room.handed.values())
    columns = [frame[key] for frame in frames for key in frame if pd.api.types.is_numeric_dtype(frame[key])]
    return pd.Series([float(sum(column.notna().sum() for column in columns))])


def proposed(room: Room) -> pd.Series:
    return _filled(room.proposals["proposed"])

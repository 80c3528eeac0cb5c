"""The jobs of all broods within the week, brood by brood, in the order of each brood's life."""

import math

import numpy as np
import pandas as pd

from tests.oracles import breeding
from tests.oracles.tools import Room, remember

LINES = 40
WEEK = 7


@remember
def _listed(room: Room) -> list[tuple[int, int, float, str, float]]:
    """Brood, number among its jobs, day, words and rhythm."""
    found = [(row, i, *job) for row, jobs in enumerate(breeding.jobs(room)) for i, job in enumerate(jobs)]
    return found[:LINES]


def _lines(values: list[float]) -> pd.Series:
    return pd.Series(values + [math.nan] * (LINES - len(values)), dtype=float)


def _words(values: list[str]) -> pd.Series:
    return pd.Series(values + [""] * (LINES - len(values)), dtype=object)


def event_row(room: Room) -> pd.Series:
    return _lines([row + 1.0 for row, *_ in _listed(room)])


def job_no(room: Room) -> pd.Series:
    return _lines([i + 1.0 for _, i, *_ in _listed(room)])


@remember
def job_on(room: Room) -> pd.Series:
    return _lines([on for _, _, on, *_ in _listed(room)])


def _date(value: pd.Timestamp) -> str:
    return "" if pd.isna(value) else value.strftime("%Y-%m-%d")


@remember
def task(room: Room) -> pd.Series:
    """Two spaces never stand together where words are cut out of a list."""
    table = room.breeding
    return _words(
        [
            f"{table['species'].iloc[row]} of {_date(table['date'].iloc[row])}: {' '.join(text.split())}"
            for row, _, _, text, _ in _listed(room)
        ]
    )


@remember
def tank(room: Room) -> pd.Series:
    return _words([str(room.breeding["tank"].iloc[row]) for row, *_ in _listed(room)])


@remember
def every_days(room: Room) -> pd.Series:
    return _lines([every for *_, every in _listed(room)])


@remember
def first_day(room: Room) -> pd.Series:
    return (job_on(room) - breeding.today(room)).clip(lower=0)


@remember
def days_late(room: Room) -> pd.Series:
    return (breeding.today(room) - job_on(room)).clip(lower=0)


@remember
def order(room: Room) -> pd.Series:
    """By day, behind the tasks of Maintenance."""
    return first_day(room) + 0.1 + (np.arange(LINES) + 1) / 1e6

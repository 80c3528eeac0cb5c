"""A metric file says nothing in US units, and no sentence of a US file says a measure in those of a metric one.

Looked at is every text of every cell, note, head and message. Masses in grams, particles in mm and what is dissolved in
mg/L are said so in both. A US file reckons in base units: these stand over its workings, not in sentences.
"""

import re
import zipfile
from collections.abc import Iterator
from pathlib import Path
from xml.sax.saxutils import unescape

import pytest

from tests import books, office

US = re.compile(
    r"°F|\b(?:US gal|gal|gallons?|inch|inches|ounces?|oz|pounds?|lbs?|feet|Fahrenheit)\b|\d (?:in|ft)\b(?! (?:all|small|large))|^(?:in|ft|in²|lb/ft²)$",
    re.IGNORECASE,
)
METRIC = re.compile(r"\d (?:°C|cm²?|L(?:/h)?|m|kg(?:/m²)?|litres?|metres?)(?![\w/²])")
# Sheets that say where numbers come from, as their sources do; paper is cut as it is sold.
AS_STATED = {"Constants", "Sources"}
PAPER = re.compile(r"on a sheet of (?:A4|US Letter)")
# By the design both are shown there: the volume that people quote; the rules of thumb of the trade, of inches and watts to
# a gallon, stand as they are stated.
QUOTED = {
    ("Tanks", "US gal"),
    ("Tanks", "W per US gal"),
    ("Stocking", "Inches per US gallon"),
    ("Stocking", "in per US gal"),
}
# A keeper's own words in the library give both.
BOTH = re.compile(r"\d cm \(\d+ inches\)")
TIP = re.compile(r'(?:promptTitle|prompt|errorTitle|error)="([^"]*)"')
NOTE = re.compile(r"<t(?: [^>]*)?>([^<]*)</t>")


def messages(path: Path) -> Iterator[tuple[str, str]]:
    """Every note, message of a check, heading and foot of a page."""
    with zipfile.ZipFile(path) as archive:
        for part in archive.namelist():
            xml = archive.read(part).decode(errors="replace") if part.endswith(".xml") else ""
            if part.startswith("xl/worksheets/"):
                yield from ((part, unescape(text, office.ENTITIES)) for text in TIP.findall(xml))
                yield from ((part, text) for text in re.findall(r"<(?:odd|even)(?:Header|Footer)>([^<]*)<", xml))
            elif "comment" in part or "drawing" in part or "chart" in part:
                yield from ((part, unescape(text, office.ENTITIES)) for text in NOTE.findall(xml))
                yield from ((part, unescape(text)) for text in re.findall(r"<a:t>([^<]*)</a:t>", xml))


def said(path: Path) -> Iterator[tuple[str, str]]:
    """Every text of a file and where it stands, but what is as stated elsewhere."""
    for (sheet, row, column), value in office.values(path).items():
        if isinstance(value, str) and sheet not in AS_STATED and (sheet.removesuffix(" workings"), value) not in QUOTED:
            yield f"{sheet}, row {row}, column {column}", value
    yield from messages(path)


def of_the_other(path: Path, units: str) -> list[str]:
    """Texts that say something in the units of the other system."""
    other = US if units == "metric" else METRIC
    return [
        f"{where}: {found[0]} in {text[:120]}"
        for where, text in said(path)
        if not PAPER.search(text) and (found := other.search(BOTH.sub("", text)))
    ]


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("edition", ["keeper", "shop", "club"])
def test_no_text_says_units_of_the_other_system(edition: str, units: str) -> None:
    found = of_the_other(books.book(edition, units), units)
    assert not found, "\n".join(found[:20])


def test_a_text_of_the_other_system_would_be_found() -> None:
    """In a US file the metric units are there to be found, and the other way round."""
    assert len(of_the_other(books.book("keeper", "us"), "metric")) > 100
    assert len(of_the_other(books.book("keeper", "metric"), "us")) > 100

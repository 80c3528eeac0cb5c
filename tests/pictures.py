"""Pictures of a built workbook, made from the real file: python -m tests.pictures [FILE FOLDER].

LibreOffice prints every sheet to PDF, pdftoppm turns pages into PNG. Without arguments the demo of each edition is
built and the first page of each sheet that the README shows is kept under output/pictures/.
"""

import datetime
import subprocess
import sys
import tempfile
from pathlib import Path

from workbook.build import Plan, build, templates_folder

KEPT = Path("output/pictures")
DAY = datetime.date(2026, 10, 5)
# Sheets shown in the README, found by the words in their footer; sheets of labels have none.
LABELS = ""
SHOWN = {
    "keeper": ("Room", "Attention", "Tank", "This week", "How this workbook thinks"),
    "shop": ("Stock list", "Order", "For a buyer", LABELS),
    "club": ("Compatibility", "Proposals"),
}


def printed(file: Path, folder: Path) -> Path:
    """The workbook as LibreOffice prints it."""
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as profile:
        subprocess.run(
            ["soffice", f"-env:UserInstallation=file://{profile}", "--headless", "--norestore",
             "--convert-to", "pdf", "--outdir", str(folder), str(file)],
            check=True, capture_output=True, timeout=300,
        )  # fmt: skip
    return folder / f"{file.stem}.pdf"


def pages(file: Path, folder: Path, dots_per_inch: int = 80) -> list[Path]:
    """Every printed page of a workbook as a PNG file."""
    pdf = printed(file, folder)
    subprocess.run(["pdftoppm", "-r", str(dots_per_inch), "-png", str(pdf), str(folder / "page")], check=True)
    return sorted(folder.glob("page-*.png"))


def footed(words: str) -> str:
    """The sheet that a page belongs to, from its footer; "" where it has none."""
    footer = [line for line in words.splitlines() if "·" in line and "Page" in line]
    return footer[-1].split("·")[1].split("Page")[0].strip() if footer else ""


def words_of(pdf: Path, *pages_wanted: str) -> str:
    """The text of pages; a form feed ends each."""
    return subprocess.run(
        ["pdftotext", "-layout", *pages_wanted, str(pdf), "-"], check=True, capture_output=True, text=True
    ).stdout


def sheet_of(pdf: Path, page: int) -> str:
    """The sheet that a page belongs to, from its footer."""
    return footed(words_of(pdf, "-f", str(page), "-l", str(page)))


def keep_shown(edition: str) -> None:
    """The first page of each sheet of an edition that the README shows."""
    named = templates_folder() / f"{edition}-demo"
    with tempfile.TemporaryDirectory() as scratch:
        file = Path(scratch) / f"{edition}.xlsx"
        build(named if named.is_dir() else templates_folder() / "demo", file, Plan(edition, plan_date=DAY))
        pdf = printed(file, Path(scratch))
        sheets = [footed(words) for words in words_of(pdf).split("\f")]
        KEPT.mkdir(parents=True, exist_ok=True)
        for sheet in SHOWN[edition]:
            page, kept = str(sheets.index(sheet) + 1), KEPT / (sheet or "Labels").lower().replace(" ", "-")
            subprocess.run(
                ["pdftoppm", "-r", "80", "-f", page, "-l", page, "-singlefile", "-png", str(pdf), str(kept)], check=True
            )
            print(f"{kept}.png")


def main() -> None:
    """Pictures of the file named, or those of the README."""
    if len(sys.argv) > 2:
        for picture in pages(Path(sys.argv[1]), Path(sys.argv[2])):
            print(picture)
        return
    for edition in SHOWN:
        keep_shown(edition)


if __name__ == "__main__":
    main()

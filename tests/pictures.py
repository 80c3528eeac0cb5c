"""Pictures of a built workbook, made from the real file: python -m tests.pictures [FILE] [FOLDER].

LibreOffice prints every sheet to PDF, pdftoppm turns the pages into PNG. Without arguments the demo is built first and
the first page of the sheets shown in the README is kept under output/pictures/.
"""

import datetime
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from workbook.build import Plan, build, templates_folder

KEPT = Path("output/pictures")
# Sheets shown in the README, found by the words in their footer.
SHOWN = ("Attention", "Overlap", "Stocking", "This week")


def pages(file: Path, folder: Path, dots_per_inch: int = 80) -> list[Path]:
    """Every printed page of a workbook as a PNG file."""
    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as profile:
        subprocess.run(
            ["soffice", f"-env:UserInstallation=file://{profile}", "--headless", "--norestore",
             "--convert-to", "pdf", "--outdir", str(folder), str(file)],
            check=True, capture_output=True, timeout=300,
        )  # fmt: skip
    pdf = folder / f"{file.stem}.pdf"
    subprocess.run(["pdftoppm", "-r", str(dots_per_inch), "-png", str(pdf), str(folder / "page")], check=True)
    return sorted(folder.glob("page-*.png"))


def sheet_of(pdf: Path, page: int) -> str:
    """The sheet that a page belongs to, from its footer."""
    words = subprocess.run(
        ["pdftotext", "-layout", "-f", str(page), "-l", str(page), str(pdf), "-"],
        check=True, capture_output=True, text=True,
    ).stdout  # fmt: skip
    footer = [line for line in words.splitlines() if "·" in line and "Page" in line]
    return footer[-1].split("·")[1].split("Page")[0].strip() if footer else ""


def keep_shown(file: Path) -> None:
    """The first page of each sheet that the README shows."""
    with tempfile.TemporaryDirectory() as scratch:
        found = pages(file, Path(scratch))
        seen: set[str] = set()
        KEPT.mkdir(parents=True, exist_ok=True)
        for number, picture in enumerate(found, 1):
            sheet = sheet_of(Path(scratch) / f"{file.stem}.pdf", number)
            if sheet in SHOWN and sheet not in seen:
                seen.add(sheet)
                shutil.copy(picture, KEPT / f"{sheet.lower().replace(' ', '-')}.png")
                print(KEPT / f"{sheet.lower().replace(' ', '-')}.png")


def main() -> None:
    """Pictures of the file named, or the README's pictures of the demo."""
    if len(sys.argv) > 2:
        for picture in pages(Path(sys.argv[1]), Path(sys.argv[2])):
            print(picture)
        return
    file = Path(sys.argv[1]) if len(sys.argv) > 1 else Path("output/keeper.xlsx")
    if len(sys.argv) == 1:
        build(templates_folder() / "demo", file, Plan(plan_date=datetime.date(2026, 10, 5)))
    keep_shown(file)


if __name__ == "__main__":
    main()

"""What people do to the rows of a sheet, done by LibreOffice itself: sort, delete, insert, clear; then it reckons anew."""

import contextlib
import subprocess
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import NamedTuple

from tests import office

# Now and then LibreOffice waits for ever before it begins with a macro; started anew it does not.
PATIENCE = (120, 180, 240)
# LibreOffice runs this from the profile that it is started with; each line of the steps is one command.
MACRO = """<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE script:module PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "module.dtd">
<script:module xmlns:script="http://openoffice.org/2000/script" script:name="Hands" script:language="StarBasic">
Sub Work(source As String, jobs As String)
  For Each job In Split(jobs, "#")
    parts = Split(job, "=")
    One(source, parts(0), parts(1))
  Next
End Sub

Sub One(source As String, target As String, steps As String)
  Dim hidden(0) As New com.sun.star.beans.PropertyValue
  hidden(0).Name = "Hidden"
  hidden(0).Value = True
  ' A fault would wait for somebody to press a button.
  On Error GoTo Failed
  book = StarDesktop.loadComponentFromURL(source, "_blank", 0, hidden())
  ' Once at the end is enough.
  book.enableAutomaticCalculation(False)
  For Each line In Split(steps, ";")
    part = Split(line, "|")
    sheet = book.Sheets.getByName(part(1))
    Select Case part(0)
    Case "delete"
      sheet.Rows.removeByIndex(CLng(part(2)) - 1, 1)
    Case "insert"
      sheet.Rows.insertByIndex(CLng(part(2)) - 1, 1)
    Case "clear"
      sheet.getCellRangeByName(part(2)).clearContents(1 + 2 + 4)
    Case "sort"
      Sorted(sheet.getCellRangeByName(part(2)), CLng(part(3)))
    Case "fit"
      sheet.getCellRangeByName(part(2)).Rows.OptimalHeight = True
    Case "type"
      sheet.getCellRangeByName(part(2)).setFormula(part(3))
    End Select
  Next
  book.calculateAll()
  Dim form(0) As New com.sun.star.beans.PropertyValue
  form(0).Name = "FilterName"
  form(0).Value = "Calc MS Excel 2007 XML"
  book.storeToURL(target, form())
Failed:
  book.close(True)
End Sub

Sub Sorted(cells, column As Long)
  Dim by(0) As New com.sun.star.table.TableSortField
  by(0).Field = column
  by(0).IsAscending = False
  Dim how(1) As New com.sun.star.beans.PropertyValue
  how(0).Name = "SortFields"
  how(0).Value = by()
  how(1).Name = "ContainsHeader"
  how(1).Value = False
  cells.sort(how())
End Sub
</script:module>
"""
LIBRARY = """<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE library:library PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "library.dtd">
<library:library xmlns:library="http://openoffice.org/2000/library" library:name="Standard" library:readonly="false" library:passwordprotected="false">
 <library:element library:name="Hands"/>
</library:library>
"""


class Step(NamedTuple):
    """One command: delete or insert a row, clear or sort a range (by its column of that number, downwards),
    fit the rows of a range to their texts, type."""

    does: str
    sheet: str
    where: str | int
    what: str | int = ""


def worked(source: Path, jobs: Mapping[Path, Iterable[Step]], folder: Path) -> None:
    """Each of these files as LibreOffice saves the source once its steps were done one after the other; all in one start."""
    profile = folder / "hands"
    own = f"-env:UserInstallation={profile.as_uri()}"
    office.make_profile(profile, always=True, locale="en-US")
    # Its first start fills a profile with an empty library of macros.
    office.run([str(office.soffice()), own, "--headless", "--terminate_after_init"])
    basic = profile / "user" / "basic"
    (basic / "Standard" / "script.xlb").write_text(LIBRARY, encoding="utf-8")
    (basic / "Standard" / "Hands.xba").write_text(MACRO, encoding="utf-8")
    for seconds in PATIENCE:
        left = {path: steps for path, steps in jobs.items() if not path.exists()}
        if not left:
            return
        told = "#".join(
            f"{path.as_uri()}={';'.join('|'.join(map(str, s)) for s in steps)}" for path, steps in left.items()
        )
        call = f'macro:///Standard.Hands.Work("{source.as_uri()}","{told}")'
        with contextlib.suppress(subprocess.TimeoutExpired):
            office.run([str(office.soffice()), own, "--headless", "--norestore", call], seconds)
    if missing := [path.name for path in jobs if not path.exists()]:
        raise RuntimeError(f"LibreOffice made nothing of {source.name}: no {', '.join(missing)}")

"""A small invented room in trouble, as CSV text, and the edits that mend everything in it."""

import csv
import dataclasses
import datetime
from pathlib import Path

from workbook.build import read
from workbook.cells.pages import Records
from workbook.editions import EDITIONS, Edition
from workbook.tables.table import Table

TEMPLATES = Path(__file__).parent.parent / "templates"

# Only the columns that hold something; names, places and figures are invented.
FILES = {
    "settings": """
        key,value
        room_name,Small room (invented)
        plan_date_typed,2026-04-15
        altitude,100
        room_temperature,18
        range_choice,reported
        nitrate_target,25
        nitrate_act,50
        energy_price,0.3
        currency,EUR
        lead_days,5""",
    "species": """
        species,scientific,kind,adult_length,body_form,group_min,group_best,volume_min,zone,swim,bottom_room,temper,bites_fins,long_fins,mouth_share,eats_shrimp,eats_snails,food_size,temperature_low,temperature_high,ph_low,ph_high,gh_low,gh_high,kh_low,kh_high,spawning,eats_own_eggs,hatch_temperature,days_to_hatch,days_to_swim,first_food
        Reed tetra,,fish,4,fusiform,6,12,60,middle,calm,no,1,no,no,0.2,young,no,1,22,27,6,7.6,3,14,1,9,egg scatterer,yes,25,1.5,4,infusoria
        Bolt barb,,fish,6,fusiform,6,10,80,middle,active,no,2,yes,no,0.25,young,no,1.5,20,26,6,8,4,16,2,10,,,,,,
        Veil perch,,fish,8,short and deep,1,1,40,all,sedentary,holds ground,3,no,yes,0.4,yes,no,2,21,27,6.5,8,4,18,2,12,,,,,,
        Glass shrimp,,shrimp,2.5,shrimp,8,20,20,bottom,calm,no,1,no,no,0,no,no,0.3,18,26,6.5,8,5,18,2,12,egg carrier,no,24,30,1,as adults""",
    "own_ranges": """
        species,counts,own_temperature_low,own_temperature_high,own_note
        Reed tetra,own,21,26,Two winters.""",
    "waters": """
        water,water_kind,temperature,ph,gh,kh,nitrate,ammonia,first_water,second_water,target_gh,batch
        Tap,tap,22,7.2,8,5,5,0,,,,
        Well,well,12,7.6,16,10,30,0.1,,,,
        Blend,mixed,,,,,,,Well,Tap,12,60""",
    "tanks": """
        tank,place,shape,measured,length,width,height,second_side,glass,water_below_rim,substrate_depth,rock,wood,water,temperature,lid,filter_flow,planted,cycled,change_share,change_interval,floor_checked,meals,fasting_days
        Long,Hall,box,outside,120,45,45,,1,4,4,3,1,Tap,24,yes,1000,some,yes,0.3,7,yes,2,1
        Drum,Hall,cylinder,outside,56,,50,,0.8,4,3,2,0,Tap,23,yes,500,some,yes,0.3,7,yes,2,1
        Bow,Study,bow front,outside,80,35,40,8,0.6,3,4,1,0.5,Tap,24,no,400,dense,no,0.3,7,yes,2,1""",
    "livestock": """
        tank,species,animals,males,females,length_now,date_in,quarantine_until,feed_factor
        Long,Reed tetra,10,,,,2025-06-01,,
        Long,Bolt barb,8,3,5,5.5,2025-06-01,,1.2
        Bow,Veil perch,1,1,,,2026-04-01,2026-04-29,
        Bow,Glass shrimp,12,,,,2025-09-01,,
        Drum,Reed tetra,4,,,,2026-01-10,,""",
    "foods": """
        food,food_form,protein,dry_matter,spoon_mass,particle,pack_price,pack_mass,stock
        Granules,granule,0.45,0.93,2.7,0.8,8,100,60
        Frozen krill,frozen,0.08,0.15,5,1.2,4,100,0
        Powder,powder,0.4,0.94,2,0.1,6,40,30""",
    "feeding": """
        tank,food,share
        Long,Granules,0.8
        Drum,Frozen krill,1
        Bow,Granules,1""",
    "hatching": """
        cysts,food,stock,temperature,vessel,vessels,ph
        Tin,Powder,0,24,1,1,8.2""",
    "feeds": """
        feed,hour,share,cysts
        Morning,8,0.5,Tin
        Evening,19,0.4,Tin""",
    "live_wants": """
        tank,nauplii,live_note
        Long,20000,Counted""",
    "breeding": """
        species,tank,date,eggs,water_temperature,adults_out,grow_tank,fry_counted,counted_on,done_to
        Reed tetra,Long,2026-04-14,80,,,,,,
        Glass shrimp,Bow,2026-03-10,20,24,,Drum,25,2026-04-12,""",
    "log": """
        date,tank,temperature,ph,kh,ammonia,nitrite,nitrate,litres_changed,task,work
        2026-04-01,Long,24,7.2,5,0,0,12,,,
        2026-04-11,Long,24.5,7.3,,,,18,55,Change water,wiped panes
        2026-04-12,Drum,23,7.3,5,0,0,,,,
        2026-04-14,Bow,24,7.4,5,0.3,0.1,8,,,""",
    "maintenance": """
        task,tank,every_days,last_done,minutes,supplies
        Change water,Long,7,2026-03-20,40,Conditioner
        Wipe the panes,all,14,2026-03-30,15,
        Clean the filter,Drum,30,2026-04-10,20,Brush""",
}  # fmt: skip
FEW, FEWER = 7, 5


def _rows(text: str) -> list[list[str]]:
    return list(csv.reader(line.strip() for line in text.strip().splitlines()))


def write(folder: Path) -> Path:
    """The room as a folder of CSV files, with every file and column of the blank starting set, and its own library."""
    folder.mkdir(parents=True, exist_ok=True)
    templates = [
        *(TEMPLATES / "blank").glob("*.csv"),
        *(TEMPLATES / "shared" / f"{key}.csv" for key in ("foods", "species")),
    ]
    assert FILES.keys() <= {template.stem for template in templates}
    for template in templates:
        columns, *defaults = _rows(template.read_text(encoding="utf-8"))
        header, *rows = _rows(FILES.get(template.stem, ",".join(columns)))
        lost = set(header) - set(columns)
        assert not lost, f"{template.name} has no columns {lost}"
        if template.stem == "settings":
            rows = list((dict(defaults) | dict(rows)).items())
        with (folder / template.name).open("w", encoding="utf-8", newline="") as file:
            writer = csv.DictWriter(file, columns, restval="")
            writer.writeheader()
            writer.writerows(dict(zip(header, row, strict=True)) for row in rows)
    return folder


def records(folder: Path) -> Records:
    """The room as the builder reads it."""
    return read(write(folder), EDITIONS["keeper"]())


def short_edition(name: str = "keeper") -> Edition:
    """An edition with short lists: an engine in plain Python is slow."""
    edition = EDITIONS[name]()
    # Of these, others take it that all lines are there.
    grids = ("mates", "pairs") if name == "keeper" else ("mates", "pairs", "compared", "labels")

    def short(block: object) -> object:
        if not isinstance(block, Table):
            return block
        # a week has seven lines, and no fewer; a grid has as many rows as columns
        lines = FEWER if block.lines > FEW and not block.key.startswith(grids) else block.lines
        return dataclasses.replace(block, lines=lines, spare_rows=1)

    sheets = (
        dataclasses.replace(sheet, blocks=tuple(short(block) for block in sheet.blocks)) for sheet in edition.sheets
    )
    return dataclasses.replace(edition, sheets=tuple(sheets))


# What a person would type: defined name of the column, row of the table, value.
MENDED = (
    ("species_own_temperature_low_degc", 0, 22),
    ("waters_nitrate_mg_per_l", 1, 5),
    ("waters_ammonia_mg_per_l", 1, 0),
    ("tanks_cycled", 2, "yes"),
    ("livestock_tank", 2, "Drum"),  # the perch leaves the shrimp
    ("livestock_tank", 4, "Long"),  # four tetras join ten
    ("foods_stock_g", 1, 100),
    ("feeding_share", 0, 1),
    ("feeding_food", 2, "Powder"),
    ("hatching_stock_g", 0, 50),
    ("hatching_temperature_degc", 0, 28),
    ("hatching_vessels", 0, 4),
    ("feeds_share", 1, 0.5),
    ("breeding_adults_out", 0, "yes"),
    ("breeding_grow_tank", 0, "Long"),
    ("breeding_done_to", 0, datetime.date(2026, 4, 14)),
    ("breeding_eggs", 1, 30),
    ("breeding_grow_tank", 1, "Bow"),
    ("breeding_done_to", 1, datetime.date(2026, 4, 14)),
    ("breeding_fry_counted", 1, 0),
    ("log_nitrate_mg_per_l", 1, 10),
    ("log_nitrate_mg_per_l", 3, 5),
    ("log_ammonia_mg_per_l", 3, 0),
    ("log_nitrite_mg_per_l", 3, 0),
    ("maintenance_last_done", 0, datetime.date(2026, 4, 12)),
    ("maintenance_last_done", 1, datetime.date(2026, 4, 10)),
)

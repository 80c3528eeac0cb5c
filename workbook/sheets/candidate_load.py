"""The load of one more animal on the chosen tank, and how many more it could take."""

from dataclasses import replace

from workbook.equations import headroom, metabolism, space
from workbook.sheets.filters import MANY, MEASURES
from workbook.tables import Computed, Look, logic, text
from workbook.tables.columns import Column
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import taken_as
from workbook.tables.template import here, of, quoted

ROW = "sought.row"
HOW_MANY = Look("How many", 9, "0")
FITS = Look("Any number", 9, "0%", measure="fit")
LOAD_SHARE = Look(show="0%", width=9, measure="load")
PART = Look(working=True, show="0.00%")
GROUPS = {"min": "With the smallest group: share of each limit", "best": "With the best group: share of each limit"}
ROOMS = filled("{first}:{last}", first=here(f"room_{MEASURES[0][0]}"), last=here(f"room_{MEASURES[-1][0]}"))
# What counts as no limit.
NO_LIMIT = "10^6"

BREATH = metabolism.routine_oxygen(
    resting=metabolism.resting_oxygen(mass="{species.adult_mass}", temperature="{sought.temperature}")
)
SWIM_LENGTHS = ("const.swim_active", "const.swim_calm", "const.swim_sedentary")
LENGTHS_TO_SWIM = logic(
    '_xlfn.SWITCH({species.swim}&"","active",{const.swim_active},"calm",{const.swim_calm},{const.swim_sedentary})', "1"
)
SIDE_OF_FLOOR = logic(
    '_xlfn.SWITCH({species.bottom_room}&"","holds ground",{const.bottom_holds},"social",{const.bottom_social},0)', "1"
)
FLOOR = space.bottom_room(adult_length="{adult_length}", factor=SIDE_OF_FLOOR, animals="1")
LENGTH_TO_SWIM = space.swim_length(adult_length="{adult_length}", multiple=LENGTHS_TO_SWIM)


def room_by(measure: str, label: str, of_tank: str) -> Computed:
    """How many whole animals; no limit where one does not raise the measure. Rounded first: 2.9999999999 is 3."""
    by_one = here(f"{of_tank}_each")
    return Computed(
        f"room_{measure}",
        label,
        logic(
            "IF({by_one}>0,INT(MIN({no_limit},MAX(0,ROUND({animals},9)))),{no_limit})",
            "1",
            by_one=by_one,
            no_limit=NO_LIMIT,
            animals=headroom.animals_left(full=of("sought", f"{of_tank}_full"), each=by_one),
        ),
        look=MANY,
    )


def all_or_none(measure: str, label: str) -> Computed:
    """Room by what one animal wants of the whole tank: any number fits, or none."""
    share = here(f"{measure}_share")
    return Computed(
        f"room_{measure}",
        label,
        logic("IF(ROUND({share},9)>1,0,{no_limit})", "1", share=share, no_limit=NO_LIMIT),
        look=MANY,
    )


TO_ADD = {
    "min": Computed(
        "add_min",
        "To add",
        logic("MAX(1,{group_min}-{present})", "1"),
        help="To what is there; at least one.",
    ),
    "best": Computed("add_best", "To add", logic("MAX({add_min},{species.group_best}-{present})", "1")),
}


def shares(key: str) -> tuple[Column, ...]:
    """Each limit's share with so many more, of the measures that they raise; shares as on Stocking."""
    look = replace(LOAD_SHARE, group=GROUPS[key])
    return (
        replace(TO_ADD[key], look=Look(GROUPS[key], 8, "0")),
        Computed(
            f"nitrogen_{key}",
            "Water change",
            logic("MAX(0,{sought.nitrate_full}+{add_*}*{nitrate_each})", "1", each=key),
            look=look,
        ),
        Computed(
            f"oxygen_{key}",
            "Oxygen",
            logic("{sought.oxygen_full}+{add_*}*{oxygen_each}", "1", each=key),
            look=look,
        ),
        Computed(
            f"bottom_{key}",
            "Bottom room",
            logic("{sought.bottom_full}+{add_*}*{bottom_each}", "1", each=key),
            look=look,
        ),
        Computed(
            f"binding_{key}",
            "Fullest of all",
            logic(
                "MAX({nitrogen_*}:{bottom_*},{swim_share},{volume_share},{sought.swim_full},{sought.volume_full})",
                "1",
                needs=("more", "nitrogen_*"),
                each=key,
            ),
            look=replace(look, measure="fit"),
            help="Swim room and volume too, its own and the residents': as Stocking will show it.",
        ),
        Computed(
            f"asks_{key}",
            "of what it raises",
            logic(
                "MAX({nitrogen_*},{oxygen_*},IF({bottom_each}>0,{bottom_*},0),{swim_share},{volume_share})",
                "1",
                needs=("more", "nitrogen_*", "oxygen_*", "bottom_*"),
                each=key,
            ),
            look=replace(look, measure="fit"),
            help="By this it is judged: what others want of the tank is not its fault.",
        ),
    )


def for_its_breath(share: str) -> Formula:
    """The share that an animal takes of a limit, of which the tank knows what 1 mg/h of oxygen takes."""
    return taken_as(logic("{breath}*{share}", "mg/h", share=share), "1")


LOAD = (
    Computed(
        "present",
        "In the tank",
        logic("SUMIFS({residents.animals[]},{residents.species_row[]},{line})", "1", needs=(ROW,)),
        look=replace(HOW_MANY, width=8),
    ),
    Computed(
        "breath",
        "Oxygen draw of one",
        BREATH,
        look=Look(working=True, show="0.000"),
        help="A grown one, at the tank's set temperature.",
    ),
    Computed("nitrate_each", "Of the water change, each", for_its_breath("{sought.nitrate_by_breath}"), look=PART),
    Computed("oxygen_each", "Of the oxygen, each", for_its_breath("{sought.oxygen_by_breath}"), look=PART),
    Computed("bottom_each", "Of the bottom, each", logic("{floor}/{sought.plan_area}", "1", floor=FLOOR), look=PART),
    room_by("nitrogen", "Room by water change", "nitrate"),
    room_by("oxygen", "Room by oxygen", "oxygen"),
    all_or_none("swim", "Room by swim room"),
    room_by("bottom", "Room by bottom room", "bottom"),
    all_or_none("volume", "Room by volume"),
    Computed(
        "more",
        "More it could take",
        logic("MIN({rooms})", "1", needs=tuple(f"room_{key}" for key, _ in MEASURES), rooms=ROOMS),
        look=replace(HOW_MANY, show=MANY.show),
    ),
    Computed(
        "limit",
        "Then the limit is",
        logic(
            'IF({more}={no_limit},"none",CHOOSE(MATCH({more},{rooms},0),{measures}))',
            needs=("more",),
            no_limit=NO_LIMIT,
            rooms=ROOMS,
            measures=[quoted(label) for _, label in MEASURES],
        ),
        kind=text(),
        look=Look("How many", 14),
    ),
    Computed(
        "swim_share",
        "Swim room",
        logic(
            "IF(ISNUMBER({species.length_min}),{species.length_min},{length_to_swim})"
            "*(1-{const.nominal_allowance})/{sought.swim_length}",
            "1",
            needs=("sought.swim_length", "adult_length", "species.swim", "const.nominal_allowance", *SWIM_LENGTHS),
            length_to_swim=LENGTH_TO_SWIM,
        ),
        look=FITS,
        help="Length it wants against the longest swim, as on Stocking.",
    ),
    Computed(
        "volume_share",
        "Volume",
        logic("{species.volume_min}*(1-{const.nominal_allowance})/{sought.net_volume}", "1"),
        look=FITS,
        help="Smallest tank it wants against the net volume, as on Stocking.",
    ),
    *shares("min"),
    *shares("best"),
    Computed(
        "apart_min",
        "Fullest but for water change",
        logic(
            "MAX({oxygen_min},IF({bottom_each}>0,{bottom_min},0),{swim_share},{volume_share})",
            "1",
            needs=("more", "bottom_min"),
        ),
        look=FITS,
        help="With the smallest group, of what it raises.",
    ),
    Computed(
        "change_to",
        "Change that would do",
        logic("ROUNDUP(ROUND({sought.change_share}*{nitrogen_min}*2*10,6),0)/2/10", "1"),
        look=Look("How many", 9, "0%"),
        help="Each time, with the smallest group; to the next 5 %.",
    ),
)

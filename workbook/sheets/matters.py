"""Matters: what the flags of all sheets ask for, one line for each cause and place.

A flag stands in its row. What has one cause in one tank is one matter: the three flags about its nitrate, the five
groups beside one hostile fish. Attention lists matters, and what it says of a tank is all that anybody says of it.
"""

from collections.abc import Sequence

from workbook.sheets.changes import CHANGES
from workbook.sheets.feeding import BY_TANK as FEEDING_BY_TANK
from workbook.sheets.live_food import BY_TANK as NAUPLII_BY_TANK
from workbook.sheets.overlap import OVERLAP
from workbook.sheets.parameters import PARAMETERS
from workbook.sheets.readings import READINGS
from workbook.sheets.stocking import STOCKING
from workbook.sheets.tanks import TANKS
from workbook.tables import Computed, Flag, Look, Pulled, Table, logic, pulled, text
from workbook.tables.columns import SERIOUSNESS, Column
from workbook.tables.completing import ALSO, ARROW, SEPARATOR
from workbook.tables.formula import filled
from workbook.tables.idioms import after, all_said, as_sentence, at_the_end, before, joined, of_run, piece
from workbook.tables.template import column, here, quoted

COUNT, WORDS = Look(working=True, show="0"), Look(working=True, width=18)
BY_KEY = {table.key: table for table in (READINGS, STOCKING, CHANGES, TANKS, OVERLAP, FEEDING_BY_TANK, NAUPLII_BY_TANK)}


def each_parameter(*names: str) -> tuple[str, ...]:
    """The flags of that kind of each of the four parameters."""
    return tuple(f"overlap.{p.key}_{name}" for name in names for p in PARAMETERS)


# The matters of a tank itself, each with the flags that belong to it.
OF_TANK: dict[str, tuple[str, tuple[str, ...]]] = {
    "cycling": (
        "Ammonia, nitrite, cycling",
        (
            "readings.toxic_act",
            "readings.nitrite_seen",
            "tanks.not_cycled",
            "readings.ammonia_seen",
            "tanks.cycled_unknown",
        ),
    ),
    "load": (
        "Oxygen and floor",
        ("stocking.short_of_oxygen", "stocking.bottom_full", "stocking.nearly_full", "stocking.mass_unknown"),
    ),
    "carbonate": ("Carbonate and gas", ("changes.kh_gone", "changes.kh_thin", "readings.gas_high")),
    "water": (
        "Water that suits all",
        each_parameter("clash", "outside", "narrow", "read", "no_data_flag"),
    ),
    "source": ("Water it is filled with", tuple(f"overlap.{p.key}_source" for p in PARAMETERS[1:])),
    "nitrate": (
        "Nitrate",
        (
            "readings.nitrate_too_high",
            "stocking.nothing_holds",
            "stocking.nitrate_act",
            "readings.nitrate_high",
            "stocking.nitrate_watch",
            "changes.more_nitrate",
            "changes.less_nitrate",
        ),
    ),
    "gear": (
        "Filter, heater, stand",
        ("tanks.slow_filter", "tanks.floor", "tanks.strong_filter", "tanks.big_heater"),
    ),
    "feeding": ("Feeding plan", ("feeding_tanks.no_food", "feeding_tanks.shares_off", "live_tanks.no_feed")),
    "data": (
        "Not known of this tank",
        (
            "tanks.no_height",
            "tanks.no_net_volume",
            "tanks.no_volume",
            "tanks.no_plan",
            "tanks.water_unknown",
            "tanks.too_large",
            "tanks.thick_glass",
            "tanks.too_much_measured",
            "tanks.no_filled_mass",
            "readings.never_tested",
            "readings.old_test",
        ),
    ),
}


def shown_here(flag: str) -> str:
    """The key under which another table's flag stands here."""
    return flag.replace(".", "_")


def flag_of(flag: str) -> Flag:
    """The flag as its table declares it."""
    table, _, key = flag.partition(".")
    found = BY_KEY[table][key]
    if not isinstance(found, Flag):
        raise TypeError(f"{flag} is no flag")
    return found


def matter(key: str, title: str, flags: Sequence[str]) -> tuple[Column, ...]:
    """Several flags of a tank as one line: as serious as the worst of them, with its remedy."""
    by_level = {level: [shown_here(f) for f in flags if flag_of(f).seriousness == level] for level in SERIOUSNESS}
    keys = [name for level in SERIOUSNESS for name in by_level[level]]
    parts = ((f'{here(name)}<>""', before(here(name), ARROW, 2)) for name in keys)
    columns: list[Column] = [
        *(Pulled(shown_here(flag), via="tanks", of=flag, label=f"{flag_of(flag).title}: said") for flag in flags),
        Computed(f"{key}_why", f"{title}: why", joined(*parts, between=ALSO, letters=9999), kind=text(), look=WORDS),
        Computed(f"{key}_all", f"{title}: said", all_said(map(here, keys), SEPARATOR), kind=text(), look=WORDS),
        Computed(f"{key}_first", f"{title}: worst", piece(here(f"{key}_all"), "1", SEPARATOR), kind=text(), look=WORDS),
        Computed(f"{key}_do", f"{title}: do", after(here(f"{key}_first"), ARROW), kind=text(), look=WORDS),
    ]
    raised = {level: "&".join(map(here, names)) for level, names in by_level.items() if names}
    worse: list[str] = []
    for level, those in raised.items():
        tests = ['{standing}<>"no"', f'{those}<>""', *(f'{other}=""' for other in worse)]
        columns.append(
            Flag(
                f"{key}_{level}",
                title,
                seriousness=level,
                copes=True,
                when=filled("AND({tests})", tests=tests),
                why=here(f"{key}_why"),
                do=here(f"{key}_do"),
            )
        )
        worse.append(those)
    return tuple(columns)


# What the roll adds up of a tank's groups: key, label, and whether it is words.
OF_GROUPS = (
    ("company_groups", "Groups in wrong company"),
    ("company_now", "Of these in danger"),
    ("temper_groups", "Groups gentler than the rest"),
    ("temper_now", "Of these far gentler"),
    ("size_groups", "Groups that want a larger tank"),
    ("size_now", "Of these in one far too small"),
    ("quarantine_groups", "Groups not in proper quarantine"),
    ("quarantine_now", "Of these not apart"),
)
SAID_OF_GROUPS = ("company", "temper", "size", "quarantine")

ADDED_UP: tuple[Column, ...] = (
    Pulled("residents", via="tanks", of="company.residents"),
    Pulled("run_end", via="tanks", of="company.run_end"),
    Pulled("temper_most", via="tanks", of="company.temper_max"),
    Pulled("temper_who", via="tanks", of="company.temper_who"),
    *(Computed(key, label, of_run(column("roll", key), "1", "0"), look=COUNT) for key, label in OF_GROUPS),
    *(
        Computed(
            key,
            f"{key.capitalize()}: who and why",
            logic(
                'IF({groups}=0,"",INDEX({said},{run_end})&IF({groups}>10,{also}&({groups}-10)&" more",""))',
                needs=("run_end",),
                also=quoted(ALSO),
                groups=here(f"{key}_groups"),
                said=column("roll", key),
            ),
            kind=text(),
            look=WORDS,
        )
        for key in SAID_OF_GROUPS
    ),
)

OF_COMPANY: tuple[Column, ...] = (
    Computed(
        "temper_why",
        "Temper: in words",
        logic(
            'IF({temper_groups}=0,"",{temper_who}&", temper "&{temper_most}&" on the scale of 1 gentle to 5 hostile, '
            'beside "&{temper})',
            needs=("temper_groups",),
        ),
        kind=text(),
        look=WORDS,
    ),
    Computed(
        "company_why",
        "Company: in words",
        joined(('{company}<>""', "{company}"), ('{temper_why}<>""', "{temper_why}"), between=ALSO),
        kind=text(),
        look=WORDS,
    ),
    Computed(
        "company_does",
        "Company: what to do",
        joined(
            (
                "SUM({company_now})>0",
                quoted("part them: no hunters for what fits a mouth, has long fins or is a shrimp"),
            ),
            ("SUM({temper_now})>0", '"house "&{temper_who}&" elsewhere, or the gentler ones"'),
            (
                "AND(SUM({company_groups})>0,SUM({company_now})=0)",
                quoted("more of its kind, or another tank; snails elsewhere, or accept the loss"),
            ),
            (
                "AND(SUM({temper_groups})>0,SUM({temper_now})=0)",
                quoted("watch for chasing and torn fins, give broken lines of sight"),
            ),
        ),
        kind=text(),
        look=WORDS,
    ),
    Computed(
        "company_do",
        "The same as a sentence",
        as_sentence("{company_does}"),
        kind=text(),
        look=WORDS,
    ),
    Flag(
        "company_act",
        "Company",
        seriousness="act",
        when="{company_now}+{temper_now}>0",
        why="{company_why}",
        do="{company_do}",
    ),
    Flag(
        "company_watch",
        "Company",
        seriousness="watch",
        when="AND({company_groups}+{temper_groups}>0,{company_now}+{temper_now}=0)",
        why="{company_why}",
        do="{company_do}",
    ),
    Flag(
        "size_act",
        "Tank too small",
        seriousness="act",
        when="{size_now}>0",
        why="{size}",
        do="Move them to a larger tank now; until then change water often and feed little.",
    ),
    Flag(
        "size_watch",
        "Tank too small",
        seriousness="watch",
        when="AND({size_groups}>0,{size_now}=0)",
        why="{size}",
        do="Move them to a larger or longer tank.",
    ),
    Flag(
        "quarantine_watch",
        "Quarantine",
        seriousness="watch",
        when="{quarantine_now}>0",
        why="{quarantine}",
        do=("A tank of its own until then; own net, own towels, wash hands between tanks. Illness: a veterinarian."),
    ),
    Flag(
        "quarantine_note",
        "Quarantine",
        seriousness="note",
        when="AND({quarantine_groups}>0,{quarantine_now}=0)",
        why="{quarantine}",
        do="Type the day until which it stays apart, or the day it came out.",
    ),
)

MATTERS = Table(
    "matters",
    title="Matters of each tank",
    rows_of="tanks",
    row_name=("tank",),
    purpose="",
    columns=(
        *pulled("tanks", "tank", "standing"),
        *ADDED_UP,
        *OF_COMPANY,
        *(made for key, (title, flags) in OF_TANK.items() for made in matter(key, title, flags)),
    ),
)


# Matters of the whole room: the running list of which each is the end, with its table; the sheet that it leads to.
OF_ROOM = {
    "tasks": ("next_change", "late_changes", "This week"),
    "broods": ("breeding", "late_broods", "Breeding"),
    "rearing": ("breeding", "rearing", "Breeding"),
    "cold_water": ("changes", "cold_changes", "Water changes"),
    "foods": ("foods", "foods_wanted", "Foods"),
    "coarse": ("feeding", "coarse_foods", "Feeding"),
    "comfort": ("comfort", "unlike", "Comfort"),
}


def of_room(key: str, title: str, why: str, do: str, seriousness: str = "watch") -> Flag:
    """The flag of one of them, in its own row."""
    when = filled("AND({cause}={key},{many}>0)", key=quoted(key))
    return Flag(key, title, seriousness=seriousness, when=when, why=why, do=do)


EVERYWHERE = Table(
    "matters_everywhere",
    title="Matters of the whole room",
    lines=len(OF_ROOM),
    row_name=("place",),
    purpose="",
    columns=(
        Computed("place", "Place", logic(quoted("whole room")), kind=text(), look=WORDS),
        Computed(
            "cause",
            "Cause",
            logic("CHOOSE({line},{causes})", causes=[quoted(key) for key in OF_ROOM]),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "leads_to",
            "Sheet",
            logic("CHOOSE({line},{sheets})", sheets=[quoted(sheet) for _, _, sheet in OF_ROOM.values()]),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "many",
            "How many",
            logic(
                "CHOOSE({line},{ends})",
                "1",
                ends=[at_the_end(column(table, f"{key}_count")) for table, key, _ in OF_ROOM.values()],
            ),
            look=COUNT,
        ),
        Computed(
            "which",
            "Which",
            logic(
                'CHOOSE({line},{ends})&IF({many}>10,{also}&({many}-10)&" more","")',
                also=quoted(ALSO),
                ends=[at_the_end(column(table, key)) for table, key, _ in OF_ROOM.values()],
            ),
            kind=text(),
            look=WORDS,
        ),
        of_room(
            "tasks",
            "Tasks late",
            "{which}",
            "This week lists them. Do them, then type the day under Last done; or lengthen the interval.",
        ),
        of_room(
            "broods",
            "Broods wait",
            "{which}",
            "Do it, then type the date under Steps done up to; 0 under Young counted if the brood is lost.",
        ),
        of_room(
            "rearing",
            "Room for young",
            "{which}",
            "Choose an empty tank that is large enough, share them out, or raise fewer; name it under Growing on in.",
        ),
        of_room(
            "cold_water",
            "Change too cold or warm",
            "the change planned moves the tank by more than {const.temperature_step}: {which}",
            "Bring the new water nearer to the tank's temperature, or change less at one go.",
        ),
        of_room("foods", "Foods to order", "{which}", "Order them, or put others in their place on Feeding."),
        of_room("coarse", "Food too coarse", "{which}", "Crush or sieve it, or give those a finer food as well."),
        of_room(
            "comfort",
            "Light, ground, cover, flow",
            "not as some like it: {which}",
            "Sand to dig in, a calm corner, shade or shelter often mend it.",
            "note",
        ),
    ),
)

# Facts that last and ask for nothing: they stand in their own row, on the species' card and on the tank's page.
FACTS = {
    "livestock.shrimp_young": "moss helps some of them through",
    "readings.cycling": "a tank that cycles without animals is on its way",
    "species.restricted": "its caution stands where the species is bought, kept and on its card",
    "species.own_outside": "the note is the person's own",
    "breeding.daily_water": "stands among the jobs of each day of This week",
    "comfort.light_split": "both are there, whatever is done",
    "comfort.cover_split": "the same",
    "comfort.ground_split": "the same",
    "comfort.flow_split": "the same",
    "comfort.no_stones": "what the species likes",
    "comfort.pale_ground": "the same",
    "comfort.pale_background": "the same",
}

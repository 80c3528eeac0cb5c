"""Comfort: light, cover, ground, background and flow, as the residents of each tank want them and as it has them."""

from workbook.sheets.so_far import running_list
from workbook.sheets.wishes import BACKGROUND, COVER, FLOW, GROUND, LIGHT, WISHES, Wish
from workbook.tables import Computed, Flag, Look, Pulled, Said, Sheet, Table, logic, text
from workbook.tables.columns import Column
from workbook.tables.completing import SEPARATOR
from workbook.tables.formula import Formula, filled
from workbook.tables.idioms import all_said, before, in_rows_with, joined, of_run, position
from workbook.tables.template import column, for_each, here, quoted, starred

COUNT, WORDS = Look(working=True, show="0"), Look(working=True, width=18)

FLAGS = {
    LIGHT.key: (
        Flag(
            "too_bright",
            "Brighter than some like",
            gathered=True,
            seriousness="note",
            when='AND({light}="bright",{light_dim_groups}>0)',
            why="the light is bright, while {light_dim} like it dim and stay shy and pale in the open",
            do="Floating plants, more cover or a dimmer lamp bring them out.",
        ),
        Flag(
            "too_dim",
            "Dimmer than some like",
            gathered=True,
            seriousness="note",
            when='AND({light}="dim",{light_bright_groups}>0)',
            why="the light is dim, while {light_bright} like it bright",
            do="Light one end more, and leave the rest as it is for the others.",
        ),
        Flag(
            "light_split",
            "Light liked differently",
            gathered=True,
            seriousness="note",
            when="AND({light_dim_groups}>0,{light_bright_groups}>0)",
            why="{light_dim} like it dim, {light_bright} bright",
            do="Light one end and shade the other with floating plants, wood or tall plants.",
        ),
    ),
    COVER.key: (
        Flag(
            "too_open",
            "Too little cover",
            gathered=True,
            seriousness="watch",
            when='AND({cover}="open",{cover_much_groups}>0)',
            why="the tank is open, while {cover_much} like much cover",
            do="Add plants, wood, leaf litter or caves until each of them can get out of sight.",
        ),
        Flag(
            "too_dense",
            "Little open water",
            gathered=True,
            seriousness="note",
            when='AND({cover}="much",{cover_open_groups}>0)',
            why="cover is much, while {cover_open} like open water",
            do="Clear the front or the upper half to swim in.",
        ),
        Flag(
            "cover_split",
            "Cover liked differently",
            gathered=True,
            seriousness="note",
            when="AND({cover_much_groups}>0,{cover_open_groups}>0)",
            why="{cover_much} like much cover, {cover_open} open water",
            do="Cover the back and the sides densely, and leave the front open.",
        ),
    ),
    GROUND.key: (
        Flag(
            "no_sand",
            "No fine sand",
            gathered=True,
            seriousness="watch",
            when='AND({ground}<>"fine sand",{ground_fine_sand_groups}>0)',
            why="{ground_fine_sand} like fine sand, the ground is another",
            do=(
                "Give them a good part of the floor in fine, rounded sand: "
                "they dig, sift or rest in it, and sharp grains hurt barbels and bellies."
            ),
        ),
        Flag(
            "no_stones",
            "No stones",
            gathered=True,
            seriousness="note",
            when='AND({ground}<>"stones",{ground_stones_groups}>0)',
            why="{ground_stones} like stones, the ground is another",
            do="Pile rounded stones in one part, standing on the floor pane and not on loose sand.",
        ),
        Flag(
            "pale_ground",
            "No dark ground",
            gathered=True,
            seriousness="note",
            when='AND(OR({ground}="any",{ground}="stones"),{ground_dark_groups}>0)',
            why="{ground_dark} like dark ground",
            do="Dark sand or gravel, or leaf litter on part of the floor: they show their colours and feel safer.",
        ),
        Flag(
            "ground_split",
            "Ground liked differently",
            gathered=True,
            seriousness="note",
            when="AND({ground_fine_sand_groups}>0,{ground_stones_groups}>0)",
            why="{ground_fine_sand} like fine sand, {ground_stones} stones",
            do="Part the floor: sand in front, stones at the back or at one end.",
        ),
    ),
    BACKGROUND.key: (
        Flag(
            "pale_background",
            "No dark background",
            gathered=True,
            seriousness="note",
            when='AND({background}="any",{background_dark_groups}>0)',
            why="{background_dark} like a dark background",
            do="Dark card or film on the outside of the back pane is enough.",
        ),
    ),
    FLOW.key: (
        Flag(
            "flow_too_strong",
            "Flow too strong for some",
            gathered=True,
            seriousness="watch",
            when='{flow_weaker}<>""',
            why="the flow is {flow}, while {flow_weaker} like it at least two steps calmer",
            do="Break it with a spray bar, sponge, plants or stones, or throttle the filter; leave a calm corner.",
        ),
        Flag(
            "flow_too_weak",
            "Flow too weak for some",
            gathered=True,
            seriousness="watch",
            when='{flow_stronger}<>""',
            why="the flow is {flow}, while {flow_stronger} like it at least two steps stronger",
            do="Add a pump, or let the outlet run along one end: strong flow also brings the oxygen they are used to.",
        ),
        Flag(
            "flow_split",
            "Flow liked differently",
            gathered=True,
            seriousness="note",
            when='{flow_calm}<>""',
            why="{flow_calm} like it calm, {flow_rapid} moving",
            do="Let the current run along one end, and leave the other end calm behind plants, wood or stones.",
        ),
    ),
}


# What can be mended. What residents like differently stays so, and what they merely like the look of is no trouble.
UNLIKE = ("too_open", "no_sand", "flow_too_strong", "flow_too_weak", "too_bright", "too_dim", "too_dense")


def counts(wish: Wish) -> tuple[Column, ...]:
    """What the last line of the tank on the roll says of each choice."""
    return tuple(
        made
        for choice, key in wish.keys
        for made in (
            Computed(
                f"{key}_groups",
                f"{wish.label}: {choice}",
                of_run(column("roll", f"{key}_groups"), "1", "0"),
                look=COUNT,
            ),
            Computed(
                key,
                f"{wish.label}: {choice}: who",
                logic(
                    'IF({*_groups}=0,"",INDEX({roll.*[]},{run_end})'
                    '&IF({*_groups}>10," and "&({*_groups}-10)&" more",""))',
                    needs=("run_end", "*_groups"),
                    each=key,
                ),
                kind=text(),
                look=WORDS,
            ),
        )
    )


def aspect(wish: Wish) -> tuple[Column, ...]:
    """What a tank has, and whether that suits."""
    k = wish.key
    first = starred('{*_said}&IF(OR({*}="",{*_not_known}>0),"unknown:","suits all:")', k)
    return (
        Pulled(k, via="tanks", label="The tank has", look=Look(wish.label, 9)),
        Computed(
            f"{k}_suits",
            "Verdict",
            logic(
                'IF({residents}=0,"",LEFT({first},SEARCH(":",{first})-1))',
                needs=("residents", f"{k}_not_known"),
                first=first,
            ),
            kind=text(),
            look=Look(wish.label, 24, status=True),
        ),
        Computed(
            f"{k}_not_known",
            f"{wish.label}: groups that have not said",
            logic("{residents}-" + for_each((key for _, key in wish.keys), "{*_groups}", "-"), "1"),
            look=COUNT,
        ),
        Computed(
            f"{k}_said",
            f"{wish.label}: all that is said",
            all_said([here(flag.key) for flag in FLAGS[k]], SEPARATOR),
            kind=text(),
            look=WORDS,
        ),
        *counts(wish),
    )


def wants(wish: Wish) -> Column:
    """Who wants what of it."""
    k = wish.key
    said = [
        (for_each([key], '{*}<>""'), filled("{choice}&{who}", choice=quoted(f"{choice}: "), who=here(key)))
        for choice, key in wish.keys
    ]
    not_known = (starred("{*_not_known}>0", k), starred('"not known: "&{*_not_known}&" of "&{residents}&" groups"', k))
    return Computed(
        f"{k}_wants",
        wish.label,
        in_rows_with("residents", joined(*said, not_known)),
        kind=text(),
        look=Look("Who wants what", 110),
    )


def both(first: str, second: str) -> Formula:
    """Two lists of names as one."""
    return all_said([here(first), here(second)], ", ")


COMFORT = Table(
    "comfort",
    title="Comfort",
    rows_of="tanks",
    row_name=("tank",),
    purpose="What the residents want of their place, and what they have.",
    columns=(
        Pulled("tank", via="tanks", look=Look("Tank", 20)),
        Said(look=Look("Tank", 56)),
        *(made for wish in WISHES for made in aspect(wish)),
        *(wants(wish) for wish in WISHES),
        Pulled("residents", via="tanks", of="company.residents"),
        Pulled("run_end", via="tanks", of="company.run_end"),
        Computed("flow_no", "Flow the tank has", in_rows_with("flow", position("{flow}", FLOW.choices)), look=COUNT),
        Computed(
            "flow_weaker",
            "Like it two steps calmer",
            logic(
                'CHOOSE({flow_no},"","",{flow_still},{still_and_gentle})&""',
                needs=("flow_no",),
                still_and_gentle=both("flow_still", "flow_gentle"),
            ),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "flow_stronger",
            "Like it two steps stronger",
            logic(
                'CHOOSE({flow_no},{medium_and_strong},{flow_strong},"","")&""',
                needs=("flow_no",),
                medium_and_strong=both("flow_medium", "flow_strong"),
            ),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "flow_calm",
            "Calm, beside those two steps on",
            joined(
                ("SUM({flow_still_groups})*(SUM({flow_medium_groups})+SUM({flow_strong_groups}))>0", "{flow_still}"),
                ("SUM({flow_gentle_groups})*SUM({flow_strong_groups})>0", "{flow_gentle}"),
                between=", ",
            ),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "flow_rapid",
            "Moving, beside those two steps on",
            joined(
                ("SUM({flow_medium_groups})*SUM({flow_still_groups})>0", "{flow_medium}"),
                ("SUM({flow_strong_groups})*(SUM({flow_still_groups})+SUM({flow_gentle_groups}))>0", "{flow_strong}"),
                between=", ",
            ),
            kind=text(),
            look=WORDS,
        ),
        *(flag for flags in FLAGS.values() for flag in flags),
        Computed(
            "unlike_what",
            "What is not as some like it",
            joined(
                *((filled('{flag}<>""', flag=here(key)), before(here(key), ": ", 2)) for key in UNLIKE), between=", "
            ),
            kind=text(),
            look=WORDS,
        ),
        *running_list("unlike", "Not as some like it so far", '{unlike_what}<>""', '{tank}&" ("&{unlike_what}&")"'),
    ),
)

SHEET = Sheet(
    "Comfort",
    role="detail",
    blocks=(COMFORT,),
    frozen_columns=1,
    purpose="Light, cover, ground, background and flow: who in each tank wants what, and what the tank has.",
    notes=(
        (
            "One step apart is called well enough. "
            "What the tank has is typed on Tanks under Place for the animals, what each kind likes on Species."
        ),
        (
            "Likings and what helps are common practice, no published source. Watch the animals: "
            "they overrule any calm cell."
        ),
    ),
)

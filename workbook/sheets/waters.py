"""Waters: what comes out of the tap, the barrel and the filter, and what two of them make together."""

from workbook.equations import blending, hardness
from workbook.tables import (
    Computed,
    Flag,
    Look,
    Pulled,
    Said,
    Sheet,
    Table,
    Typed,
    choice,
    key,
    link,
    logic,
    number,
    text,
)
from workbook.tables.completing import ARROW
from workbook.tables.formula import filled
from workbook.tables.idioms import between, first_known, in_rows_with, joined, only_if, spoken
from workbook.tables.template import here, quoted, starred

HOLDS, BLEND, MADE = (
    Look("Measured", 10, "0.0"),
    Look("A blend of two waters", 12, "0.0"),
    Look("Reckoned with", 11, "0.0"),
)
HIDDEN, WORDS = Look(working=True, show="0.000"), Look(working=True, width=16)
BLENDED = (
    ("temperature", "Temperature", "degC", blending.blend_temperature),
    ("gh", "GH", "degH", blending.blend_hardness),
    ("kh", "KH", "degH", blending.blend_hardness),
    ("nitrate", "Nitrate", "mg/L", blending.blend_nitrate),
)
IN_RANGE = "AND(ROUND({share},9)>=0,ROUND({share},9)<=1)"


def share(key_: str) -> Computed:
    """Share of the first water that meets a hardness target."""
    met = blending.share_by_hardness(
        first=here(f"first_{key_}"), second=here(f"second_{key_}"), target=here(f"target_{key_}")
    )
    differ = starred("{first_*}<>{second_*}", key_)
    return Computed(f"share_{key_}", f"First water's share by {key_.upper()}", only_if(differ, met), look=HIDDEN)


def between_the_two(key_: str) -> tuple[str, str]:
    """Test and words for where two waters lie in a hardness."""
    return (
        starred("COUNT({first_*},{second_*})=2", key_),
        filled(
            '{name}&{first}&" and "&{second}',
            name=quoted(f"{key_.upper()} "),
            first=spoken(here(f"first_{key_}"), 1),
            second=spoken(here(f"second_{key_}"), 1),
        ),
    )


WATERS = Table(
    "waters",
    title="Waters",
    row_name=("water",),
    purpose="One row for each water that tanks are filled with; a blend names two others.",
    example={
        "water": "Tap",
        "water_kind": "tap",
        "temperature": 18,
        "ph": 7.4,
        "gh": 8,
        "kh": 5,
        "nitrate": 10,
        "ammonia": 0,
    },
    columns=(
        Typed(
            "water",
            "Water",
            key(),
            required=True,
            look=Look("Water", 22),
            help="A name of your own, such as Tap or Rain barrel.",
        ),
        Typed("water_kind", "Kind", choice("tap", "rain", "reverse osmosis", "well", "mixed"), look=Look("Water", 16)),
        Said(look=Look("Water", 48)),
        Typed(
            "temperature",
            "Temperature",
            number(0, 40),
            unit="degC",
            look=Look(HOLDS.group, 12, "0.0"),
            help="As it goes into the tank.",
        ),
        Typed(
            "ph",
            "pH",
            number(3, 11),
            unit="1",
            look=HOLDS,
            help="After a day of aeration. A blend's pH can't be reckoned: measure it.",
        ),
        Typed("gh", "GH", number(0, 60), unit="degH", look=HOLDS, help="Of a blend: leave blank, it is reckoned."),
        Typed("kh", "KH", number(0, 60), unit="degH", look=HOLDS, help="Of a blend: leave blank, it is reckoned."),
        Typed(
            "nitrate",
            "Nitrate (NO3)",
            number(0, 500),
            unit="mg/L",
            look=HOLDS,
            help="As nitrate ion, the figure most kits show.",
        ),
        Typed(
            "ammonia",
            "Ammonia",
            number(0, 20),
            unit="mg/L",
            look=Look(HOLDS.group, 10, "0.00"),
            help="Total ammonia as nitrogen.",
        ),
        Typed("first_water", "First water", link("waters"), look=Look(BLEND.group, 18)),
        Typed("second_water", "Second water", link("waters"), look=Look(BLEND.group, 18)),
        Typed(
            "target_gh",
            "Target GH",
            number(0, 60),
            unit="degH",
            look=BLEND,
            help="The share is reckoned from GH; leave it blank to go by KH.",
        ),
        Typed("target_kh", "Target KH", number(0, 60), unit="degH", look=BLEND),
        Typed("batch", "Batch", number(0.1, 100000), unit="L", look=BLEND, help="How much to make."),
        Computed("litres_first", "Of the first", logic("{batch}*{share_used}", "L"), look=BLEND),
        Computed("litres_second", "Of the second", logic("{batch}*(1-{share_used})", "L"), look=BLEND),
        Computed(
            "verdict",
            "In words",
            logic(
                'IF({share_used}="","◆ out of reach",(ROUND(100*{share_used},0)+0)&" % "&{first_water}'
                '&", "&(100-ROUND(100*{share_used}+0,0))&" % "&{second_water}&"; pH: measure it")',
                needs=("first_water", "second_water", "share"),
            ),
            kind=text(),
            look=Look(BLEND.group, 34, status=True),
        ),
        *(
            Computed(
                f"{k}_used",
                label,
                in_rows_with("water", first_known(here(k), here(f"blend_{k}"), unit=unit)),
                look=MADE,
            )
            for k, label, unit, _ in BLENDED
        ),
        *(
            Computed(
                f"{k}_caco3",
                f"{k.upper()} as CaCO3",
                hardness.degrees_to_caco3(degrees=here(f"{k}_used")),
                look=Look(MADE.group, 9, "0"),
            )
            for k in ("gh", "kh")
        ),
        Typed("note", "Note", text(), look=Look("Note", 44)),
        *(
            Pulled(f"{end}_{k}", via=f"{end}_water", of=k, label=f"{end.capitalize()} water's {label}")
            for k, label, _, _ in BLENDED
            for end in ("first", "second")
        ),
        share("gh"),
        share("kh"),
        Computed(
            "share",
            "First water's share",
            logic('IF({target_gh}<>"",{share_gh},{share_kh})', "1", needs=("water",)),
            look=HIDDEN,
        ),
        Computed("share_used", "Share that can be made", only_if(IN_RANGE, logic("{share}", "1")), look=HIDDEN),
        *(
            Computed(
                f"blend_{k}",
                f"{label} of the blend",
                made(first=here(f"first_{k}"), second=here(f"second_{k}"), share="{share_used}"),
                look=HIDDEN,
            )
            for k, label, _, made in BLENDED
        ),
        Computed(
            "extremes",
            "Between",
            in_rows_with("water", joined(*(between_the_two(k) for k in ("gh", "kh")), between=", ")),
            kind=text(),
            look=WORDS,
        ),
        Computed(
            "wanted",
            "Wanted",
            in_rows_with(
                "water",
                joined(
                    ("COUNT({target_gh})=1", '"GH "&' + spoken("{target_gh}", 1)),
                    ("COUNT({target_kh})=1", '"KH "&' + spoken("{target_kh}", 1)),
                    between=" and ",
                ),
            ),
            kind=text(),
            look=WORDS,
        ),
        Flag(
            "ammonia_in_source",
            "Ammonia in the source water",
            gathered=True,
            seriousness="watch",
            when="{ammonia}>0",
            why="it holds {ammonia} of ammonia nitrogen before any fish has lived in it",
            do="Condition it for ammonia by the product's label, and test the tank after each change.",
        ),
        Flag(
            "nitrate_at_target",
            "Source water no better than the target",
            gathered=True,
            seriousness="watch",
            when="{nitrate_used}>={settings.nitrate_target}",
            why=(
                "its nitrate of {nitrate_used} is not below the target of {settings.nitrate_target}, "
                "so no water change can hold the target"
            ),
            do="Blend with a water that holds less, or raise the target on Start with open eyes.",
        ),
        Computed(
            "trouble",
            "What is wrong with it as a source",
            joined(
                *(
                    (filled('{flag}<>""', flag=here(key)), between(here(key), ": ", ARROW))
                    for key in ("ammonia_in_source", "nitrate_at_target")
                )
            ),
            kind=text(),
            look=Look(working=True, width=18),
        ),
        Flag(
            "poor_source",
            "Poor source water",
            seriousness="watch",
            copes=True,
            when='{trouble}<>""',
            why="{trouble}",
            do=(
                "Blend it with a better water, or prepare it: conditioner by its label for ammonia; a higher target on "
                "Start only with open eyes."
            ),
        ),
        Flag(
            "out_of_reach",
            "Blend out of reach",
            seriousness="watch",
            when="OR(ROUND({share},9)<0,ROUND({share},9)>1)",
            why=(
                "{wanted} wanted, but {first_water} and {second_water} lie at {extremes}: "
                "no blend of the two gets there"
            ),
            do="Choose a target between them, another water, or mineral salts by their label.",
        ),
        Flag(
            "kh_missed",
            "Blend misses its KH",
            seriousness="note",
            when="ABS({blend_kh}-{target_kh})>{const.narrow_kh}",
            why="with GH met, KH comes out at {blend_kh} instead of {target_kh}: one blend has one knob",
            do="Decide which of the two matters, or raise KH by a carbonate salt by its label.",
        ),
        Flag(
            "no_target",
            "Blend without a target",
            seriousness="note",
            copes=True,
            when='AND({first_water}<>"",{second_water}<>"",{target_gh}="",{target_kh}="")',
            why="two waters are named, but no GH or KH to aim at",
            do="Type a target GH or KH.",
        ),
    ),
)

SHEET = Sheet(
    "Waters",
    role="input",
    blocks=(WATERS,),
    purpose="Your waters and blends. Tanks point to them; the sheets compare them with what the animals want.",
    notes=(
        (
            "GH, KH, nitrate and temperature of a blend follow from its shares. pH does not: "
            "it is not reckoned, measure it after a day of aeration."
        ),
    ),
)

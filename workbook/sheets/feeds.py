"""Feeds: when live nauplii are fed, and the hatch that gives them fresh."""

from workbook.equations import brine
from workbook.sheets.hatching import COUNT, FEED, HATCH
from workbook.tables import Computed, Flag, Look, Said, Table, Typed, key, link, logic, number, pulled, text
from workbook.tables.idioms import only_if, spoken, taken_as

IN_TIME_FOR_THE_HATCH_BEFORE = (
    "AND({above.cysts_row}={cysts_row},COUNT({above.batch_hour})=1,"
    "{hour}>=SUM({above.batch_hour}),{hour}-SUM({above.batch_hour})<={oldest_used})"
)

FEEDS = Table(
    "feeds",
    title="Feeds",
    row_name=("feed",),
    purpose="One row for each feed with live nauplii, in the order of the day.",
    columns=(
        Typed("feed", "Feed", key(), required=True, look=Look("The feed", 14)),
        Typed(
            "hour",
            "Hour of the day",
            number(0, 24),
            unit="h",
            required=True,
            look=FEED,
            help="7.5 is half past seven in the morning.",
        ),
        Typed(
            "share",
            "Share of the day's nauplii",
            number(0, 1),
            unit="1",
            required=True,
            look=Look("The feed", 10, "0%"),
            help="The shares of all feeds add up to 100 %.",
        ),
        Typed("cysts", "Cysts", link("hatching"), required=True, look=Look("The feed", 22)),
        Computed(
            "nauplii",
            "Nauplii in this feed",
            taken_as(logic("{share}*{live_summary.nauplii}", "1/day"), "1"),
            look=Look("The feed", 10, "0"),
        ),
        Computed(
            "age",
            "Their age when fed",
            logic("{hour}-{batch_hour}", "h"),
            look=FEED,
            help="Hours since the harvest; 0 where the hatch is ready just then.",
        ),
        Computed(
            "energy_left",
            "Energy left in them",
            brine.energy_left(age="{age}"),
            look=Look("The feed", 10, "0%"),
            help="Unfed nauplii live on their yolk and lose food value by the hour.",
        ),
        Computed(
            "cysts_to_set",
            "Cysts to set",
            only_if("{joins}=0", brine.cysts(nauplii="{batch_nauplii}", yield_="{yield_gram}")),
            look=Look(HATCH.group, 9, "0.00"),
            help="Blank where this feed is taken from the hatch of the one before.",
        ),
        Computed(
            "water",
            "Water",
            brine.litres(cysts="{cysts_to_set}", density="{density_used}"),
            look=Look(HATCH.group, 8, "0.00"),
        ),
        Computed(
            "salt", "Salt", brine.salt(volume="{water}", salinity="{salinity_used}"), look=Look(HATCH.group, 8, "0.0")
        ),
        Computed(
            "start_from",
            "Set it from",
            only_if("{joins}=0", brine.start_hour(feed="{batch_hour}", hours=logic("{hatch_hours}+{slack}", "h"))),
            look=HATCH,
            help="Hour of the day; set then, the last feed from it is as old as is allowed.",
        ),
        Computed(
            "start_hour",
            "to",
            only_if("{joins}=0", brine.start_hour(feed="{batch_hour}", hours="{hatch_hours}")),
            look=HATCH,
            help="Hour of the day at the latest, so that it is ready for the feed.",
        ),
        Computed(
            "days_before",
            "Days before",
            only_if("{joins}=0", brine.days_before(feed="{batch_hour}", hours="{hatch_hours}")),
            look=Look(HATCH.group, 9, "0"),
            help="Of the latest hour; 1 is the day before.",
        ),
        Computed(
            "vessels_taken",
            "Vessels taken",
            only_if("{joins}=0", brine.vessels(hours="{hatch_hours}", volume="{water}", vessel="{vessel}")),
            look=Look(HATCH.group, 8, "0"),
            help="By this hatch on all days on which it stands.",
        ),
        Said(look=Look(HATCH.group, 40)),
        Typed("feed_note", "Note", text(), look=Look("Note", 28)),
        *pulled("cysts", "hatch_hours", "oldest_used", "density_used", "salinity_used", "yield_gram", "vessel"),
        Computed(
            "joins",
            "Taken from the hatch before",
            logic(
                "IF({in_time_for_the_hatch_before},1,0)",
                "1",
                needs=("hour", "cysts_row", "oldest_used"),
                in_time_for_the_hatch_before=IN_TIME_FOR_THE_HATCH_BEFORE,
            ),
            look=COUNT,
        ),
        Computed(
            "batch_hour",
            "Hour of its hatch",
            logic("IF({joins}=1,{above.batch_hour},{hour})", "h"),
            seed="0-1",
            look=Look(working=True, show="0.0"),
        ),
        Computed(
            "batch_run",
            "Hatches so far",
            logic("{above.batch_run}+IF(COUNT({joins})=1,1-{joins},0)", "1", copes=True),
            seed="0",
            look=COUNT,
        ),
        Computed("batch", "Its hatch", logic("{batch_run}", "1", needs=("joins",)), look=COUNT),
        Computed(
            "batch_nauplii",
            "Nauplii of its hatch",
            logic("SUMIFS({feeds.nauplii[]},{feeds.batch[]},{batch})", "1"),
            look=COUNT,
        ),
        Computed(
            "slack",
            "Hours to spare",
            logic("{oldest_used}-_xlfn.MAXIFS({feeds.age[]},{feeds.batch[]},{batch})", "h"),
            look=Look(working=True, show="0.0"),
        ),
        Computed(
            "shares",
            "Shares of all feeds",
            logic('IF({line}=1,SUM({feeds.share[]}),"")', "1", needs=("feed",)),
            look=Look(working=True, show="0%"),
        ),
        Computed(
            "job",
            "For the week",
            logic(
                '"Set a hatch: "&{grams}&" g cysts, "&{salted}&" g salt, for "&{feed}',
                grams=spoken("{cysts_to_set}", 2),
                salted=spoken("{salt}", 1),
            ),
            kind=text(),
            look=Look(working=True, width=20),
        ),
        Computed(
            "job_at",
            "at",
            logic(
                '"from "&{first}&" to "&{last}&" h"', first=spoken("{start_from}", 1), last=spoken("{start_hour}", 1)
            ),
            kind=text(),
            look=Look(working=True, width=9),
        ),
        Computed(
            "order",
            "Order in the week",
            logic("2/10+{line}/10^6", "1", needs=("job",)),
            look=Look(working=True, width=11, show="0.000000"),
        ),
        Flag(
            "shares_off",
            "Shares of the feeds do not add up",
            seriousness="watch",
            when="ABS({shares}-1)>{const.share_tolerance}",
            why="the shares of all feeds add up to {shares}",
            do="Set them so that they add up to 100 %.",
        ),
        Flag(
            "out_of_order",
            "Feeds not in the order of the day",
            seriousness="note",
            when="AND({above.cysts_row}={cysts_row},{hour}<SUM({above.hour}))",
            why="it stands below a later feed from the same cysts",
            do="Bring the rows into the order of the day, so that two feeds can share a hatch.",
        ),
    ),
)

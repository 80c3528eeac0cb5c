"""Waters: what comes out of the tap, the barrel and the filter."""

from workbook.tables import Flag, Look, Said, Sheet, Table, Typed, choice, key, number, text

ROOM = Look(group="What the water holds", width=12, show="0.0")

WATERS = Table(
    "waters", title="Waters", row_name=("water",),
    purpose="One row for each water that tanks are filled with.",
    columns=(
        Typed("water", "Water", key(), required=True, look=Look(width=22), help="A name of your own, such as Tap or Rain barrel."),
        Typed("water_kind", "Kind", choice("tap", "rain", "reverse osmosis", "well", "mixed"), look=Look(width=16)),
        Said(),
        Typed("temperature", "Temperature", number(0, 40), unit="degC", look=ROOM, help="As it goes into the tank."),
        Typed("ph", "pH", number(3, 11), unit="1", look=ROOM, help="After a day of aeration."),
        Typed("gh", "GH", number(0, 60), unit="degH", look=ROOM),
        Typed("kh", "KH", number(0, 60), unit="degH", look=ROOM),
        Typed("nitrate", "Nitrate", number(0, 500), unit="mg/L", look=ROOM, help="As nitrate ion, the figure most kits show."),
        Typed("ammonia", "Ammonia", number(0, 20), unit="mg/L", look=Look(group="What the water holds", width=12, show="0.00"),
              help="Total ammonia as nitrogen."),
        Typed("note", "Note", text(), look=Look(width=44)),
        Flag("ammonia_in_source", "Ammonia in the source water", seriousness="watch",
             when="{ammonia}>0",
             why="it holds {ammonia} of ammonia nitrogen before any fish has lived in it",
             do="Condition it for ammonia by the product's label, and test the tank after each change."),
        Flag("nitrate_at_target", "Source water no better than the target", seriousness="watch",
             when="{nitrate}>={settings.nitrate_target}",
             why="its nitrate of {nitrate} is not below the target of {settings.nitrate_target}, so no water change can hold the target",
             do="Blend with a water that holds less, or raise the target on Start with open eyes."),
    ),
)

SHEET = Sheet("Waters", role="input", blocks=(WATERS,),
              purpose="Your source waters. Tanks point to them; the sheets compare them with what the animals want.")

"""What the flags of the newest readings say."""

from tests.oracles import readings
from tests.oracles.words.saying import Figure, Says, day, named, setting

AMMONIA_ON, NITRATE_ON = day(readings.ammonia_date), day(readings.nitrate_date)
NITRATE = {"read": Figure(readings.nitrate, "mg/L"), "day": NITRATE_ON, "now": Figure(readings.today, "mg/L", 1)}

SAYS = {
    "toxic_act": Says(
        "act",
        "Toxic ammonia",
        "{toxic} of toxic ammonia on {day}, at pH {ph}",
        "Change water at once, stop feeding, aerate; find the cause: dead animal, filter, new medicine. Test again "
        "tomorrow.",
        toxic=Figure(readings.toxic, "mg/L", 3),
        day=AMMONIA_ON,
        ph=Figure(readings.reading_ph, "", 1),
    ),
    "ammonia_seen": Says(
        "watch",
        "Ammonia not zero",
        "{total} of ammonia nitrogen on {day}, {toxic}; the target is zero",
        "Feed less, change water, look after the filter; while cycling test daily.",
        total=Figure(readings.total, "mg/L", 2),
        day=AMMONIA_ON,
        toxic=named(readings.toxic_said),
    ),
    "nitrite_seen": Says(
        "act",
        "Nitrite not zero",
        "{read} of nitrite on {day}; the target is zero",
        "Change water, feed little, test daily. Salt or medicines only by their label and a veterinarian.",
        read=Figure(readings.nitrite, "mg/L", 2),
        day=day(readings.nitrite_date),
    ),
    "cycling": Says(
        "note",
        "Cycling without animals",
        "not cycled yet, and no animals in it",
        "Feed the filter with a little ammonia by the product's label, test every few days; cycled once ammonia and "
        "nitrite are at zero a day after a dose.",
    ),
    "nitrate_high": Says(
        "watch",
        "Nitrate above the target",
        "{read} on {day}, about {now} reckoned for today; the target is {target}",
        "Change water: Water changes says how many changes bring it back.",
        **NITRATE,
        target=Figure(setting("nitrate_target"), "mg/L"),
    ),
    "nitrate_too_high": Says(
        "act",
        "Nitrate far above the target",
        "{read} on {day}, about {now} reckoned for today; above {act} is the time to act",
        "Change water in several steps, not at one go; see Water changes.",
        **NITRATE,
        act=Figure(setting("nitrate_act"), "mg/L"),
    ),
    "old_test": Says(
        "note",
        "Not tested for long",
        "last tested on {day}",
        "Test it, and write it into the log.",
        day=day(readings.tested_on),
    ),
    "never_tested": Says(
        "note",
        "Not in the log yet",
        "no reading of it stands in the log",
        "Test ammonia, nitrite, nitrate, pH, GH and KH, and write them down.",
    ),
    "gas_high": Says(
        "watch",
        "Carbon dioxide high",
        "KH and pH make it {gas}, if carbonate is the only buffer",
        "Watch for gasping, aerate at night; check the pH and KH tests first. Cylinders: secured, room ventilated.",
        gas=Figure(readings.carbon_dioxide, "mg/L", 1),
    ),
}

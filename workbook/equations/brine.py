"""Brine shrimp: how many nauplii animals want, how many cysts give them, when to set a hatch, what age takes from them."""

from workbook.tables.formula import equation


@equation
def nauplii_by_mass(dry: str, each: str = "{const.nauplius_mass}") -> str:
    """Nauplii that hold a dry mass of food.

    n = dry * 10^6 / mass of one

    dry [g/day]: dry food that is to come from nauplii
    each [ug]: dry mass of one newly hatched nauplius, 1.6 to 2.5, up to 4.6 for strains that need no mate
    returns [1/day]: nauplii
    source: lavens_1996, chapter 4, masses by strain from memory
    """
    return f"{dry}*10^6/{each}"


@equation
def nauplii_of_fry(fry: str, each: str, meals: str) -> str:
    """Nauplii for a brood.

    n = fry * each * meals

    fry [1]: young that eat nauplii
    each [1]: nauplii for one of them at a meal
    meals [1/day]: meals a day, 2 to 6
    returns [1/day]: nauplii
    source: definition
    """
    return f"{fry}*{each}*{meals}"


@equation
def yield_of_cysts(per_gram: str, hatched: str, harvested: str) -> str:
    """Nauplii in the net from a gram of cysts.

    yield = cysts per gram * share that hatches * share that is harvested

    per_gram [1/g]: cysts in a gram, 200000 to 300000
    hatched [1]: share that hatches, 0.6 to 0.95; see the label
    harvested [1]: share of the hatched that gets into the net, about 0.9
    returns [1/g]: nauplii for a gram of cysts
    source: lavens_1996, chapter 4, hatching efficiency, from memory
    """
    return f"{per_gram}*{hatched}*{harvested}"


@equation
def cysts(nauplii: str, yield_: str) -> str:
    """Cysts to set for so many nauplii.

    cysts = n / yield

    nauplii [1]: wanted from one hatch
    yield_ [1/g]: nauplii in the net for a gram of cysts, above 0
    returns [g]: dry cysts
    source: definition
    """
    return f"{nauplii}/{yield_}"


@equation
def litres(cysts: str, density: str) -> str:
    """Water in which cysts hatch.

    V = cysts / density

    cysts [g]: set at one go
    density [g/L]: cysts in a litre, up to 5 below 20 L and 2 above, with strong air
    returns [L]: salt water
    source: lavens_1996, chapter 4, densities from memory
    """
    return f"{cysts}/{density}"


@equation
def salt(volume: str, salinity: str) -> str:
    """Salt for the water of a hatch.

    m = V * S

    volume [L]: of the hatch
    salinity [g/L]: 5 to 35; free of iodine and additives
    returns [g]: salt
    source: definition
    """
    return f"{volume}*{salinity}"


@equation
def hatch_time(
    temperature: str,
    reference: str = "{const.brine_hatch_hours}",
    at: str = "{const.brine_hatch_temperature}",
    zero: str = "{const.brine_zero}",
) -> str:
    """Hours from wetting the cysts to the harvest.

    hours = reference * (T_ref - T_zero) / (T - T_zero)

    temperature [degC]: T, of the hatching water, 18 to 30 and above T_zero
    reference [h]: hours at T_ref, 18 to 30 by strain
    at [degC]: T_ref at which those hours hold
    zero [degC]: T_zero at which hatching would come to rest if it slowed in a straight line
    returns [h]: hours; at the cool end good to a quarter
    source: memory, straight line through 24 hours at 28 degC and 48 at 20
    """
    return f"{reference}*({at}-{zero})/({temperature}-{zero})"


@equation
def energy_left(age: str, loss: str = "{const.nauplius_loss}") -> str:
    """Share of its energy that a nauplius still has.

    left = (1 - loss) ^ (age / 24)

    age [h]: since the harvest of newly hatched nauplii, kept warm and not fed, 0 to 48
    loss [1]: share lost in the first 24 hours, 0.22 to 0.37
    returns [1]: share of the energy of a newly hatched one
    source: vanhaecke_1983, loss of the first day by strain
    """
    return f"(1-{loss})^({age}/24)"


@equation
def start_hour(feed: str, hours: str) -> str:
    """Hour of the day at which to set a hatch.

    start = feed - hours, on a clock of 24 hours, to 9 decimals

    feed [h]: hour of the day at which it is harvested and fed, 0 to 24
    hours [h]: that it takes to hatch
    returns [h]: hour of the day, 0 to 24
    source: definition
    """
    return f"MOD(ROUND({feed}-{hours},9),24)"


@equation
def days_before(feed: str, hours: str) -> str:
    """Days before the feed on which the hatch is set.

    days = 0 - whole part of (feed - hours, to 9 decimals) / 24

    feed [h]: hour of the day at which it is harvested and fed, 0 to 24
    hours [h]: that it takes to hatch
    returns [day]: 0 on the same day, 1 the day before
    source: definition
    """
    return f"0-INT(ROUND({feed}-{hours},9)/24)"


@equation
def vessels(hours: str, volume: str, vessel: str, turn: str = "{const.vessel_turn}") -> str:
    """Vessels in rotation, so that a hatch is ready every day.

    n = (hours + turn) / 24 * volume / vessel, both parts rounded up to 0 decimals, after 6

    hours [h]: that a hatch takes
    volume [L]: of one hatch
    vessel [L]: one vessel holds, above 0
    turn [h]: to empty, scrub and fill it again
    returns [1]: vessels
    source: definition
    """
    return f"ROUNDUP(ROUND(({hours}+{turn})/24,6),0)*ROUNDUP(ROUND({volume}/{vessel},6),0)"

"""Eggs and young: how warmth hurries them, how fast they grow, how much room they want."""

from workbook.tables.formula import equation


@equation
def pace(temperature: str, reference: str, zero: str = "{const.hatch_zero}") -> str:
    """How many times as long eggs and larvae take as at the temperature for which days are known.

    pace = (T_ref - T_zero) / (T - T_zero): development in a straight line with warmth

    temperature [degC]: T, of the water, above T_zero; measured on zebrafish from 25 to 33
    reference [degC]: T_ref for which the days are known, above T_zero
    zero [degC]: T_zero at which development would come to rest, 0.57 / 0.055 = 10.4 of the zebrafish
    returns [1]: 1 at T_ref, above 1 where it is cooler; for other fishes within some 4 degrees of T_ref, from memory
    source: kimmel_1995, hours at T over hours at 28.5 degC: 1 / (0.055 T - 0.57)
    """
    return f"({reference}-{zero})/({temperature}-{zero})"


@equation
def days_at(days: str, pace: str) -> str:
    """Days of a stage at the water's own temperature.

    days = days at the reference * pace

    days [day]: at the reference temperature
    pace [1]: how many times as long it takes
    returns [day]: days
    source: definition
    """
    return f"{days}*{pace}"


@equation
def days_to_length(
    length: str,
    adult: str,
    start: str = "{const.fry_length}",
    grown: str = "{const.grown_days}",
    of: str = "{const.rule_reference_length}",
) -> str:
    """Days from free swimming until a young animal has a length.

    t = ln((L_adult - L_0) / (L_adult - L)) / K,  K = 3 / (grown days * sqrt(L_adult / L_ref))

    length [cm]: L, above L_0 and below L_adult
    adult [cm]: L_adult, total length of a grown animal
    start [cm]: L_0 when it first swims
    grown [day]: until an animal of L_ref has 95 % of its length, well fed and with room
    of [cm]: L_ref
    returns [day]: days; food, room and warmth make it a half longer or shorter; the square root is from memory
    source: bertalanffy_1938, growth in length
    """
    return f"LN(({adult}-{start})/({adult}-{length}))*{grown}*SQRT({adult}/{of})/3"


@equation
def length_after(
    length: str,
    adult: str,
    days: str,
    grown: str = "{const.grown_days}",
    of: str = "{const.rule_reference_length}",
) -> str:
    """Length of a young animal some days later.

    L2 = L_adult - (L_adult - L1) * exp(-K t),  K = 3 / (grown days * sqrt(L_adult / L_ref))

    length [cm]: L1, at most L_adult
    adult [cm]: L_adult, total length of a grown animal
    days [day]: t
    grown [day]: until an animal of L_ref has 95 % of its length, well fed and with room
    of [cm]: L_ref
    returns [cm]: length; food, room and warmth make the days a half longer or shorter; the square root is from memory
    source: bertalanffy_1938, growth in length
    """
    return f"{adult}-({adult}-{length})*EXP(-3*{days}/({grown}*SQRT({adult}/{of})))"


@equation
def room_for_young(young: str, length: str, per_litre: str = "{const.fry_length_per_litre}") -> str:
    """Tank that young animals want when they are to be parted with.

    V = n * L / length per litre

    young [1]: how many
    length [cm]: of each
    per_litre [cm/L]: body length to the litre, with a part of the water changed each day
    returns [L]: net volume
    source: common_practice
    """
    return f"{young}*{length}/{per_litre}"

"""What of the list of species stands where: typed first by most people, and shown beside it."""

# The eight first are all that a species needs to be reckoned with.
OFTEN = (
    "species", "kind", "adult_length", "body_form", "group_min", "temper", "temperature_low", "temperature_high",
    "ph_low", "ph_high", "gh_low", "gh_high", "kh_low", "kh_high", "volume_min", "group_best", "zone", "swim",
    "mouth_share", "eats_shrimp", "bites_fins", "long_fins", "diet",
)  # fmt: skip
SHOWN = (
    "kept", "completeness", "adult_mass", "oxygen", "used_temperature_low", "used_temperature_high", "used_ph_low",
    "used_ph_high", "used_gh_low", "used_gh_high", "used_kh_low", "used_kh_high",
)  # fmt: skip

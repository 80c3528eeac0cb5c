"""Defaults of the constants, typed from the domain notes: what the shared table of constants must agree with."""

# In the domain notes, by section; a month is a twelfth of 365.25 days.
MODEL = {
    "activity": 2.0, "oxycalorific": 13.56, "assimilated_share": 0.70, "food_energy": 18_000.0, "protein_default": 0.45,
    "ammonia_yield": 0.092, "nitrate_yield": 0.5, "plant_uptake": 0.0, "oxygen_start_share": 1.0, "oxygen_stop": 3.0,
}  # fmt: skip
TANK = {
    "porosity": 0.40, "rock_density": 2.6, "wood_density": (1.0 + 1.2) / 2, "glass_density": 2.5, "water_density": 0.997, "grain_density": 2.65,
    "u_glass": 7.0, "u_top_covered": 6.0, "u_top_open": 20.0, "u_floor": 3.0, "heater_margin": 1.5, "heater_caution": 5.0 * 2,
    "turnover_low": 4.0, "turnover_gentle": 2.0,
}  # fmt: skip
ANIMALS = {
    "swim_active": 6.0, "swim_calm": 4.0, "swim_sedentary": 3.0, "bottom_holds": 2.0, "bottom_social": 1.0, "rule_length_per_litre": 0.67,
    "rule_reference_length": 5.0, "temper_watch": 2.0, "temper_clash": 3.0, "narrow_temperature": 1.0, "narrow_ph": 0.3, "narrow_gh": 2.0,
    "narrow_kh": 1.0, "quarantine_days": 4.0 * 7,
}  # fmt: skip
WATER = {"toxic_caution": 0.02, "toxic_act": 0.05, "temperature_step": 2.0, "pairs_least": 3.0}
# Live brine shrimp in the domain notes; hatch share the middle of 70 to 90 %, cysts in a gram with it the middle of 200,000 to 300,000
# nauplii. The speed of development is 0 where 0.055 T - 0.57 is.
LIVE = {
    "nauplius_mass": 1.63, "hatched_share": (0.70 + 0.90) / 2, "harvested_share": 0.9, "cysts_per_gram": 270_000.0, "brine_hatch_hours": 24.0, "brine_hatch_temperature": 28.0,
    "brine_temperature_low": 25.0, "brine_temperature_high": 28.0, "brine_salinity": (15.0 + 35.0) / 2, "brine_salinity_low": 15.0,
    "brine_ph_low": 8.0, "brine_ph_high": 8.5, "cyst_density": 2.0, "cyst_density_most": 5.0, "vessel_large": 20.0, "hatch_zero": round(0.57 / 0.055, 2),
    "fry_nauplii": 100.0, "fry_meals": 3.0, "fry_change_share": (0.10 + 0.20) / 2,
}  # fmt: skip
CALENDAR = {"month_days": 365.25 / 12}
STATED = MODEL | TANK | ANIMALS | WATER | LIVE | CALENDAR

# Choices of the sheets themselves: the domain notes name the thing but no number.
CHOSEN = {
    "water_share", "fittings_share", "heavy_tank", "oxygen_reserve_wanted", "turnover_high", "edge_share", "nearly_full", "days_very_late", "soon_days",
    "share_tolerance", "rows_left", "kh_floor", "carbon_dioxide_caution", "yield_odd", "nitrate_slack", "test_days",
    "pair_days_least", "nominal_allowance", "brine_zero", "vessel_turn", "nauplius_loss", "nauplius_oldest", "hatch_far", "egg_survival",
    "larva_survival", "fry_survival", "infusoria_lead", "infusoria_days", "second_food_days", "nauplii_days", "egg_risk_days", "move_days",
    "fry_length", "sale_share", "grown_days", "growth_ahead", "measured_part", "growth_spread", "fry_length_per_litre", "rearing_minutes",
    "like_size", "like_form", "like_zone", "like_temper", "like_colour", "like_group", "like_ranges",
    "plants_some", "plants_dense", "plants_fed", "plant_nitrogen", "easy_temperature", "easy_ph", "easy_gh", "large_tank", "thick_glass",
    "alike_lengths", "change_most", "choose_care", "choose_colour", "choose_crowded", "choose_ease", "choose_edge",
    "choose_factor", "choose_few", "choose_full", "choose_group", "choose_home", "choose_kin", "choose_lengths",
    "choose_niche", "choose_offered", "choose_peace", "choose_size", "choose_step", "choose_temper", "choose_water",
    "kin_family", "kin_order", "like_diet", "like_kin", "like_role", "like_swim", "tight",
}  # fmt: skip

# W = a * L^b by body form; shrimp and snails have no published one.
BODY_FORMS = {
    "eel-like": (0.00102, 3.06), "elongated": (0.00389, 3.12), "fusiform": (0.01122, 3.04), "short and deep": (0.01995, 3.01),
}  # fmt: skip

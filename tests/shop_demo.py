"""The invented shop of templates/shop-demo, drawn once from a seed: python -m tests.shop_demo writes it anew.

Everything in it is made up: the shop, its suppliers, prices, sales and losses. Only the species are real.
"""

import csv
import datetime
import random
import shutil
from pathlib import Path
from typing import Any

TEMPLATES = Path(__file__).parent.parent / "templates"
TARGET = TEMPLATES / "shop-demo"
TODAY = datetime.date(2026, 10, 5)
SEED = 20261005
ANIMAL_LINES, ALL_LINES = 230, 400
NOW = ("temperature", "ph", "gh", "kh")

# Racks: name, how many, outside length, width, height, glass; water, set temperature, pH, GH, KH.
RACKS = (
    ("Amber", 9, (100, 50, 50, 1.0), "Soft blend", (25.5, 6.6, 5, 2)),
    ("Birch", 10, (100, 50, 50, 1.0), "Half blend", (24.5, 7.1, 9, 5)),
    ("Cedar", 7, (100, 50, 50, 1.0), "Tap", (25, 7.7, 14, 8)),
    ("Dune", 3, (150, 60, 60, 1.2), "Tap", (25.5, 7.9, 15, 9)),
    ("Elm", 3, (80, 40, 40, 0.8), "Half blend", (20, 7.2, 9, 5)),
    ("Fern", 4, (60, 40, 40, 0.6), "Half blend", (23, 7.0, 8, 4)),
    ("Great", 1, (200, 70, 60, 1.5), "Half blend", (25, 7.2, 9, 5)),
    ("Quarantine", 3, (60, 40, 40, 0.6), "Half blend", (25, 7.1, 9, 5)),
)
WATERS = (
    ("Tap", "tap", 24, 7.8, 15, 9, 6, "", "", "", ""),
    ("Reverse osmosis", "reverse osmosis", 24, 6.2, 0.3, 0.2, 0.5, "", "", "", ""),
    ("Soft blend", "tap", "", 6.8, "", "", "", "Tap", "Reverse osmosis", 5, 3),
    ("Half blend", "tap", "", 7.3, "", "", "", "Tap", "Reverse osmosis", 9, ""),
)
SUPPLIERS = (
    ("Reedmere Fish Farm", 4, 250, "Invented. Own-bred livebearers and barbs; delivers on Tuesdays."),
    ("Okavi Import", 10, 600, "Invented. Wild and farmed fish by air; order by Friday noon."),
    ("Nettle Lane Breeders", 3, 80, "Invented. Two hobby breeders; dwarf cichlids and killifish."),
    ("Shrimp Loft", 5, 120, "Invented. Shrimp and snails."),
    ("Greenpond Plants", 4, 100, "Invented. Plants in pots and tissue cups."),
    ("Millrace Aquatics", 7, 300, "Invented. Filters, heaters, glass."),
    ("Brackenfold Foods", 6, 150, "Invented. Dry and frozen foods."),
    ("Cobble and Root", 12, 200, "Invented. Sand, stones, roots."),
)
PLANTS = (
    "Java fern", "Narrow-leaf java fern", "Dwarf anubias", "Broad-leaf anubias", "Amazon sword", "Dwarf sword", "Vallisneria", "Twisted vallisneria", "Water wisteria",
    "Hornwort", "Waterweed", "Java moss", "Christmas moss", "Crystalwort", "Dwarf hairgrass", "Brown crypt", "Green crypt", "Tall crypt", "Red ludwigia", "Rotala",
    "Water sprite", "Duckweed, portion", "Frogbit", "Amazon frogbit", "Water lettuce", "Tiger lotus", "Pennywort", "Moneywort", "Bacopa", "Cabomba", "Parrot feather",
    "Marsilea", "Dwarf baby tears", "Staurogyne", "Pogostemon", "Bolbitis fern", "Crinum", "Aponogeton bulb", "Banana plant", "Moss ball",
)  # fmt: skip
FOODS = (
    "Flake, 100 mL", "Flake, 250 mL", "Flake, 1 L", "Flake for herbivores, 250 mL", "Granules, fine, 100 mL", "Granules, medium, 250 mL", "Granules, coarse, 250 mL",
    "Pond sticks, 5 L", "Bottom wafers, 100 mL", "Bottom wafers, 250 mL", "Greens wafers, 250 mL", "Shrimp pellets, 100 mL", "Fry powder, 50 mL", "Betta granules, 50 mL",
    "Goldfish flake, 250 mL", "Cichlid sticks, 1 L", "Colour granules, 250 mL", "Spirulina tablets, 100 mL", "Freeze-dried bloodworm, 100 mL", "Freeze-dried tubifex, 100 mL",
    "Freeze-dried daphnia, 100 mL", "Frozen bloodworm, 100 g", "Frozen brine shrimp, 100 g", "Frozen daphnia, 100 g", "Frozen cyclops, 100 g", "Frozen mysis, 100 g",
    "Frozen krill, 100 g", "Frozen mosquito larvae, 100 g", "Frozen peas and garlic, 100 g", "Brine shrimp eggs, 50 g", "Holiday block", "Snail and shrimp sticks",
)  # fmt: skip
DRY = (
    "Sponge filter, small", "Sponge filter, large", "Inside filter to 100 L", "Inside filter to 200 L", "Hang-on filter", "Canister filter to 300 L", "Canister filter to 600 L",
    "Filter sponge, coarse", "Filter sponge, fine", "Filter wool, 100 g", "Ceramic rings, 1 L", "Carbon, 500 g", "Heater 25 W", "Heater 50 W", "Heater 100 W", "Heater 200 W",
    "Heater 300 W", "Heater guard", "Thermometer, glass", "Thermometer, digital", "Air pump, single", "Air pump, double", "Air pump on batteries", "Air hose, 2 m", "Check valve",
    "Air stone, small", "Air stone, long", "Air tap, five ways", "Lamp 60 cm", "Lamp 80 cm", "Lamp 100 cm", "Timer", "Residual-current plug", "Net, small", "Net, medium", "Net, large",
    "Gravel cleaner", "Siphon hose, 3 m", "Bucket, 12 L", "Algae pad", "Algae magnet, small", "Algae magnet, large", "Pane scraper", "Planting tongs", "Plant scissors",
    "Breeding box", "Breeding net", "Spawning mop", "Clay cave", "Clay tube", "Coconut half", "Glass tank 54 L", "Glass tank 112 L", "Glass tank 180 L", "Glass tank 240 L",
    "Cover glass 60 cm", "Cover glass 80 cm", "Cover glass 100 cm", "Stand 60 cm", "Stand 100 cm", "Foam mat 60 cm", "Foam mat 100 cm", "Fine sand, 5 kg", "Fine sand, 25 kg",
    "Dark gravel, 5 kg", "Dark gravel, 25 kg", "Plant soil, 8 L", "River pebbles, 5 kg", "Slate, per kg", "Lava rock, per kg", "Root, small", "Root, medium", "Root, large",
    "Almond leaves, 10", "Alder cones, 20", "Peat granules, 1 L", "Water conditioner, 100 mL", "Water conditioner, 500 mL", "Plant fertiliser, 250 mL", "Root tablets, 10",
    "Test pH", "Test GH", "Test KH", "Test ammonia", "Test nitrite", "Test nitrate", "Test strips, 50", "Mineral salt, 500 g", "Reverse osmosis unit", "Prefilter cartridge",
    "Feeding ring", "Food tongs", "Automatic feeder", "Background, black, 100 cm", "Fish bag, 50", "Transport box", "Towel", "Gloves, long", "Battery for the air pump", "Spare impeller", "Suction cups, 4",
)  # fmt: skip


def _species() -> list[dict[str, str]]:
    with (TEMPLATES / "shared" / "species.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def write(name: str, header: list[str], rows: list[list[Any]]) -> None:
    """One file; blanks as nothing."""
    with (TARGET / f"{name}.csv").open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerows([header, *rows])


def display_tanks() -> list[dict[str, Any]]:
    """Every tank with its water."""
    found = []
    for rack, number, size, water, kept in RACKS:
        for n in range(1, number + 1):
            name = f"{rack} {n}" if number > 1 else f"{rack} tank"
            found.append(
                {"tank": name, "rack": rack, "size": size, "water": water, **dict(zip(NOW, kept, strict=True))}
            )
    return found


def net(tank: dict[str, Any]) -> float:
    """Litres, roughly."""
    length, width, height, glass = tank["size"]
    return (length - 2 * glass) * (width - 2 * glass) * (height - glass - 5) / 1000


def misfit(species: dict[str, str], tank: dict[str, Any], there: list[dict[str, str]]) -> float:
    """How badly a species would be housed in a tank."""
    bad = 0.0
    for p, wide in zip(NOW, (2, 0.5, 6, 4), strict=True):
        low, high = float(species[f"{p}_low"]), float(species[f"{p}_high"])
        bad += 4 * max(0, low - tank[p], tank[p] - high) / wide
    size, litres = float(species["adult_length"]), net(tank)
    bad += 3 * max(0, float(species["volume_min"]) * 0.85 / litres - 1) + len(there) * 0.55
    for other in there:
        length = float(other["adult_length"])
        bad += 6 * (float(other["mouth_share"]) * length > 0.97 * size) + 6 * (
            float(species["mouth_share"]) * size > 0.97 * length
        )
        bad += 5 * (abs(float(other["temper"]) - float(species["temper"])) >= 2)
        bad += 3 * (species["bites_fins"] == other["long_fins"] == "yes") + 3 * (
            other["bites_fins"] == species["long_fins"] == "yes"
        )
        bad += 4 * (
            "shrimp" in (species["kind"], other["kind"]) and "yes" in (species["eats_shrimp"], other["eats_shrimp"])
        )
        bad += 4 * (
            "snail" in (species["kind"], other["kind"]) and "yes" in (species["eats_snails"], other["eats_snails"])
        )
    return bad


def house(dice: random.Random, tanks: list[dict[str, Any]]) -> list[tuple[dict[str, str], dict[str, Any], bool]]:
    """Which species stands where, and whether it is in quarantine: the large first, each where it fits best."""
    sold = [s for s in _species() if float(s["volume_min"]) <= 180 or dice.random() < 0.08]
    dice.shuffle(sold)
    sold = sold[: ANIMAL_LINES - 22]
    sold.sort(key=lambda s: -float(s["volume_min"]))
    shown = [t for t in tanks if t["rack"] != "Quarantine"]
    there: dict[str, list[dict[str, str]]] = {t["tank"]: [] for t in tanks}
    found = []
    for species in [*sold, *dice.sample(sold[60:], 10)]:
        tank = min(shown, key=lambda t: misfit(species, t, there[t["tank"]]))
        if dice.random() < 0.03:
            tank = dice.choice(shown)
        there[tank["tank"]].append(species)
        found.append((species, tank, False))
    quarantine = [t for t in tanks if t["rack"] == "Quarantine"]
    found += [(s, quarantine[i % 3], True) for i, s in enumerate(dice.sample(sold[80:], 10))]
    found += [(s, dice.choice(shown), True) for s in dice.sample(sold[80:], 2)]
    return found


def ago(days: int) -> str:
    """A date so many days before the plan date."""
    return (TODAY - datetime.timedelta(days=days)).isoformat()


def priced(dice: random.Random, cost: float, factor: float) -> tuple[float, float]:
    """Cost and price, the price ending as prices do."""
    price = round(cost * factor * dice.uniform(0.9, 1.15) * 2) / 2
    return round(cost, 2), max(0.5, price - (0.1 if price > 3 else 0))


def trade(dice: random.Random, rate: float, pack: int) -> dict[str, Any]:
    """Stock, orders and sales of one line that sells about so many a month."""
    sold = max(0, round(dice.gauss(rate, rate / 4)))
    minimum = max(1, round(rate * 0.62 / pack + 0.5)) * pack
    up_to = minimum + max(pack, round(rate / pack) * pack)
    on_hand = max(0, round(dice.triangular(minimum * 0.4, up_to * 1.1, up_to * 0.8)))
    row = {
        "on_hand": on_hand, "reserved": 0, "minimum": minimum, "order_up_to": up_to, "incoming": 0, "incoming_on": "", "sold": sold, "lost": 0,
        "came_in": ago(dice.randint(3, 40)), "label": 1,
    }  # fmt: skip
    if dice.random() < 0.12 and on_hand:
        row["reserved"] = min(on_hand, dice.choice((1, 2, pack)))
    if on_hand < minimum and dice.random() < 0.5:
        row |= {"incoming": up_to - on_hand, "incoming_on": ago(-dice.randint(1, 9))}
    return row


def animals(dice: random.Random, tanks: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """The lines of animals."""
    rows = []
    housed = house(dice, tanks)
    order = {t["tank"]: i for i, t in enumerate(tanks)}
    housed.sort(key=lambda h: (order[h[1]["tank"]], h[0]["species"]))
    for number, (species, tank, waits) in enumerate(housed, 1):
        size, group = float(species["adult_length"]), int(species["group_min"])
        young = size > 9 and dice.random() < 0.8
        length = round(min(size, dice.uniform(4, 7)), 1) if young else ""
        rate = max(0.4, dice.gauss(3.2 if size < 6 else 1.3, 0.8)) * group**0.75
        row = trade(dice, rate, 5 if group >= 6 else 1)
        row["on_hand"] = min(row["on_hand"], 30 if size < 5 else 8)
        cost, price = priced(dice, 0.5 + 0.16 * (length or size) ** 1.15 + 0.25 * dice.random() ** 2 * size, 2.6)
        supplier = ("Shrimp Loft" if species["kind"] in {"shrimp", "snail"} else "Nettle Lane Breeders" if "cichlid" in species["species"] or "killi" in species["species"]
                    else dice.choice(("Reedmere Fish Farm", "Okavi Import")))  # fmt: skip
        row |= {
            "code": f"A{number:03}", "species": species["species"], "tank": tank["tank"], "length_now": length, "cost": cost, "price": price, "supplier": supplier,
            "feed_factor": 1.5 if young and dice.random() < 0.4 else "", "lost": dice.choice((0, 0, 1)) if row["on_hand"] > 11 else int(dice.random() < 0.02),
        }  # fmt: skip
        if waits:
            days = dice.randint(1, 12)
            row |= {
                "quarantine_until": ago(-28 + days),
                "came_in": ago(days),
                "sold": 0,
                "on_hand": max(group, row["on_hand"]),
                "reserved": 0,
                "label": 0,
            }
        elif dice.random() < 0.35:
            row["quarantine_until"] = ago(dice.randint(0, 30))
        elif row["came_in"] > ago(28):
            row["quarantine_until"] = ago(0)
        if dice.random() < 0.2:
            row["label"] = 2
        rows.append(row)
    return rows


def goods(dice: random.Random) -> list[dict[str, Any]]:
    """The lines of plants, foods and dry goods."""
    rows = []
    kinds = (
        ("P", "plant", PLANTS, "Greenpond Plants", 2.1),
        ("F", "food", FOODS, "Brackenfold Foods", 1.7),
        ("D", "dry goods", DRY, "", 1.55),
    )
    for letter, kind, names, supplier, factor in kinds:
        for number, name in enumerate(names, 1):
            cost, price = priced(
                dice, dice.uniform(1.2, 6) if kind != "dry goods" else dice.uniform(2, 9) ** 1.5, factor
            )
            row = trade(
                dice, dice.uniform(1, 14) if kind != "dry goods" else dice.uniform(0.3, 5), 5 if kind == "plant" else 1
            )
            own = (
                "Cobble and Root"
                if any(
                    word in name
                    for word in (
                        "sand",
                        "gravel",
                        "pebble",
                        "Root,",
                        "rock",
                        "Slate",
                        "cones",
                        "leaves",
                        "Clay",
                        "Coconut",
                    )
                )
                else "Millrace Aquatics"
            )
            row |= {
                "code": f"{letter}{number:03}",
                "goods": name,
                "goods_kind": kind,
                "cost": cost,
                "price": price,
                "supplier": supplier or own,
            }
            row["tank"] = f"Fern {1 + number % 4}" if kind == "plant" and number % 3 else ""
            rows.append(row)
    return rows


def troubles(dice: random.Random, rows: list[dict[str, Any]]) -> None:
    """A few lines on which each flag has something to say."""
    at = iter(dice.sample([r for r in rows if r["on_hand"] > 3 and "quarantine_until" not in r and "goods" in r], 24))
    for row in (next(at) for _ in range(6)):
        row |= {"sold": 0, "came_in": ago(dice.randint(95, 400)), "stock_note": "Nobody asks for it."}
    for row in (next(at) for _ in range(7)):
        row |= {"sold": 1, "came_in": ago(dice.randint(50, 88))}
    next(at)["price"] = 1.0
    for row in (next(at), next(at)):
        row |= {"incoming": 10, "incoming_on": ago(4)}
    next(at)["reserved"] = 40
    next(at)["minimum"] = 60
    next(at)["cost"] = ""
    next(at).update({"sold": "", "lost": ""})
    sick = dice.sample([r for r in rows if "species" in r and r["on_hand"] > 4], 6)
    for row in sick[:3]:
        row |= {"lost": round(row["on_hand"] * 0.6), "stock_note": "White spots since Friday; vet asked."}
    sick[3]["tank"] = ""
    for row in sick[4:]:
        row |= {"on_hand": 0, "reserved": 0, "incoming": 0, "incoming_on": "", "sold": 6}


LEDGER = ("date", "code", "event", "pieces", "each", "to_tank", "who", "ledger_note")
WEEK = 7


def week_of(dice: random.Random, rows: list[dict[str, Any]]) -> list[list[Any]]:
    """A week of sales and what else happens, of lines that were counted on its eve."""
    likely = [
        r
        for r in rows
        if r["on_hand"] > 5 and r["sold"] and not r.get("stock_note") and r.get("quarantine_until", "") <= ago(WEEK)
    ]
    some = dice.sample(likely, 40)
    events: list[tuple[int, str, str, int, Any, str]] = []
    for row in some:
        row["counted_on"] = ago(WEEK)
        left, many = row["on_hand"] - row["reserved"], max(1, round(row["sold"] / 12))
        for days in sorted(dice.sample(range(WEEK), dice.choice((1, 1, 2, 3))), reverse=True):
            if left > many:
                events.append((days, row["code"], "sold", many, "", ""))
                left -= many
    fish = [r for r in some if "species" in r]
    first, second, third, fourth = fish[:4]
    food = next(r for r in some if r.get("goods_kind") == "food")
    events += [
        (5, first["code"], "delivered", 20, round(first["cost"] * 1.1, 2), "Dearer than last time."),
        (5, first["code"], "dead on arrival", 2, round(first["cost"] * 1.1, 2), "Photograph sent."),
        (4, second["code"], "lost", 1, "", ""), (2, second["code"], "lost", 1, "", "Jumped."),
        (3, third["code"], "reserved", 2, "", "For Mrs Vale, until Saturday."), (1, third["code"], "reservation ended", 2, "", ""), (1, third["code"], "sold", 2, "", "Mrs Vale."),
        (2, fourth["code"], "returned", 1, "", "Tank too small."), (1, fourth["code"], "counted", fourth["on_hand"] - 1, "", "Two counts."),
        (6, food["code"], "own use", 1, "", "For the display tanks."),
    ]  # fmt: skip
    dice.shuffle(events)
    events.sort(key=lambda event: -event[0])
    told = [
        [ago(d), code, what, many, each, "", dice.choice(("Ida", "Jon", "Pia")), note]
        for d, code, what, many, each, note in events
    ]
    told[0][-1] = "Invented, as all of this week."
    waiting = (r for r in rows if r.get("tank", "").startswith("Quarantine") and r["on_hand"] > 6)
    one, twin = next(
        (r, t) for r in waiting for t in rows if t.get("species") == r["species"] and t is not r and t["tank"]
    )
    one["counted_on"] = twin["counted_on"] = ago(WEEK)
    told.append([ago(0), one["code"], "moved", 4, "", twin["tank"], "Ida", "Healthy: to the others."])
    return told


STOCK = ("code", "species", "goods", "goods_kind", "tank", "on_hand", "counted_on", "reserved", "quarantine_until", "came_in", "label", "cost", "price", "supplier", "minimum",
         "order_up_to", "incoming", "ordered_on", "incoming_on", "sold", "lost", "length_now", "measured_on", "males", "females", "feed_factor", "stock_note")  # fmt: skip
TANK = ("tank", "place", "shape", "measured", "length", "width", "height", "second_side", "glass", "water_below_rim", "substrate_depth", "porosity", "rock", "wood",
        "net_volume_measured", "water", "temperature", "ph", "gh", "kh", "lid", "filter_flow", "planted", "plant_uptake", "light", "cover", "ground", "background", "flow", "cycled",
        "cycled_on", "change_share", "change_interval", "floor_checked", "meals", "fasting_days", "standing", "tank_note")  # fmt: skip


def tank_rows(dice: random.Random, tanks: list[dict[str, Any]]) -> list[list[Any]]:
    """The tanks as they are typed."""
    rows = []
    for tank in tanks:
        length, width, height, glass = tank["size"]
        planted = tank["rack"] in {"Amber", "Fern"}
        kept = {
            **tank, "place": "Back room" if tank["rack"] == "Quarantine" else f"Rack {tank['rack']}", "shape": "box", "measured": "outside", "length": length, "width": width,
            "height": height, "glass": glass, "water_below_rim": 4, "substrate_depth": 0 if tank["rack"] == "Quarantine" else 3, "rock": 12 if tank["rack"] == "Dune" else 2,
            "wood": 1 if planted else 0, "lid": "yes", "filter_flow": round(net(tank) * dice.uniform(4.5, 7), -1), "planted": "some" if planted else "none", "cycled": "yes", "cycled_on": "2023-02-06", "change_share": 0.5,
            "change_interval": 2 if tank["rack"] in {"Dune", "Quarantine"} else 3, "floor_checked": "yes", "meals": 2, "fasting_days": 1,
        }  # fmt: skip
        rows.append([kept.get(key, "") for key in TANK])
    return rows


def log_rows(dice: random.Random, tanks: list[dict[str, Any]]) -> list[list[Any]]:
    """Readings of each tank every other week."""
    rows = []
    for days in (43, 29, 15, 1):
        for tank in tanks:
            nitrate = round(dice.triangular(5, 13, 7))
            jitter = [round(tank[p] + dice.uniform(-w, w), 1) for p, w in zip(NOW, (0.6, 0.2, 0.6, 0.6), strict=True)]
            rows.append(
                [
                    ago(days),
                    tank["tank"],
                    *jitter,
                    0,
                    0,
                    nitrate,
                    "",
                    "",
                    "tested",
                    "",
                    "",
                    "",
                    "Invented." if not rows else "",
                ]
            )
    rows[-12][6], rows[-25][7], rows[-30][8] = 0.2, 0.1, 56
    return rows


def main() -> None:
    """Write every file of the set."""
    dice, tanks = random.Random(SEED), display_tanks()
    TARGET.mkdir(exist_ok=True)
    lines = [*animals(dice, tanks), *goods(dice)][:ALL_LINES]
    troubles(dice, lines)
    write("ledger", list(LEDGER), week_of(random.Random(SEED + 1), lines))
    write("stock", list(STOCK), [[row.get(key, "") for key in STOCK] for row in lines])
    write(
        "suppliers",
        ["supplier", "delivery_days", "least_order", "settled_to", "supplier_note"],
        [[*row[:3], "", row[3]] for row in SUPPLIERS],
    )
    write("tanks", list(TANK), tank_rows(dice, tanks))
    write("waters", ["water", "water_kind", "temperature", "ph", "gh", "kh", "nitrate", "ammonia", "first_water", "second_water", "target_gh", "target_kh", "batch", "note"],
          [[*w[:7], 0 if w[2] else "", *w[7:], 600 if w[7] else "", ""] for w in WATERS])  # fmt: skip
    write(
        "log",
        [
            "date",
            "tank",
            "temperature",
            "ph",
            "gh",
            "kh",
            "ammonia",
            "nitrite",
            "nitrate",
            "litres_changed",
            "task",
            "work",
            "species",
            "losses",
            "arrivals",
            "log_note",
        ],
        log_rows(dice, tanks),
    )
    feeding = []
    for tank in tanks:
        small = tank["rack"] in {"Amber", "Birch", "Cedar", "Fern", "Elm"}
        main_food = (
            "Nano granules" if small else "Large granules" if tank["rack"] in {"Dune", "Great"} else "Community flake"
        )
        frozen = "Frozen cyclops" if small else "Frozen brine shrimp"
        feeding += [[tank["tank"], main_food, 0.7, ""], [tank["tank"], frozen, 0.3, ""]]
    write("feeding", ["tank", "food", "share", "feeding_note"], feeding)
    with (TEMPLATES / "demo" / "foods.csv").open(encoding="utf-8", newline="") as file:
        foods = list(csv.DictReader(file))
    for food in foods:
        food["stock"] = {
            "Community flake": "700",
            "Nano granules": "1400",
            "Large granules": "3100",
            "Frozen brine shrimp": "2200",
            "Frozen cyclops": "5200",
        }.get(food["food"], "0")
    write("foods", list(foods[0]), [list(food.values()) for food in foods])
    tasks = [("Count heads, take out the dead, write losses on Stock list", "all", 1, 1, 40, ""), ("Change water, racks Amber and Birch", "all", 3, 2, 120, "Conditioner; long hose"),
             ("Change water, racks Cedar to Fern", "all", 3, 1, 110, "Conditioner; long hose"), ("Change water", "Quarantine 1", 2, 1, 10, "Own hose and net"),
             ("Change water", "Quarantine 2", 2, 3, 10, "Own hose and net"), ("Change water", "Quarantine 3", 2, 2, 10, "Own hose and net"), ("Test ammonia and nitrite in quarantine", "all", 1, 2, 15, "Drop tests"),
             ("Test the residual-current devices", "all", 30, 33, 10, ""), ("Clean panes before opening", "all", 1, 1, 30, ""), ("Rinse sponges", "all", 14, 9, 60, "Bucket of tank water"),
             ("Send the order to suppliers", "all", 7, 6, 30, ""), ("Print labels for new lines", "all", 7, 7, 20, "")]  # fmt: skip
    write(
        "maintenance",
        ["task", "tank", "every_days", "last_done", "minutes", "supplies", "task_note"],
        [[t, where, every, ago(last), minutes, supplies, ""] for t, where, every, last, minutes, supplies in tasks],
    )
    invented = "Figures of an invented label"
    doses = (
        ("Rack conditioner", "conditioner", 10, "mL", 40, "each change", invented),
        ("Mineral powder", "minerals", 2, "g", 10, "each change", f"{invented}; for water from reverse osmosis"),
        ("Leaf fertiliser", "fertiliser", 5, "mL", 100, "all the water", f"{invented}; once a week in planted tanks"),
    )
    write(
        "doses",
        ["product", "dose_kind", "dose", "dose_unit", "stated_for", "dose_into", "dose_note"],
        [list(row) for row in doses],
    )
    settings = {
        "room_name": "Waterwheel Yard, a shop (invented)", "plan_date_typed": TODAY.isoformat(), "altitude": 110, "room_temperature": 19, "range_choice": "reported",
        "nitrate_target": 25, "nitrate_act": 50, "ammonia_kit": "N", "yield_choice": "room", "energy_price": 0.31, "currency": "EUR", "lead_days": 6,
    }  # fmt: skip
    write("settings", ["key", "value"], [list(item) for item in settings.items()])
    asked = {"length": 80, "width": 35, "height": 36, "temperature": 25, "ph": 7.2, "gh": 9, "kh": 5, "asked": "Pearl gourami",
             "kind_1": "Cardinal tetra", "number_1": 12, "kind_2": "Panda corydoras", "number_2": 6, "kind_3": "Honey gourami", "number_3": 2}  # fmt: skip
    write("question", ["key", "value"], [list(item) for item in asked.items()])
    for name in ("own_ranges", "breeding", "feeds", "hatching", "live_wants", "known"):
        shutil.copy(TEMPLATES / "blank" / f"{name}.csv", TARGET / f"{name}.csv")


if __name__ == "__main__":
    main()

"""How much food covers what animals use."""

from workbook.tables.formula import equation


@equation
def ration(
    oxygen: str,
    oxycalorific: str = "{const.oxycalorific}",
    assimilated: str = "{const.assimilated_share}",
    energy: str = "{const.food_energy}",
) -> str:
    """Dry food that covers what animals burn.

    ration = MO2 * 24 * q / (assimilated * energy)

    oxygen [mg/h]: everyday draw
    oxycalorific [J/mg]: q, energy set free by each mg of oxygen, 13 to 14.2
    assimilated [1]: share of the food energy that the animal can use, 0.5 to 0.9
    energy [J/g]: of dry food, 14000 to 24000
    returns [g/day]: dry food that keeps the mass, growth not counted
    source: elliott_1975, oxycalorific coefficient
    """
    return f"{oxygen}*24*{oxycalorific}/({assimilated}*{energy})"


@equation
def with_growth(ration: str, factor: str) -> str:
    """Dry food with what the keeper adds for growth or conditioning.

    food = ration * factor

    ration [g/day]: that keeps the mass
    factor [1]: 1 to keep, about 1.5 for growing on
    returns [g/day]: dry food
    source: common_practice
    """
    return f"{ration}*{factor}"


@equation
def as_fed(dry: str, dry_matter: str) -> str:
    """Food as it comes out of the pack from its dry mass.

    as fed = dry / dry matter

    dry [g/day]: dry food
    dry_matter [1]: dry share of the food, 0.05 to 0.97
    returns [g/day]: food as fed
    source: definition
    """
    return f"{dry}/{dry_matter}"


@equation
def protein_of_dry_matter(label: str, dry_matter: str) -> str:
    """Protein share of the dry food from the share on the label.

    protein = label / dry matter

    label [1]: protein share of the food as sold
    dry_matter [1]: dry share of the food, at least the label share
    returns [1]: protein share of dry matter
    source: definition
    """
    return f"{label}/{dry_matter}"


@equation
def spoons(mass: str, spoon_mass: str) -> str:
    """Level teaspoons that hold a mass of food.

    spoons = m / spoon mass

    mass [g]: food as fed
    spoon_mass [g]: of one level teaspoon of this food; weigh your own
    returns [1]: level teaspoons
    source: definition
    """
    return f"{mass}/{spoon_mass}"


@equation
def pieces(mass: str, piece_mass: str) -> str:
    """Pieces of a food, such as cubes, wafers or pinches.

    n = m / piece

    mass [g]: of food as fed
    piece_mass [g]: one piece, above 0
    returns [1]: pieces
    source: definition
    """
    return f"{mass}/{piece_mass}"


@equation
def per_meal(daily: str, meals: str) -> str:
    """Food for one meal.

    meal = daily / meals

    daily [g/day]: food of a feeding day
    meals [1/day]: meals on a feeding day, at least 1
    returns [g]: food for one meal
    source: definition
    """
    return f"{daily}/{meals}"

"""A book of as many invented recipes as are asked for, for measuring lists and searches.

``invented_book(5000)`` gives the same 5,000 recipes every time: titles, components, lines
from the foods of the demonstration college, steps and techniques. Nothing of it was cooked;
weights, minutes and settings are made up within what a kitchen would write.
"""

from dataclasses import dataclass
from itertools import product
from random import Random

from curriculum import wording
from curriculum.recipes.data import (
    AfterData,
    ComponentData,
    FoodData,
    LineData,
    RecipeData,
    StayData,
    StepData,
    WayData,
)
from tests.builders.recipes import college_food

LEVELS = ("foundation", "intermediate", "advanced")


@dataclass(frozen=True, slots=True)
class Part:
    """One component: foods by role with grams from and to, and the step that makes it.

    ``foods`` holds (food codes to choose from, least grams, most grams). ``oven`` is the
    setting in degrees Celsius and the minutes; ``waits`` an appliance and the minutes in it.
    """

    name: str
    foods: tuple[tuple[str, int, int], ...]
    words: str
    techniques: str
    minutes: tuple[int, int]
    oven: tuple[int, int] | None = None
    waits: tuple[str, int] | None = None


SEASONING = ("fine_salt coarse_sea_salt", 3, 8)
ROOTS = "carrot parsnip turnip swede celeriac beetroot"
GREENS = "leek spinach kale white_cabbage broccoli green_beans courgette fennel_bulb"
FRUIT = (
    "cooking_apple firm_pear plum rhubarb blueberries blackberries raspberries sweet_cherries apricot_fresh"
)
MEATS = "beef_shin beef_chuck lamb_shoulder pork_belly pork_tenderloin duck_whole whole_chicken veal_leg"
FISHES = "salmon_fillet cod_fillet haddock_fillet mackerel_fillet trout_fillet whiting_fillet"
PULSES = "red_lentils chickpeas_dried haricot_beans_dried split_peas_green black_beans_dried"
NUTS = "ground_almonds hazelnuts walnut_halves pistachio_kernels pecan_halves"
HERBS = "flat_parsley basil dill rosemary mint tarragon thyme chives"
SPICES = "cumin_seed sweet_paprika turmeric_ground curry_powder black_pepper_ground fennel_seed"
CHEESES = "mature_cheddar gruyere parmesan goats_cheese_soft blue_cheese feta"
FLOURS = "soft_wheat_flour strong_wheat_flour wholemeal_wheat_flour spelt_flour cake_wheat_flour"
LIQUIDS = "white_chicken_stock vegetable_stock brown_beef_stock fish_stock"

PASTE = Part(
    "Paste",
    (
        (FLOURS, 200, 280),
        ("unsalted_butter salted_butter lard", 100, 150),
        ("egg_beaten water", 30, 60),
        SEASONING,
    ),
    "Rub in, bind, rest and pin out; line the tin.",
    "weighing rubbing_in binding_paste resting_paste pinning_out lining_ring",
    (16, 28),
    waits=("chiller", 30),
)
CUSTARD = Part(
    "Custard",
    (
        ("double_cream_48 whole_milk single_cream_18", 200, 400),
        ("egg_beaten", 100, 200),
        (CHEESES, 80, 160),
        SEASONING,
    ),
    "Mix the custard, strain, fill and bake to a slight tremble.",
    "baked_custard probing",
    (8, 14),
    oven=(150, 35),
)
FRUIT_FILLING = Part(
    "Fruit",
    ((FRUIT, 300, 600), ("caster_sugar demerara_sugar clear_honey", 60, 120), (f"{NUTS} star_anise", 20, 60)),
    "Cut the fruit, poach it in its sugar and cool it.",
    "veg_cuts poaching_fruit",
    (10, 18),
    waits=("blast_chiller", 20),
)
SPONGE = Part(
    "Sponge",
    (
        ("egg_beaten", 180, 260),
        ("caster_sugar", 100, 160),
        (FLOURS, 100, 160),
        (f"{NUTS} cocoa_powder", 20, 50),
    ),
    "Whisk to the ribbon, fold in the flour and bake.",
    "ribbon_foam folding sponge_bake",
    (18, 26),
    oven=(180, 25),
)
CREAM = Part(
    "Cream",
    (
        ("whipping_cream_38 double_cream_48 mascarpone", 250, 500),
        ("icing_sugar", 20, 60),
        ("vanilla_paste", 2, 6),
    ),
    "Whip to a soft peak and pipe.",
    "whipping_cream piping",
    (6, 12),
)
MOUSSE = Part(
    "Mousse",
    (
        ("dark_couverture_62 milk_couverture_35 passion_fruit_pulp", 150, 260),
        ("whipping_cream_38", 250, 400),
        ("egg_yolk egg_white", 60, 120),
        ("leaf_gelatine_gold leaf_gelatine_silver", 4, 8),
    ),
    "Melt, bind with gelatine, fold in the cream and fill.",
    "gelatine folding tempering",
    (14, 22),
    waits=("blast_chiller", 60),
)
DOUGH = Part(
    "Dough",
    (
        ("strong_wheat_flour wholemeal_wheat_flour rye_flour_medium", 400, 600),
        ("water whole_milk", 240, 360),
        ("fresh_yeast dried_active_yeast", 6, 16),
        SEASONING,
        ("unsalted_butter olive_oil", 20, 60),
    ),
    "Mix, develop, prove, scale, mould, prove again and bake.",
    "dough_temperature dough_development fermentation scaling_moulding proving_baking",
    (24, 34),
    oven=(220, 22),
    waits=("prover", 60),
)
BRAISE = Part(
    "Braise",
    (
        (MEATS, 600, 1000),
        (ROOTS, 150, 300),
        ("onion shallot leek", 100, 200),
        ("dry_red_wine dry_white_wine", 100, 200),
        (LIQUIDS, 400, 700),
        SEASONING,
    ),
    "Seal the meat, sweat the roots, wet, cover and braise until tender.",
    "saute_sear sweating braising probing",
    (22, 32),
    oven=(160, 90),
)
FISH = Part(
    "Fish",
    (
        (FISHES, 500, 700),
        ("shallot", 20, 40),
        ("dry_white_wine", 60, 120),
        ("fish_stock", 100, 200),
        SEASONING,
    ),
    "Poach shallow under a paper lid; keep the liquor for the sauce.",
    "filleting_flatfish shallow_poaching probing",
    (14, 22),
)
SAUCE = Part(
    "Sauce",
    (
        (LIQUIDS, 200, 400),
        ("double_cream_48 creme_fraiche_30 unsalted_butter", 50, 120),
        (HERBS, 2, 8),
        (SPICES, 1, 4),
    ),
    "Reduce, mount and season the sauce.",
    "reduction butter_mounting tasting_seasoning",
    (10, 16),
)
VEGETABLES = Part(
    "Vegetables",
    ((GREENS, 250, 500), (ROOTS, 100, 300), ("unsalted_butter olive_oil", 15, 40), SEASONING),
    "Cut, blanch, refresh and glaze the vegetables.",
    "knife_hold veg_cuts blanching",
    (12, 20),
)
GRAINS = Part(
    "Grain",
    (
        (f"risotto_rice long_grain_rice pearl_barley quinoa bulgur_wheat {PULSES}", 200, 350),
        ("onion shallot", 40, 80),
        (LIQUIDS, 500, 900),
        SEASONING,
    ),
    "Sweat the onion, add the grain, wet by stages and cook to the bite.",
    "sweating tasting_seasoning",
    (18, 26),
)
SOUP = Part(
    "Soup",
    (
        (f"{GREENS} {ROOTS} garden_peas_frozen", 400, 700),
        ("onion leek", 80, 150),
        (LIQUIDS, 600, 900),
        SEASONING,
    ),
    "Sweat, wet, simmer, blend and pass.",
    "sweating tasting_seasoning",
    (16, 24),
)

#: What a dish is called, what it is made of, how many portions, and the lines that it is named after:
#: (component, line), each counted from 0.
DISHES: tuple[tuple[str, tuple[Part, ...], int, tuple[tuple[int, int], ...]], ...] = (
    ("tart", (PASTE, FRUIT_FILLING, CREAM), 8, ((1, 0), (1, 2))),
    ("savoury flan", (PASTE, VEGETABLES, CUSTARD), 8, ((1, 0), (2, 2))),
    ("layered sponge", (SPONGE, FRUIT_FILLING, CREAM), 12, ((1, 0), (0, 3))),
    ("mousse cake", (SPONGE, MOUSSE), 10, ((1, 0), (0, 3))),
    ("loaf", (DOUGH,), 16, ((0, 0), (0, 4))),
    ("braise", (BRAISE, VEGETABLES), 4, ((0, 0), (0, 1), (1, 0))),
    ("in sauce", (FISH, SAUCE, VEGETABLES), 4, ((0, 0), (1, 2), (2, 0))),
    ("pot", (GRAINS, VEGETABLES), 6, ((0, 0), (1, 0))),
    ("cream soup", (SOUP, SAUCE), 10, ((0, 0), (1, 2))),
    ("filled bun", (DOUGH, FRUIT_FILLING), 12, ((1, 0), (0, 0))),
)
MANNERS = ("", "Autumn", "Market", "Harbour", "Garden", "Old-style", "Light", "Winter", "Orchard", "Sunday")


def invented_book(count: int, seed: int = 1) -> list[RecipeData]:
    """So many recipes, the same for the same seed; every title and code stands once."""
    chance = Random(seed)
    turns = product(range(1 + count // (len(MANNERS) * len(DISHES))), MANNERS, DISHES)
    seen: dict[str, int] = {}
    made = []
    for number, (_, manner, (dish, parts, portions, named)) in zip(range(1, count + 1), turns, strict=False):
        components = tuple(_component(code, part, chance) for code, part in zip("ABC", parts, strict=False))
        title = _title(manner, dish, [components[part].lines[line].food for part, line in named])
        seen[title] = seen.get(title, 0) + 1
        if seen[title] > 1:
            title = f"{title}, {seen[title]}"
        made.append(_recipe(f"B{number:05d}", title, portions, parts, components, chance))
    return made


def _component(code: str, part: Part, chance: Random) -> ComponentData:
    lines = tuple(
        LineData(place, chance.choice(choice.split()), 1000 * chance.randint(least, most))
        for place, (choice, least, most) in enumerate(part.foods, start=1)
    )
    return ComponentData(code, part.name, "portions", lines)


def _title(manner: str, dish: str, foods: list[str]) -> str:
    """ "Market plum and walnut halves tart"."""
    names = [college_food(code).name.split(",")[0].lower() for code in dict.fromkeys(foods)]
    title = f"{manner} {wording.listed(names)} {dish}".strip()
    return title[0].upper() + title[1:]


def _recipe(
    code: str,
    title: str,
    portions: int,
    parts: tuple[Part, ...],
    components: tuple[ComponentData, ...],
    chance: Random,
) -> RecipeData:
    whole = sum(line.milligrams for each in components for line in each.lines)
    return RecipeData(
        code=code,
        title=title,
        number=1,
        level=chance.choice(LEVELS),
        portions_stated=portions,
        portions_obtainable=portions,
        portion_milligrams=whole * 8 // (10 * portions),
        components=components,
        steps=_steps(parts, components, chance),
        foods=_foods(components),
        presentation=f"{portions} portions.",
    )


def _steps(
    parts: tuple[Part, ...], components: tuple[ComponentData, ...], chance: Random
) -> tuple[StepData, ...]:
    """One step for each component, and one that brings them together."""
    made = tuple(
        StepData(
            place,
            part.words,
            (WayData("hand", chance.randint(*part.minutes)),),
            _stays(part),
            components=(component.code,),
            techniques=tuple(part.techniques.split()),
            cue="As the demonstration showed it.",
        )
        for place, (part, component) in enumerate(zip(parts, components, strict=True), start=1)
    )
    last = StepData(
        len(made) + 1,
        "Bring together, portion, plate and pass.",
        (WayData("hand", chance.randint(6, 14)),),
        after=tuple(AfterData(step.position) for step in made),
        components=tuple(component.code for component in components),
        techniques=("portioning_plating",),
        cue="Clean rim, every plate the same.",
    )
    return (*made, last)


def _stays(part: Part) -> tuple[StayData, ...]:
    waits = (StayData(part.waits[1], part.waits[0]),) if part.waits else ()
    oven = (StayData(part.oven[1], "oven", 10 * part.oven[0], "fan"),) if part.oven else ()
    return waits + oven


def _foods(components: tuple[ComponentData, ...]) -> tuple[FoodData, ...]:
    """Every food of the lines once, then the whole pieces that parts are made from."""
    codes = dict.fromkeys(line.food for each in components for line in each.lines)
    for code in list(codes):
        made_from = college_food(code).made_from
        if made_from is not None:
            codes.setdefault(made_from.food)
    return tuple(college_food(code) for code in codes)

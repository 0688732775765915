"""Figures of the demonstration college's own book and lessons, for tests to compare with.

Invented with the college and computed once, outside this project, by another program; no
source outside. Grams are exact to the tenth, whole pieces are whole.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Dish:
    """One batch as stated: grams, pence, minutes, kinds of allergen, and the kit of one bench.

    ``by_weight`` are portions that the finished weights give, ``had`` what is left after rejects.
    """

    line_grams: float | None
    finished_grams: int | None
    portion_grams: int | None
    by_weight: int | None
    had: int | None
    pence: int
    contains: str
    may_contain: str
    work_minutes: int | None
    wait_minutes: int | None
    chain_minutes: int
    one_cook_minutes: int
    kit: str

    def amounts(self) -> dict[str, float | int]:
        """The kit by food: grams as a float, whole pieces as an int."""
        found: dict[str, float | int] = {}
        for entry in self.kit.split(", "):
            food, figure, *pieces = entry.split()
            found[food] = int(figure) if pieces else float(figure)
        return found


DISHES: dict[str, Dish] = {
    "R01": Dish(
        line_grams=1524.8,
        finished_grams=1120,
        portion_grams=140,
        by_weight=8,
        had=8,
        pence=542,
        contains="egg milk wheat",
        may_contain="mustard",
        work_minutes=59,
        wait_minutes=130,
        chain_minutes=161,
        one_cook_minutes=161,
        kit=(
            "soft_wheat_flour 280, unsalted_butter 160, fine_salt 7, water 62, leek 400, "
            "mature_cheddar 120, double_cream_48 200, whole_milk 200, white_pepper_ground 0.5, "
            "nutmeg 0.3, egg_in_shell 5 pieces"
        ),
    ),
    "R02": Dish(
        line_grams=1464,
        finished_grams=1144,
        portion_grams=143,
        by_weight=8,
        had=8,
        pence=573,
        contains="egg milk wheat",
        may_contain="",
        work_minutes=67,
        wait_minutes=199,
        chain_minutes=221,
        one_cook_minutes=221,
        kit=(
            "soft_wheat_flour 220, unsalted_butter 120, icing_sugar 95, fine_salt 1, "
            "caster_sugar 200, double_cream_48 230, creme_fraiche_30 160, egg_in_shell 8 pieces, "
            "lemon 4 pieces"
        ),
    ),
    "R03": Dish(
        line_grams=1863,
        finished_grams=1446,
        portion_grams=111,
        by_weight=12,
        had=12,
        pence=533,
        contains="egg milk wheat",
        may_contain="",
        work_minutes=70,
        wait_minutes=120,
        chain_minutes=128,
        one_cook_minutes=130,
        kit=(
            "water 137, whole_milk 625, unsalted_butter 155, fine_salt 3, caster_sugar 115, "
            "strong_wheat_flour 140, cornflour 40, instant_coffee 13, white_fondant 300, "
            "egg_in_shell 11 pieces"
        ),
    ),
    "R04": Dish(
        line_grams=1619,
        finished_grams=1400,
        portion_grams=140,
        by_weight=10,
        had=10,
        pence=848,
        contains="almond egg milk wheat",
        may_contain="hazelnut walnut",
        work_minutes=74,
        wait_minutes=98,
        chain_minutes=140,
        one_cook_minutes=140,
        kit=(
            "caster_sugar 180, soft_wheat_flour 125, unsalted_butter 35, water 100, "
            "whipping_cream_38 500, icing_sugar 40, vanilla_paste 4, raspberries 309.3, "
            "raspberry_jam_seedless 80, flaked_almonds 60, egg_in_shell 4 pieces, lemon 1 pieces"
        ),
    ),
    "R05": Dish(
        line_grams=1777,
        finished_grams=1287,
        portion_grams=159,
        by_weight=8,
        had=8,
        pence=779,
        contains="egg milk wheat",
        may_contain="",
        work_minutes=68,
        wait_minutes=209,
        chain_minutes=200,
        one_cook_minutes=200,
        kit=(
            "whole_milk 250, caster_sugar 280, leaf_gelatine_gold 8, whipping_cream_38 250, "
            "rhubarb 465.1, water 250, star_anise 2, soft_wheat_flour 130, rice_flour 30, "
            "unsalted_butter 100, fine_salt 1, vanilla_pod 1 pieces, egg_in_shell 5 pieces, "
            "orange 1 pieces"
        ),
    ),
    "R06": Dish(
        line_grams=950,
        finished_grams=790,
        portion_grams=49,
        by_weight=16,
        had=16,
        pence=144,
        contains="egg milk wheat",
        may_contain="",
        work_minutes=51,
        wait_minutes=128,
        chain_minutes=179,
        one_cook_minutes=179,
        kit=(
            "strong_wheat_flour 520, whole_milk 310, fresh_yeast 15, caster_sugar 25, "
            "fine_salt 10, unsalted_butter 50, egg_in_shell 1 pieces"
        ),
    ),
    "R07": Dish(
        line_grams=1364.5,
        finished_grams=820,
        portion_grams=82,
        by_weight=10,
        had=10,
        pence=432,
        contains="egg milk wheat",
        may_contain="",
        work_minutes=71,
        wait_minutes=149,
        chain_minutes=181,
        one_cook_minutes=181,
        kit=(
            "strong_wheat_flour 330, unsalted_butter 250, fine_salt 5, water 150, firm_pear 641, "
            "light_brown_sugar 60, cinnamon_ground 1.5, cornflour 8, granulated_sugar 20, "
            "lemon 1 pieces, egg_in_shell 1 pieces"
        ),
    ),
    "R08": Dish(
        line_grams=1503,
        finished_grams=1346,
        portion_grams=155,
        by_weight=8,
        had=7,
        pence=783,
        contains="egg milk sulphites",
        may_contain="",
        work_minutes=58,
        wait_minutes=130,
        chain_minutes=126,
        one_cook_minutes=126,
        kit=(
            "caster_sugar 420, cornflour 15, white_wine_vinegar 5, vanilla_paste 3, "
            "passion_fruit_pulp 160, unsalted_butter 80, whipping_cream_38 300, icing_sugar 15, "
            "strawberries 229.9, egg_in_shell 7 pieces, lemon 1 pieces"
        ),
    ),
    "R09": Dish(
        line_grams=1164,
        finished_grams=624,
        portion_grams=52,
        by_weight=12,
        had=10,
        pence=1593,
        contains="milk soya",
        may_contain="almond hazelnut milk",
        work_minutes=89,
        wait_minutes=225,
        chain_minutes=267,
        one_cook_minutes=269,
        kit=(
            "dark_couverture_62 980, whipping_cream_38 120, glucose_syrup 20, unsalted_butter 30, "
            "coloured_cocoa_butter 10, orange 1 pieces"
        ),
    ),
    "R10": Dish(
        line_grams=1059.1,
        finished_grams=855,
        portion_grams=208,
        by_weight=4,
        had=4,
        pence=1102,
        contains="egg milk sulphites",
        may_contain="mustard",
        work_minutes=51,
        wait_minutes=18,
        chain_minutes=32,
        one_cook_minutes=51,
        kit=(
            "white_wine_vinegar 70, water 30, white_peppercorns 2, unsalted_butter 260, "
            "fine_salt 22, cayenne_pepper 0.1, asparagus 714.3, chervil 5, egg_in_shell 10 pieces, "
            "lemon 1 pieces"
        ),
    ),
    "R11": Dish(
        line_grams=3159.8,
        finished_grams=1595,
        portion_grams=390,
        by_weight=4,
        had=4,
        pence=1024,
        contains="celery egg milk sulphites",
        may_contain="mustard",
        work_minutes=115,
        wait_minutes=145,
        chain_minutes=118,
        one_cook_minutes=141,
        kit=(
            "fine_salt 6.5, chicken_breast_skinless 120, double_cream_48 145, "
            "white_pepper_ground 0.3, button_mushroom 206.2, shallot 82.4, unsalted_butter 135, "
            "thyme 3, waxy_potato 654.5, white_chicken_stock 250, garlic 5.7, dry_white_wine 100, "
            "brown_chicken_stock 500, green_beans 272.7, vegetable_oil 10, chicken_leg 4 pieces, "
            "egg_in_shell 1 pieces"
        ),
    ),
    "R12": Dish(
        line_grams=3187.6,
        finished_grams=1560,
        portion_grams=375,
        by_weight=4,
        had=4,
        pence=2007,
        contains="celery egg fish milk sulphites",
        may_contain="mustard",
        work_minutes=95,
        wait_minutes=59,
        chain_minutes=73,
        one_cook_minutes=101,
        kit=(
            "fine_salt 7.5, whiting_fillet 120, double_cream_48 130, cayenne_pepper 0.1, "
            "fish_stock 300, dry_white_wine 200, shallot 82.4, unsalted_butter 240, "
            "white_wine_vinegar 40, spinach 473, waxy_potato 727.3, chives 5, "
            "plaice_whole 2 pieces, egg_in_shell 1 pieces, lemon 1 pieces"
        ),
    ),
    "V1": Dish(
        line_grams=None,
        finished_grams=None,
        portion_grams=None,
        by_weight=None,
        had=None,
        pence=613,
        contains="egg milk",
        may_contain="lupin mustard",
        work_minutes=None,
        wait_minutes=None,
        chain_minutes=161,
        one_cook_minutes=161,
        kit=(
            "unsalted_butter 160, fine_salt 7, gluten_free_flour_blend 260, xanthan_gum 2, "
            "water 75, leek 400, mature_cheddar 120, double_cream_48 200, whole_milk 200, "
            "white_pepper_ground 0.5, nutmeg 0.3, rice_flour 20, egg_in_shell 5 pieces"
        ),
    ),
    "V2": Dish(
        line_grams=None,
        finished_grams=None,
        portion_grams=None,
        by_weight=None,
        had=None,
        pence=470,
        contains="milk wheat",
        may_contain="mustard",
        work_minutes=None,
        wait_minutes=None,
        chain_minutes=161,
        one_cook_minutes=161,
        kit=(
            "soft_wheat_flour 280, unsalted_butter 160, fine_salt 7, water 62, leek 400, "
            "mature_cheddar 120, white_pepper_ground 0.5, nutmeg 0.3, whole_milk 400, "
            "double_cream_48 170, cornflour 32"
        ),
    ),
    "V3": Dish(
        line_grams=None,
        finished_grams=None,
        portion_grams=None,
        by_weight=None,
        had=None,
        pence=503,
        contains="egg soya wheat",
        may_contain="",
        work_minutes=None,
        wait_minutes=None,
        chain_minutes=128,
        one_cook_minutes=130,
        kit=(
            "water 262, fine_salt 3, caster_sugar 115, strong_wheat_flour 140, "
            "plant_fat_block 150, cornflour 40, instant_coffee 13, soya_drink 500, "
            "white_fondant 300, vegetable_oil 5, egg_in_shell 11 pieces"
        ),
    ),
    "V4": Dish(
        line_grams=None,
        finished_grams=None,
        portion_grams=None,
        by_weight=None,
        had=None,
        pence=800,
        contains="egg milk wheat",
        may_contain="almond sulphites",
        work_minutes=None,
        wait_minutes=None,
        chain_minutes=140,
        one_cook_minutes=140,
        kit=(
            "caster_sugar 180, soft_wheat_flour 125, unsalted_butter 35, water 100, "
            "whipping_cream_38 500, icing_sugar 40, vanilla_paste 4, raspberries 309.3, "
            "raspberry_jam_seedless 80, desiccated_coconut 40, egg_in_shell 4 pieces, "
            "lemon 1 pieces"
        ),
    ),
    "V5": Dish(
        line_grams=None,
        finished_grams=None,
        portion_grams=None,
        by_weight=None,
        had=None,
        pence=133,
        contains="milk wheat",
        may_contain="",
        work_minutes=None,
        wait_minutes=None,
        chain_minutes=179,
        one_cook_minutes=179,
        kit=(
            "strong_wheat_flour 520, whole_milk 350, fresh_yeast 15, caster_sugar 25, "
            "fine_salt 10, unsalted_butter 50"
        ),
    ),
}


@dataclass(frozen=True)
class Planned:
    """One lesson of the college: minutes of its slot and of one cook, its kits and batches."""

    usable_minutes: int
    chain_minutes: int
    one_cook_minutes: int
    kits: int
    batches: int
    fits: bool | None
    shown_minutes: int = 0
    one_cook_with_shown: int | None = None
    butter: tuple[tuple[str, int], ...] = ()
    short: tuple[tuple[str, int], ...] = ()


LESSONS: dict[str, Planned] = {
    "main-1": Planned(135, 124, 124, 7, 9, True, 16, 130, (("LS-2207", 1000), ("LS-2219", 440)), ()),
    "main-2": Planned(195, 128, 130, 5, 7, True, 32, 149, (("LS-2219", 930),), (("white_fondant", 600),)),
    "week-1": Planned(105, 135, 137, 0, 1, None),
    "week-2": Planned(135, 32, 51, 7, 9, True),
    "week-3": Planned(195, 140, 140, 5, 6, True),
    "week-4": Planned(165, 161, 161, 7, 8, True),
    "week-5": Planned(135, 126, 126, 6, 7, True),
    "week-6": Planned(195, 73, 101, 7, 8, True),
    "week-7": Planned(165, 161, 161, 7, 8, True),
}

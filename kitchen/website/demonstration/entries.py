"""Turns the plain JSON of ``fixtures/`` into what the topics' actions are given.

Each function takes one file as it was read and returns entries in the file's order.
Units are those of the files: milligrams, pence, decicelsius, per mille, minutes.
"""

from datetime import date, time

from curriculum.courses.entries import CourseEntry, OutcomeEntry, PlannedEntry, UnitEntry
from curriculum.foods.entries import FoodEntry, PackEntry, SupplierEntry
from curriculum.people.entries import AdjustmentEntry, LearnerEntry, StaffEntry
from curriculum.techniques.entries import FaultEntry, TechniqueEntry
from kitchen.rooms.entries import (
    COOL_SECONDS_PER_10,
    HEAT_SECONDS_PER_10,
    ApplianceEntry,
    RoomEntry,
)
from kitchen.stores.barcodes import check_digit

WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")

#: What one appliance of a kind is called, and which of its figures says what can be used at once.
APPLIANCES = {
    "oven": ("Oven", "shelves"),
    "hob": ("Hob", "rings"),
    "fryer": ("Fryer", ""),
    "mixer": ("Mixer", ""),
    "food_processor": ("Food processor", ""),
    "prover": ("Prover", "shelves"),
    "chiller": ("Chiller", "shelves"),
    "blast_chiller": ("Blast chiller", "shelves"),
    "cool_cabinet": ("Cool cabinet", "shelves"),
    "freezer": ("Freezer", "shelves"),
    "torch_station": ("Torch station", "places"),
}


def techniques_in(file: dict) -> list[TechniqueEntry]:
    """The techniques with their faults, from techniques.json, with their sources in words."""
    titles = {each["code"]: each["title"] for each in file["sources"]}
    return [
        TechniqueEntry(
            code=each["code"],
            name=each["name"],
            level=each["level"],
            cue=each["cue"],
            needs=tuple(each.get("needs", ())),
            faults=tuple(FaultEntry(**fault) for fault in each["faults"]),
            source="; ".join(titles[source] for source in each["sources"]),
            supervised=each.get("supervised", False),
            outside_dishes=each.get("taught_outside_dishes", False),
        )
        for each in file["techniques"]
    ]


def foods_in(file: dict) -> list[FoodEntry]:
    """The foods, from foods.json, with the sources of their figures in words."""
    titles = {each["code"]: each["title"] for each in file["sources"]}
    return [_food(each, titles) for each in file["foods"]]


def _food(each: dict, titles: dict[str, str]) -> FoodEntry:
    made_from = each.get("made_from", {})
    read_on = each.get("label_read_on")
    return FoodEntry(
        code=each["code"],
        name=each["name"],
        storage=each["storage"],
        scaling_class=each["scaling_class"],
        increment_milligrams=each["increment_milligrams"],
        rounding=each["rounding"],
        usable_per_mille=each["usable_per_mille"],
        counted_in=each["counted_in"],
        contains=tuple(each["contains"]),
        may_contain=tuple(each["may_contain"]),
        facts=tuple(tuple(fact) for fact in each["facts"]),
        label_read_on=date.fromisoformat(read_on) if read_on else None,
        piece_milligrams=each.get("piece_milligrams"),
        edible_piece_milligrams=each.get("edible_piece_milligrams"),
        made_from=made_from.get("food"),
        made_from_milligrams=made_from.get("milligrams_per_piece"),
        milligrams_per_ml=each.get("milligrams_per_ml"),
        from_tap=each.get("from_tap", False),
        usable_source=_source(each, "usable", titles),
        density_source=_source(each, "milligrams_per_ml", titles),
        bloom=each.get("gelatine_bloom"),
        note=each.get("note", ""),
        piece_source=_source(each, "piece", titles),
        dough_part=each.get("dough_part", ""),
        piece_weights=tuple(
            (one["name"], one["milligrams"], _source(one, "", titles))
            for one in each.get("piece_weights", ())
        ),
        yield_figures=tuple(
            (one["usable_per_mille"], _source(one, "", titles)) for one in each.get("yield_figures", ())
        ),
    )


def _source(each: dict, figure: str, titles: dict[str, str]) -> str:
    """Where a figure is from, in words: the title of the source and its row; empty without the figure.

    ``figure`` is what the keys begin with ("usable"); empty for an entry that is one figure.
    """
    begins = f"{figure}_" if figure else ""
    parts = (titles.get(each.get(f"{begins}source", ""), ""), each.get(f"{begins}row", ""))
    return ", ".join(part for part in parts if part)


def suppliers_in(file: dict) -> list[SupplierEntry]:
    """The suppliers, from stores.json."""
    return [
        SupplierEntry(
            code=each["code"],
            name=each["name"],
            lead_days=each["lead_days"],
            cut_off=time.fromisoformat(each["order_cut_off"]),
            delivery_weekdays=tuple(WEEKDAYS.index(day) + 1 for day in each["delivery_weekdays"]),
            least_order_pence=each["minimum_order_pence"],
            delivery_pence=each["delivery_pence"],
        )
        for each in file["suppliers"]
    ]


def packs_in(file: dict, from_on: date, number_prefix: str = "") -> list[PackEntry]:
    """The packs, from stores.json, priced from that day on; numbered in their order after a prefix."""
    return [
        PackEntry(
            food=each["food"],
            supplier=each["supplier"],
            milligrams=each["milligrams"],
            pence=each["pence"],
            from_on=from_on,
            pieces=each.get("pieces"),
            for_costing=each.get("used_for_costing", False),
            gtin=pack_number(number_prefix, number) if number_prefix else "",
        )
        for number, each in enumerate(file["packs"], 1)
    ]


def pack_number(prefix: str, number: int) -> str:
    """A GTIN of fourteen digits for a pack of a list: prefix, place in the list, check digit."""
    body = f"0{prefix}{number:09d}"
    return f"{body}{check_digit(body)}"


def staff_in(file: dict) -> list[StaffEntry]:
    """The staff, from college.json."""
    return [StaffEntry(each["code"], each["name"], tuple(each["roles"])) for each in file["staff"]]


def learners_in(file: dict) -> list[LearnerEntry]:
    """The learners with their adjustments, from college.json."""
    return [
        LearnerEntry(
            username=each["code"],
            name=each["name"],
            college_number=each["college_number"],
            group=each["group"],
            born_on=date.fromisoformat(each["born_on"]),
            left_handed=each.get("left_handed", False),
            photograph_allowed=each["photograph_of_plate"],
            guardian_consent=each.get("guardian_consent"),
            emergency_note=each.get("emergency_note", ""),
            tasting_note=each.get("tasting", ""),
            adjustments=tuple(AdjustmentEntry(**one) for one in each.get("adjustments", ())),
        )
        for each in file["learners"]
    ]


def rooms_in(file: dict) -> list[RoomEntry]:
    """The rooms with what stands in them, from rooms.json."""
    return [
        RoomEntry(
            code=each["code"],
            name=each["name"],
            purpose=each["purpose"],
            seats=each["seats"],
            decicelsius=each["room_decicelsius"],
            benches=tuple((int(bench["code"]), bench["cooks"]) for bench in each["benches"]),
            appliances=tuple(_appliance(one) for one in each["appliances"]),
            equipment=tuple((one["item"], one["count"]) for one in each["equipment"]),
            note=each["note"],
        )
        for each in file["rooms"]
    ]


def _appliance(each: dict) -> ApplianceEntry:
    word, counted = APPLIANCES[each["kind"]]
    deck = f", {each['part']} deck" if "part" in each else ""
    bowl = f"bowl of {each['bowl_ml'] // 1000} l" if "bowl_ml" in each else ""
    return ApplianceEntry(
        code=each["code"],
        name=f"{word} {each['number']}{deck}",
        kind=each["kind"],
        units=each[counted] if counted else 1,
        body=each.get("part_of", ""),
        heat=tuple(each.get("heat", ())),
        heat_seconds_per_10=each.get("heat_seconds_per_10", HEAT_SECONDS_PER_10),
        cool_seconds_per_10=each.get("cool_seconds_per_10", COOL_SECONDS_PER_10),
        least_decicelsius=each.get("lowest_decicelsius"),
        most_decicelsius=each.get("highest_decicelsius"),
        can_stand_off_and_shut=each.get("can_stand_off_and_shut", False),
        capacity_note=bowl,
    )


def courses_in(file: dict) -> list[CourseEntry]:
    """The courses with units, outcomes and planned lessons, from courses.json."""
    return [
        CourseEntry(
            code=each["code"],
            name=each["name"],
            group=each["group"],
            units=tuple(_unit(unit) for unit in each["units"]),
            planned=tuple(_planned(lesson) for lesson in each["planned"]),
        )
        for each in file["courses"]
    ]


def _unit(each: dict) -> UnitEntry:
    outcomes = (OutcomeEntry(one["code"], one["name"], tuple(one["techniques"])) for one in each["outcomes"])
    return UnitEntry(each["code"], each["name"], tuple(outcomes))


def _planned(each: dict) -> PlannedEntry:
    said = ("week", "date", "kind", "dish", "note")
    return PlannedEntry(
        week=each["week"],
        on=date.fromisoformat(each["date"]),
        kind=each["kind"],
        dish=each["dish"],
        note=each.get("note", ""),
        inputs={"shape": 1, **{name: value for name, value in each.items() if name not in said}},
    )

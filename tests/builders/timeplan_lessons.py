"""Lessons of the demonstration college as the time plan reads them, without a database."""

from dataclasses import replace

from kitchen.timeplan.class_data import ApplianceData, BenchData, LessonData, ShownData
from tests.builders.recipes import college_recipe, fixture


def appliances_of(room: str) -> tuple[ApplianceData, ...]:
    """The appliances of a room of the college; an oven deck with its own thermostat is one."""
    entry = _room(room)
    return tuple(
        ApplianceData(
            code=each["code"],
            name=each["code"],
            kind=each["kind"],
            units=each.get("shelves") or each.get("rings") or each.get("places") or 1,
            heat_seconds_per_10=each.get("heat_seconds_per_10", 60),
            cool_seconds_per_10=each.get("cool_seconds_per_10", 120),
            least_decicelsius=each.get("lowest_decicelsius"),
            most_decicelsius=each.get("highest_decicelsius"),
            heats=tuple(each.get("heat", ())),
            may_stand_off=each.get("can_stand_off_and_shut", False),
        )
        for each in entry["appliances"]
    )


def _room(code: str) -> dict:
    return next(each for each in fixture("rooms.json")["rooms"] if each["code"] == code)


def college_lesson(code: str) -> LessonData:
    """A lesson of the college as it is planned in the end: pairs, variants, steps ahead, demonstrations."""
    entry = next(each for each in fixture("lessons.json")["lessons"] if each["code"] == code)
    variant = {each["bench"]: each["variant"] for each in entry.get("variants", ())}
    hour, minute = (int(part) for part in entry["starts"].split(":"))
    end_hour, end_minute = (int(part) for part in entry["ends"].split(":"))
    return LessonData(
        code=code,
        title=entry["title"],
        starts=60 * hour + minute,
        minutes=60 * (end_hour - hour) + end_minute - minute,
        benches=tuple(
            BenchData(
                name=str(place["bench"]),
                recipe=college_recipe(variant.get(place["bench"], entry["dish"])),
                learners=tuple(place["learners"]),
                cooks=len(place["learners"]),
            )
            for place in entry["places"]
        ),
        appliances=appliances_of(entry["room"]),
        room=_room(entry["room"])["name"],
        room_benches=len(_room(entry["room"])["benches"]),
        room_degrees=_room(entry["room"])["room_decicelsius"],
        ahead=tuple(entry.get("ahead_steps", ())),
        shown=tuple(ShownData(s["step"], s["minutes"], s["way"]) for s in entry["demonstration_stages"]),
    )


def first_wish() -> LessonData:
    """The quiche as its lecturer first wished it: everybody alone, from the start."""
    lesson = college_lesson("main-1")
    recipes = {"otto": college_recipe("V1"), "amir": college_recipe("V2")}
    names = [name for bench in lesson.benches for name in bench.learners]
    benches = tuple(
        BenchData(str(place), recipes.get(name, college_recipe("R01")), (name,), 1)
        for place, name in enumerate(names, 1)
    )
    return replace(lesson, benches=benches, ahead=())


def only_the_usual_way(lesson: LessonData) -> LessonData:
    """The lesson with recipes that know one way of each step."""
    benches = []
    for bench in lesson.benches:
        steps = tuple(replace(step, ways=step.ways[:1]) for step in bench.recipe.steps)
        benches.append(replace(bench, recipe=replace(bench.recipe, steps=steps)))
    return replace(lesson, benches=tuple(benches))


def class_of(recipe: str, room: str, benches: int, minutes: int, **changes) -> LessonData:
    """So many benches of one cook, all with one recipe."""
    lesson = LessonData(
        code=recipe,
        title=college_recipe(recipe).title,
        starts=540,
        minutes=minutes,
        benches=tuple(
            BenchData(str(n), college_recipe(recipe), (f"learner {n}",)) for n in range(1, benches + 1)
        ),
        appliances=appliances_of(room),
        room=_room(room)["name"],
        room_benches=len(_room(room)["benches"]),
    )
    return replace(lesson, **changes)

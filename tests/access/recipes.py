"""Who may open the pages of the recipe book."""

import uuid
from dataclasses import replace

from curriculum.recipes import actions
from curriculum.recipes.approval import actions as approval
from curriculum.recipes.data import ComponentData, LineData, TinData
from tests.access_matrix import Row, answers, everybody
from tests.builders.cast import shortbread

STAFF = "lecturer other_lecturer cover stores technician second_marker verifier manager"
LECTURERS = "lecturer other_lecturer cover"
OTHERS = "other_lecturer cover manager"
OPEN = {"code": "shortbread", "number": 1}


def draft(cast):
    """A draft that the lecturer wrote."""
    actions.write_recipe(recipe=shortbread(), by=cast.lecturer)
    return {"code": "shortbread", "number": 2}


def sent(cast):
    """A draft that its writer has sent for checking."""
    version = actions.write_recipe(recipe=shortbread(), by=cast.lecturer)
    approval.send_for_check(version=version, by=cast.lecturer)
    return {"code": "shortbread", "number": 2}


def checked(cast):
    """A version that the manager has checked."""
    version = actions.write_recipe(recipe=shortbread(), by=cast.lecturer)
    approval.send_for_check(version=version, by=cast.lecturer)
    approval.check(version=version, by=cast.manager)
    return {"code": "shortbread", "number": 2}


def component(cast):
    return draft(cast) | {"component": "A"}


def line(cast):
    return component(cast) | {"position": 1}


def spare(cast):
    """A draft with a component that no step needs, to take out."""
    version = actions.write_recipe(recipe=shortbread(), by=cast.lecturer)
    lines = (LineData(0, "butter", 5_000),)
    actions.put_component(
        version=version, component=ComponentData("B", "Wash", "fixed", lines), by=cast.lecturer
    )
    return {"code": "shortbread", "number": 2, "component": "B"}


def step(cast):
    return draft(cast) | {"position": 2}


def key(cast):
    return {"key": str(uuid.uuid4())}


def reason(cast):
    return key(cast) | {"words": "Step 2 has no cue."}


def new_component(cast):
    return {"name": "Glaze", "basis": "portions"} | key(cast)


def new_tin(cast):
    return ROUND_SAID | key(cast)


def copied(cast):
    return key(cast) | {"title": "Shortbread with lemon", "code": "lemon-shortbread"}


def varied(cast):
    """A draft of a variant."""
    made = replace(shortbread(), code="shortbread-2", variant_of="shortbread")
    actions.write_recipe(recipe=made, by=cast.lecturer)
    return {"code": "shortbread-2", "number": 1}


def writers(status):
    return answers(status, LECTURERS, rest=403)


def tin(cast):
    """A draft with one tin."""
    version = actions.write_recipe(recipe=replace(shortbread(), tins=(ROUND,)), by=cast.lecturer)
    return {"code": "shortbread", "number": version.number, "place": 1}


ROUND = TinData("round_tin", 1, "round", diameter_mm=240, depth_mm=30, lined_with="A")
ROUND_SAID = {"shape": "round", "kind": "round tin", "count": "1", "diameter_mm": "22", "depth_mm": "3"}

ROWS = (
    Row("recipes:book", "GET", everybody(200)),
    Row("recipes:recipe", "GET", everybody(200), {"code": "shortbread"}),
    Row("recipes:version", "GET", everybody(200), OPEN),
    Row("recipes:version", "GET", answers(200, STAFF, 404, "student other_student external"), draft),
    Row("recipes:scale", "GET", everybody(200), OPEN),
    Row("recipes:scale", "GET", answers(200, STAFF, 404, "student other_student external"), draft),
    Row("recipes:take_out_json", "GET", everybody(200), OPEN),
    Row("recipes:take_out_json", "GET", answers(200, STAFF, 404, "student other_student external"), draft),
    Row("recipes:take_out_text", "GET", everybody(200), OPEN),
    Row("recipes:take_out_text", "GET", answers(200, STAFF, 404, "student other_student external"), draft),
    Row("recipes:take_out_table", "GET", everybody(200), OPEN),
    Row("recipes:take_out_table", "GET", answers(200, STAFF, 404, "student other_student external"), draft),
    Row("recipes:techniques", "GET", everybody(200)),
    Row("recipes:technique", "GET", everybody(200), {"code": "rubbing_in"}),
    Row("recipes:new", "GET", writers(200)),
    Row("recipes:new", "POST", writers(200)),
    Row("recipes:compare", "GET", everybody(200), {"code": "shortbread"}),
    Row("recipes:variant", "GET", writers(200), OPEN),
    Row("recipes:variant", "POST", writers(200), OPEN),
    Row("recipes:against", "GET", everybody(404), OPEN),
    Row("recipes:against", "GET", answers(200, STAFF, 404, "student other_student external"), varied),
    Row("recipes:copy", "GET", writers(200), OPEN),
    Row("recipes:copy", "POST", writers(302), OPEN, copied),
    Row("recipes:revise", "POST", writers(302), OPEN, key),
    Row("recipes:send", "POST", writers(302), draft),
    Row("recipes:check", "POST", answers(302, OTHERS, 409, "lecturer", rest=403), sent),
    Row("recipes:approve", "POST", answers(302, OTHERS, 409, "lecturer", rest=403), checked),
    Row("recipes:back", "POST", writers(302), checked),
    Row("recipes:send_back", "GET", answers(200, OTHERS, 409, "lecturer", rest=403), sent),
    Row("recipes:send_back", "POST", answers(302, OTHERS, 200, "lecturer", rest=403), sent, reason),
    Row("recipes:withdraw", "GET", answers(200, f"{LECTURERS} manager", rest=403), OPEN),
    Row("recipes:withdraw", "POST", answers(302, f"{LECTURERS} manager", rest=403), OPEN, key),
    Row("recipes:write", "GET", writers(200), draft),
    Row("recipes:write", "GET", writers(409), OPEN),
    Row("recipes:title", "GET", writers(200), draft),
    Row("recipes:title", "POST", writers(200), draft),
    Row("recipes:new_component", "GET", writers(200), draft),
    Row("recipes:new_component", "POST", writers(302), draft, new_component),
    Row("recipes:component", "GET", writers(200), component),
    Row("recipes:component", "POST", writers(302), component, {"name": "Paste", "basis": "portions"}),
    Row("recipes:remove_component", "POST", writers(302), spare),
    Row("recipes:paste", "GET", writers(200), component),
    Row("recipes:paste", "POST", writers(200), component, {"text": "50 g butter"}),
    Row("recipes:new_line", "GET", writers(200), component),
    Row("recipes:new_line", "POST", writers(200), component),
    Row("recipes:line", "GET", writers(200), line),
    Row("recipes:line", "POST", writers(200), line),
    Row("recipes:remove_line", "POST", writers(302), line),
    Row("recipes:new_step", "GET", writers(200), draft),
    Row("recipes:new_step", "POST", writers(200), draft),
    Row("recipes:step", "GET", writers(200), step),
    Row("recipes:step", "POST", writers(200), step),
    Row("recipes:remove_step", "POST", writers(302), step),
    Row("recipes:earlier", "POST", writers(302), step),
    Row("recipes:later", "POST", writers(302), step),
    Row("recipes:component_earlier", "POST", writers(302), component),
    Row("recipes:component_later", "POST", writers(302), component),
    Row("recipes:line_earlier", "POST", writers(302), line),
    Row("recipes:line_later", "POST", writers(302), line),
    Row("recipes:finished", "GET", writers(200), draft),
    Row("recipes:finished", "POST", writers(302), draft, {"rows": "2"}),
    Row("recipes:new_tin", "GET", writers(200), draft),
    Row("recipes:new_tin", "POST", writers(302), draft, new_tin),
    Row("recipes:tin", "GET", writers(200), tin),
    Row("recipes:tin", "POST", writers(302), tin, new_tin),
    Row("recipes:remove_tin", "POST", writers(302), tin),
)

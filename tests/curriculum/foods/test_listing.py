from curriculum.foods.listing import line_of
from tests.builders.recipes import college_food


def test_a_food_says_how_it_is_kept_handed_out_and_declared():
    egg = line_of(college_food("egg_in_shell"))
    assert egg.contains == ("egg",) and "pieces of 57 g" in egg.facts and egg.is_read
    assert "75 % usable" in line_of(college_food("leek")).facts
    assert not line_of(college_food("gluten_free_flour_blend")).is_read
    assert line_of(college_food("water")).is_read

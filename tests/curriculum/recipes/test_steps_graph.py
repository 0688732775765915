from dataclasses import replace

import pytest

from curriculum.recipes import steps_graph
from curriculum.recipes.data import AfterData, RecipeData, StayData, StepData, WayData
from tests.builders.recipes import college_recipe

OVEN = StayData(20, "oven", 1800, "fan")


def _step(position, *after, words="Stir the cream over the ice until it is thick", stays=()):
    links = tuple(each if isinstance(each, AfterData) else AfterData(each) for each in after)
    return StepData(position, words, (WayData("hand", 5),), stays, links)


def _recipe(*steps):
    return RecipeData("x", "X", 1, "foundation", 8, 8, 0, (), steps, ())


DIAMOND = _recipe(_step(1), _step(2, 1), _step(3, AfterData(1, 30, 125)), _step(4, 2, 1))


def test_a_step_stands_one_row_below_the_lowest_it_waits_for():
    assert steps_graph.layers(DIAMOND) == {1: 0, 2: 1, 3: 1, 4: 2}
    graph = steps_graph.draw(DIAMOND)
    tops = {node.position: node.y for node in graph.nodes}
    assert tops[1] < tops[2] == tops[3] < tops[4]
    assert graph.said == "Four steps in three rows, at most two steps side by side."


def test_every_wait_is_an_arrow_from_the_step_needed_to_the_one_that_waits():
    graph = steps_graph.draw(DIAMOND)
    nodes = {node.position: node for node in graph.nodes}
    assert {(each.needs, each.position) for each in graph.arrows} == {(1, 2), (1, 3), (2, 4), (1, 4)}
    for arrow in graph.arrows:
        assert arrow.points[0] == (nodes[arrow.needs].middle, nodes[arrow.needs].y + steps_graph.NODE_HEIGHT)
        x, y = arrow.points[-1]
        assert y == nodes[arrow.position].y
        assert nodes[arrow.position].x < x < nodes[arrow.position].x + nodes[arrow.position].width


HOLDS = [
    (AfterData(1), ""),
    (AfterData(1, 30), "at least 30 min"),
    (AfterData(1, 0, 20), "within 20 min"),
    (AfterData(1, 30, 125), "at least 30 min, within 2 h 05"),
    (AfterData(1, 0, 0), "at once"),
]


@pytest.mark.parametrize(("after", "words"), HOLDS)
def test_least_and_longest_holds_are_words_on_the_arrow(after, words):
    assert steps_graph.hold_words(after) == words
    graph = steps_graph.draw(_recipe(_step(1), _step(2, after)))
    assert [arrow.words for arrow in graph.arrows] == [words]


def test_where_several_arrows_end_the_words_name_the_step_they_come_from():
    graph = steps_graph.draw(_recipe(_step(1), _step(2), _step(3, AfterData(1, 10), AfterData(2, 0, 5))))
    assert [each.words for each in graph.arrows] == ["after 1: at least 10 min", "after 2: within 5 min"]
    assert len({each.words_y for each in graph.arrows}) == 2


def test_a_ring_is_not_drawn_but_named():
    ring = _recipe(_step(1, 3), _step(2, 1), _step(3, 2))
    assert steps_graph.draw(ring) is None
    assert steps_graph.loop_words(ring).startswith("Step 1 waits for step 3, which waits for step 2")
    assert steps_graph.loop_words(DIAMOND) == "" and steps_graph.draw(_recipe()) is None


def _large():
    """Thirty steps in five branches that join, with arrows that pass rows."""
    steps = [_step(n, *([n - 5] if n > 5 else []), stays=(OVEN,) if n % 7 == 0 else ()) for n in range(1, 30)]
    return _recipe(*steps, _step(30, *(AfterData(n, n, 10 * n) for n in (3, 25, 26, 27, 28, 29))))


def overlaps(graph):
    """Pairs of boxes that lie on one another, and passing arrows that run through a box."""
    found = []
    for node in graph.nodes:
        for other in graph.nodes:
            if node.position < other.position and node.y == other.y and abs(node.x - other.x) < node.width:
                found.append((node.position, other.position))
        for arrow in graph.arrows:
            for x1, y1, x2, y2 in arrow.segments:
                through = x1 == x2 and node.x < x1 < node.x + node.width and y1 < node.y + 20 < y2
                found += [(arrow, node.position)] if through else []
    return found


@pytest.mark.parametrize("recipe", [_large(), DIAMOND, *map(college_recipe, ("R01", "R02", "R03", "R09"))])
def test_no_box_lies_on_another_and_no_arrow_runs_through_one(recipe):
    graph = steps_graph.draw(recipe)
    assert len(graph.nodes) == len(recipe.steps)
    assert overlaps(graph) == []
    assert all(node.x >= 0 and node.x + node.width <= graph.width for node in graph.nodes)
    assert all(node.y + steps_graph.NODE_HEIGHT <= graph.height for node in graph.nodes)


def test_a_box_moved_onto_another_is_caught():
    graph = steps_graph.draw(DIAMOND)
    onto = replace(graph.nodes[1], x=graph.nodes[2].x + 1)
    assert overlaps(replace(graph, nodes=(graph.nodes[0], onto, *graph.nodes[2:])))


def test_words_fit_their_box_in_at_most_two_rows():
    for node in steps_graph.draw(_large()).nodes:
        assert len(node.rows) <= 2
        assert all(len(row) * steps_graph.LETTER <= node.width for row in (*node.rows, node.takes))


def test_ten_branches_side_by_side_widen_the_drawing_and_keep_their_width():
    graph = steps_graph.draw(_recipe(*(_step(n) for n in range(1, 11))))
    assert graph.width > steps_graph.WIDTH and graph.nodes[0].width == steps_graph.NARROWEST
    assert overlaps(graph) == []


def test_words_on_arrows_stand_apart():
    arrows = [each for each in steps_graph.draw(_large()).arrows if each.words]
    for one in arrows:
        for other in arrows:
            half = (len(one.words) + len(other.words)) * steps_graph.LETTER / 2
            assert one is other or one.words_y != other.words_y or abs(one.words_x - other.words_x) >= half


def test_the_text_beside_names_every_wait():
    assert steps_graph.draw(DIAMOND).links == (
        "Step 1 waits for nothing.",
        "Step 2 waits for step 1.",
        "Step 3 waits for step 1 (at least 30 min, within 2 h 05).",
        "Step 4 waits for step 2 and step 1.",
    )

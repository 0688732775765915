"""The frozen dataclasses that every calculation speaks: one whole recipe, with its foods.

For whoever writes a calculation: nothing here knows Django. ``queries.recipe_data``
makes these from rows, ``sheets.read_sheet`` makes them from the frozen sheet of an
approved version. All stored amounts are whole milligrams; temperatures are tenths
of a degree Celsius; shares are per mille; lengths are millimetres.
"""

from dataclasses import dataclass, field

from curriculum.foods.data import FoodData

#: How a component is made larger or smaller.
BASES = ("portions", "lined_area", "filled_volume", "pieces", "vessel", "minimum", "fixed")
#: How one line behaves when one batch in one pan is itself made larger or smaller.
SCALING_CLASSES = (
    "linear",
    "seasoning",
    "leavening",
    "gelling",
    "piece",
    "minimum_mass",
    "frying_fat",
    "evaporating",
    "vessel",
    "range",
)


@dataclass(frozen=True, slots=True)
class LineData:
    """One line of a component.

    ``milligrams`` is the weight ``weight_is`` says: "prepared" (what reaches the pan) or
    "as_bought". ``issued`` says what the bench is given: "prepared" by the stores or
    "as_bought" for the learner to trim, peel or separate. ``yield_per_mille`` and
    ``scaling_class`` override the food's when not None. ``held_back_milligrams`` is the
    part of ``milligrams`` that is added only as needed. ``least``/``most`` are a range
    decided by the cue. ``target_milligrams`` is the weight to reduce to. ``part`` is
    "recipe", "over_issue" or "test_piece"; ``pieces`` is set for foods counted in pieces.
    ``minimum_milligrams`` is the least that works at all (a bath of couverture), of which
    ``returned_milligrams`` go back to the stores. ``milligrams_per_litre`` and ``vessel_ml``
    say what a line of scaling class "vessel" is reckoned from. ``enters_portion`` is False
    for what is thrown away or taken out (blanching salt, a vanilla pod). ``written`` is the
    amount as the writer wrote it ("1 1/2 cups", in the ``measures`` of the recipe); the
    milligrams rule.
    """

    position: int
    food: str
    milligrams: int
    pieces: int | None = None
    weight_is: str = "prepared"
    issued: str = "prepared"
    yield_per_mille: int | None = None
    scaling_class: str | None = None
    least_milligrams: int | None = None
    most_milligrams: int | None = None
    held_back_milligrams: int = 0
    target_milligrams: int | None = None
    part: str = "recipe"
    purpose: str = ""
    note: str = ""
    minimum_milligrams: int | None = None
    returned_milligrams: int | None = None
    milligrams_per_litre: int | None = None
    vessel_ml: int | None = None
    enters_portion: bool = True
    written: str = ""


@dataclass(frozen=True, slots=True)
class ComponentData:
    """One component (paste, filling, sauce) with its lines and its own basis of scaling.

    ``piece_count`` pieces of ``piece_milligrams`` raw weight are shaped from it where the
    recipe says so (16 rolls of 55 g).
    """

    code: str
    name: str
    basis: str
    lines: tuple[LineData, ...]
    target_milligrams: int | None = None
    note: str = ""
    piece_count: int | None = None
    piece_milligrams: int | None = None


@dataclass(frozen=True, slots=True)
class TinData:
    """A tin or mould of the recipe: which component lines it, which fill it.

    ``shape`` is round, fluted, square, rectangular, ring, dariole, loaf, sheet or cavity; lengths
    in millimetres; ``volume_ml`` is set where only a volume is known (a dariole, a mould).
    """

    kind: str
    count: int
    shape: str
    diameter_mm: int | None = None
    length_mm: int | None = None
    width_mm: int | None = None
    depth_mm: int | None = None
    volume_ml: int | None = None
    lined_with: str | None = None
    filled_with: tuple[str, ...] = ()
    paste_thickness_tenths_mm: int | None = None
    overhang_mm: int = 0
    pieces_per_tin: int = 1


@dataclass(frozen=True, slots=True)
class WayData:
    """One way to do a step: by hand or by machine, each with its own active minutes.

    ``at`` is where the hands work: bench, ring, mixer, food_processor, torch_station,
    pass. ``name`` is "hand" or "machine"; the first way of a step is the usual one.
    ``least_milligrams`` and ``most_milligrams`` are what one load of the machine needs and
    holds; None where it has no such limit. Of the ``active_minutes``, which are those of the
    portions stated, each portion takes ``portion_seconds``: piping and plating grow with the
    number, whisking does not.
    """

    name: str
    active_minutes: int
    at: str = "bench"
    words: str = ""
    least_milligrams: int | None = None
    most_milligrams: int | None = None
    portion_seconds: int = 0


@dataclass(frozen=True, slots=True)
class StayData:
    """One stay of the food while nobody works on it: in an oven, a chiller, on the bench.

    ``appliance_kind`` is None for the bench. ``door`` is "may_open", "shut" (no door opened
    during the stay) or "off_and_shut" (heat off, door closed). ``heat`` is "fan",
    "conventional" or "". ``shelves`` is the number of oven shelves taken.
    """

    minutes: int
    appliance_kind: str | None = None
    decicelsius: int | None = None
    heat: str = ""
    door: str = "may_open"
    shelves: int = 1


@dataclass(frozen=True, slots=True)
class AfterData:
    """This step may begin only after step ``needs``: at least and at most so many minutes.

    The minutes run from the end of the step needed to the start of this one.
    ``longest_minutes`` None means that it keeps.
    """

    needs: int
    least_minutes: int = 0
    longest_minutes: int | None = None


@dataclass(frozen=True, slots=True)
class StepData:
    """One step: hands work for the way's minutes, then the food stays (or first, if ``wait_first``).

    ``components`` are codes; ``core_decicelsius``/``core_most_decicelsius`` and
    ``core_seconds`` are what the probe must show; ``target_*`` another temperature to
    watch and of what; ``kept`` where the result waits; ``ahead_possible`` whether stores or
    technician may do it before the lesson.
    """

    position: int
    words: str
    ways: tuple[WayData, ...]
    stays: tuple[StayData, ...] = ()
    after: tuple[AfterData, ...] = ()
    components: tuple[str, ...] = ()
    wait_first: bool = False
    cue: str = ""
    caution: str = ""
    techniques: tuple[str, ...] = ()
    supervised: bool = False
    shown_first: bool = False
    checked_by_lecturer: bool = False
    core_decicelsius: int | None = None
    core_most_decicelsius: int | None = None
    core_seconds: int | None = None
    target_low_decicelsius: int | None = None
    target_high_decicelsius: int | None = None
    target_of: str = ""
    kept: str = "bench"
    ahead_possible: bool = False

    @property
    def active_minutes(self) -> int:
        """Minutes of hands by the usual way."""
        return self.ways[0].active_minutes

    @property
    def waiting_minutes(self) -> int:
        """Minutes in which the food stays and the hands are free."""
        return sum(stay.minutes for stay in self.stays)


@dataclass(frozen=True, slots=True)
class FinishedData:
    """What some components together weigh when finished, and how much of it makes a portion."""

    components: tuple[str, ...]
    milligrams: int
    milligrams_per_portion: int
    basis: str = ""


@dataclass(frozen=True, slots=True)
class EquipmentData:
    """Small equipment a bench needs; ``shared_by_room`` is counted once a room."""

    item: str
    count: int
    shared_by_room: bool = False


@dataclass(frozen=True, slots=True)
class RecipeData:
    """One whole version of a recipe with its foods, as it was approved to teach.

    A variant is a recipe of its own: ``variant_of`` holds the code of the ordinary one,
    ``free_from`` the kinds it leaves out, ``techniques_lost`` what it no longer shows.
    Over-issue (dusting, greasing) is a component of basis "fixed" whose lines have the
    part "over_issue". ``may_be_cut_for`` holds other portion counts of the same dish;
    ``not_served`` the components that stay in the kitchen; ``plate_decicelsius`` is the
    temperature of the plate, None where it does not matter. ``measures`` is the system its
    lines are written in (see ``foods.units``; empty: grams). ``carried`` is what came with an
    imported recipe and has no place here: (name, JSON text) pairs.
    """

    code: str
    title: str
    number: int
    level: str
    portions_stated: int
    portions_obtainable: int
    portion_milligrams: int
    components: tuple[ComponentData, ...]
    steps: tuple[StepData, ...]
    foods: tuple[FoodData, ...]
    unit: str = "portion"
    presentation: str = ""
    notes: str = ""
    tins: tuple[TinData, ...] = ()
    finished: tuple[FinishedData, ...] = ()
    equipment: tuple[EquipmentData, ...] = ()
    serve_low_decicelsius: int | None = None
    serve_high_decicelsius: int | None = None
    variant_of: str | None = None
    free_from: tuple[str, ...] = ()
    techniques_lost: tuple[str, ...] = ()
    reject_per_mille: int = 0
    caution: str = ""
    plate_decicelsius: int | None = None
    may_be_cut_for: tuple[int, ...] = ()
    not_served: tuple[str, ...] = ()
    measures: str = ""
    carried: tuple[tuple[str, str], ...] = ()
    shape: int = field(default=1)

    def food(self, code: str) -> FoodData:
        """The food of that code. KeyError when the recipe does not use it."""
        for food in self.foods:
            if food.code == code:
                return food
        raise KeyError(code)

    def step(self, position: int) -> StepData:
        """The step at that position. KeyError when there is none."""
        for step in self.steps:
            if step.position == position:
                return step
        raise KeyError(position)

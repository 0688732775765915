"""Plans made by hand: a lesson from 09:00 to 12:00 with one demonstration, for what draws and counts."""

from kitchen.timeplan.plan import Bar, BenchPlan, Heat, LessonPlan, OvenPlan, PlanLine, ShowPlan


def a_plan(*benches: BenchPlan) -> LessonPlan:
    """A plan of those benches; step 2 is shown at 09:00 for five minutes, the oven holds two heats."""
    heats = (Heat(600, 615, 1800, ("1",)), Heat(630, 660, 1550, ("2",)))
    return LessonPlan(
        title="Leek tart",
        room="Juniper Kitchen",
        starts=540,
        ends=720,
        cooking_from=555,
        usable_minutes=135,
        finish_minutes=100,
        bound_minutes=90,
        status="found",
        waves=1,
        clock_minutes=5,
        benches=benches,
        ovens=(OvenPlan("oven-1", "Oven 1", 582, heats),),
        shows=(ShowPlan(540, 5, 2, "live", "Line the tin."),),
    )


def a_bench(name: object, beside: str = "") -> BenchPlan:
    """A bench that works from 09:20 for twenty minutes, then waits and bakes for half an hour each."""
    bars = (Bar(560, 20, "hands", 2), Bar(580, 30, "wait", 2), Bar(610, 30, "oven", 3, "Oven 1"))
    lines = (PlanLine(560, 580, 2, "Line the tin.", 20, beside=beside),)
    return BenchPlan(str(name), ("Ada Low",), "Tart", 1, bars, lines)
